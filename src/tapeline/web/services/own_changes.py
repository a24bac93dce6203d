"""Make a shipped activity hers, line by line; and go back to the shipped words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from tapeline.activities.check import check_activity
from tapeline.activities.models import Library
from tapeline.activities.overlay import line_of
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import OwnChange
from tapeline.caseload.own_library import checked_library, library_in_force
from tapeline.errors import InputError, ManyFaults
from tapeline.web.records.convert import own_piece_to_row, own_pieces_from_rows
from tapeline.web.records.convert.own_library import IN_FORCE
from tapeline.web.records.models import OwnPiece
from tapeline.web.services.kept_texts import texts_keep_before
from tapeline.web.services.saving import saving

BELOW = tuple(kind for kind in IN_FORCE if kind != "change")


def library_below() -> Library:
    """The library without her changes: shipped words, and what is wholly hers."""
    return library_in_force(Caseload(**own_pieces_from_rows(*BELOW)))


def lines_change(*, activity: str, version: str, lines: Mapping[str, Any]) -> int:
    """Keep what she wrote in lines of an activity; a line as shipped is no change of hers.

    Parameters
    ----------
    version
        The end of the version's id; empty for lines of the activity itself.
    lines
        What each line says now, by its name (`tapeline.activities.overlay`).

    Returns
    -------
    How many of these lines are hers now.

    Raises
    ------
    InputError
        There is no such line, or a line cannot be used.
    ManyFaults
        Several faults; nothing was kept.
    """
    with saving():
        texts_keep_before(activity)
        made = []
        for name, now in lines.items():
            was = _shipped_line(activity, version, name)
            key = OwnChange(activity=activity, version=version, field=name, now=now, was=was)
            if now == was:
                OwnPiece.objects.filter(kind="change", key=key.id).delete()
                continue
            made.append(key)
            own_piece_to_row("change", key)
        refuse_faulty(activity)
    return len(made)


def lines_take_back(*, activity: str, keys: Iterable[str] = ()) -> int:
    """Go back to the shipped words: of the lines named, or of the whole activity.

    Parameters
    ----------
    keys
        Ids of changes (`OwnChange.id`); none means all of the activity.
    """
    with saving():
        texts_keep_before(activity)
        wanted = OwnPiece.objects.filter(kind="change", key__startswith=f"{activity}/")
        named = tuple(keys)
        if named:
            wanted = wanted.filter(key__in=named)
        count: int = wanted.delete()[0]
    return count


def refuse_faulty(activity: str) -> None:
    """Refuse what was just written when the activity would not stand the library's check.

    Raises
    ------
    ManyFaults
        With every fault of the activity.
    """
    from tapeline.activities.loader import load_rule_book

    library = checked_library(Caseload(**own_pieces_from_rows(*IN_FORCE)))
    below = library_below()
    faults = set(_faults_of(activity, below, load_rule_book()))
    found = [
        InputError(_said(fault, activity), field="lines")
        for fault in _faults_of(activity, library, load_rule_book())
        if fault not in faults
    ]
    if found:
        raise ManyFaults(found, where="What you wrote")


def _said(fault: str, activity: str) -> str:
    """A fault without the id of its version: she has the version before her."""
    return re.sub(rf"^{re.escape(activity)}(\.[\w.]+)? ", "It ", fault)


def _faults_of(activity: str, library: Library, book: Any) -> tuple[str, ...]:
    found = library.activities.get(activity)
    return check_activity(found, library, book) if found else ()


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
