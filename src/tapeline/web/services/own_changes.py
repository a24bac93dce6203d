"""Make a shipped activity hers, line by line; and go back to the shipped words."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from typing import Any

from tapeline.activities.check import check_activity
from tapeline.activities.lines import IN_SPANISH, READ, line_of, version_with_tail
from tapeline.activities.models import Library
from tapeline.activities.own_spanish import SpanishTyped, line_fingerprint, read_fingerprint
from tapeline.activities.spanish import spanish_of
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import OwnChange
from tapeline.caseload.own_library import checked_library, library_in_force
from tapeline.errors import InputError, ManyFaults
from tapeline.web.records.convert import own_piece_to_row, own_pieces_from_rows
from tapeline.web.records.convert.own_library import IN_FORCE
from tapeline.web.records.models import OwnPiece
from tapeline.web.selectors.library import library_now
from tapeline.web.services.kept_texts import texts_keep_before
from tapeline.web.services.saving import saving

BELOW = tuple(kind for kind in IN_FORCE if kind != "change")


def library_below() -> Library:
    """The library without her changes: shipped words, and what is wholly hers."""
    return library_in_force(Caseload(**own_pieces_from_rows(*BELOW)))


def lines_change(
    *,
    activity: str,
    version: str,
    lines: Mapping[str, Any],
    spanish: SpanishTyped | None = None,
) -> int:
    """Keep what she wrote in lines of an activity; a line as shipped is no change of hers.

    Parameters
    ----------
    version
        The end of the version's id; empty for lines of the activity itself.
    lines
        What each line says now, by its name (`tapeline.activities.lines`).
    spanish
        The same lines as far as families read them, in Spanish.

    Returns
    -------
    How many of these lines are hers now, in either language.

    Raises
    ------
    InputError
        There is no such line, or a line cannot be used.
    ManyFaults
        Several faults; nothing was kept.
    """
    with saving():
        texts_keep_before(activity)
        key = f"{activity}.{version}" if version else activity
        known = {
            *faults_now(activity, library_below()),
            *faults_elsewhere(key, faults_now(activity, library_now())),
        }
        was = {name: _shipped_line(activity, version, name) for name in lines}
        made = [
            OwnChange(activity=activity, version=version, field=name, now=now, was=was[name])
            for name, now in lines.items()
            if now != was[name]
        ]
        if spanish is not None:
            made += _in_spanish(activity, version, lines, was, spanish)
        _put(activity, version, made, names=(*lines, *(spanish.lines if spanish else ())))
        if spanish is not None and version:
            _tick(activity, version, is_read=spanish.is_read)
        refuse_faulty(activity, known)
    return len(made)


def _in_spanish(
    activity: str,
    version: str,
    english: Mapping[str, Any],
    shipped: Mapping[str, Any],
    spanish: SpanishTyped,
) -> list[OwnChange]:
    """Lines of Spanish that are hers: other words than shipped, or the words of other English.

    Spanish that she left as it was beside English she changed is hers only when she says that
    it still fits; else the line has no Spanish, or a stale one.
    """
    now, made = library_now().activities[activity], []
    kept = {one.id: one for one in own_pieces_from_rows("change").get("own_changes", ())}
    for name, words in spanish.lines.items():
        key = OwnChange(activity=activity, version=version, field=f"{IN_SPANISH}{name}", now=words)
        was = _shipped_line(activity, version, key.field)
        is_shipped = english[name] == shipped[name] and words == was
        if not words or not english[name] or is_shipped:
            continue
        is_new = words != line_of(now, version, key.field) or spanish.says_the_same
        before = kept.get(key.id)
        if before is None and not is_new:
            continue
        of = line_fingerprint(english[name]) if is_new or before is None else before.english
        made.append(replace(key, was=was, english=of))
    return made


def _put(activity: str, version: str, made: list[OwnChange], *, names: Iterable[str]) -> None:
    """Write the changes, and take away those of the other lines named here."""
    start = f"{activity}/{version}/"
    every = {f"{start}{before}{name}" for name in names for before in ("", IN_SPANISH)}
    gone = every - {one.id for one in made}
    OwnPiece.objects.filter(kind="change", key__in=gone).delete()
    for change in made:
        own_piece_to_row("change", change)


def _tick(activity: str, version: str, *, is_read: bool) -> None:
    """Keep that a person has read the Spanish of a version as it is now, or that nobody has."""
    key = OwnChange(activity=activity, version=version, field=READ, now="", was="")
    OwnPiece.objects.filter(kind="change", key=key.id).delete()
    found = library_now().activities[activity]
    there = version_with_tail(found, version)
    lines = spanish_of(found, there).lines if there else {}
    if is_read and any(lines.values()):
        own_piece_to_row("change", replace(key, now=read_fingerprint(lines)))


def lines_take_back(*, activity: str, keys: Iterable[str] = ()) -> int:
    """Go back to the shipped words: of the lines named, or of the whole activity.

    Parameters
    ----------
    keys
        Ids of changes (`OwnChange.id`); none means all of the activity. The Spanish of a line
        goes with its English.
    """
    with saving():
        texts_keep_before(activity)
        wanted = OwnPiece.objects.filter(kind="change", key__startswith=f"{activity}/")
        named = tuple(keys)
        count = len(named)
        if named:
            wanted = wanted.filter(key__in={other for key in named for other in _with_spanish(key)})
        else:
            count = wanted.exclude(key__endswith=f"/{READ}").count()
        wanted.delete()
    return count


def _with_spanish(key: str) -> tuple[str, ...]:
    """The id of a change, and those that go with it."""
    start, _stroke, name = key.rpartition("/")
    return (key, f"{start}/{IN_SPANISH}{name}", f"{start}/{READ}")


def refuse_faulty(activity: str, known: Collection[str]) -> None:
    """Refuse what was just written when the activity would not stand the library's check.

    Parameters
    ----------
    known
        Faults that were there before, which she need not mend now.

    Raises
    ------
    ManyFaults
        With every fault of the activity.
    """
    library = checked_library(Caseload(**own_pieces_from_rows(*IN_FORCE)))
    found = [
        InputError(_said(fault, activity), field="lines")
        for fault in faults_now(activity, library)
        if fault not in known
    ]
    if found:
        raise ManyFaults(found, where="What you wrote")


def faults_elsewhere(key: str, faults: Iterable[str]) -> frozenset[str]:
    """The faults that are not of a version, or not of an activity's own lines: not at hand now."""
    return frozenset(fault for fault in faults if f"{key} " not in fault)


def faults_now(activity: str, library: Library) -> tuple[str, ...]:
    """Every fault of an activity as a library has it; none where it has no such activity."""
    from tapeline.activities.loader import load_rule_book

    found = library.activities.get(activity)
    return check_activity(found, library, load_rule_book()) if found else ()


def _said(fault: str, activity: str) -> str:
    """A fault without the id of its version: she has the version before her."""
    name = rf"{re.escape(activity)}(\.[\w.]+)? "
    return re.sub(rf"^{name}", "It ", re.sub(rf"^The Spanish of {name}", "Its Spanish ", fault))


def _shipped_line(activity: str, version: str, name: str) -> Any:
    found = library_below().activities.get(activity)
    line = line_of(found, version, name) if found else None
    if line is None:
        raise InputError(
            f"There is no line {name!r} in {activity} {version}.".replace(" .", "."),
            field=name,
            hint="Open the activity anew.",
        )
    return line
