"""Her own activities as one file that another therapist can add: no child is in it.

Nothing of the other's is ever overwritten: what has an id that is taken gets another one, a
line that she changed herself stays as she wrote it, and what is there already is left alone.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any, Literal

from pydantic import TypeAdapter, ValidationError

from tapeline import __version__
from tapeline.activities.check import check_activity
from tapeline.activities.draft import free_id
from tapeline.activities.lines import IN_SPANISH, READ
from tapeline.activities.models import Library
from tapeline.activities.overlay import applies
from tapeline.activities.rules import RuleBook
from tapeline.caseload.caseload import Caseload, fingerprint
from tapeline.caseload.hers import OwnChange
from tapeline.caseload.own_library import checked_library, library_in_force, version_key
from tapeline.caseload.record import record
from tapeline.errors import InputError, ManyFaults

FORMAT = 1
KIND = "tapeline activities"
MOST_BYTES = 2_000_000
Row = dict[str, Any]
Verdict = Literal["new", "renamed", "same", "kept_hers", "no_line"]


@record
class ShareFile:
    """What the file holds (docs/share-file.md)."""

    kind: str
    format: int = FORMAT
    program: str = ""
    by: str = ""
    activities: tuple[Row, ...] = ()
    versions: tuple[Row, ...] = ()
    materials: tuple[Row, ...] = ()
    changes: tuple[OwnChange, ...] = ()


ADAPTER: TypeAdapter[ShareFile] = TypeAdapter(ShareFile)


@dataclass(frozen=True, kw_only=True)
class ShareLine:
    """What would happen to one thing of the file; `id` is the one it gets here."""

    kind: str
    id: str
    name: str
    verdict: Verdict


@dataclass(frozen=True, kw_only=True)
class Shared:
    """Every thing of a file with its verdict, and what is left to write."""

    by: str
    lines: tuple[ShareLine, ...]
    writes: Caseload

    @property
    def adds_something(self) -> bool:
        """Whether anything would be written."""
        return any(line.verdict in ("new", "renamed") for line in self.lines)

    @property
    def digest(self) -> str:
        """Changes when what would happen changes."""
        return fingerprint(self.lines)


def share_text(caseload: Caseload, *, only: Collection[str] = ()) -> str:
    """The file's text.

    Parameters
    ----------
    only
        Ids of activities to give away, with the versions, changes and things that belong to
        them; none means everything of hers.

    Raises
    ------
    InputError
        There is nothing to give away.
    """
    found = _of(caseload, frozenset(only))
    if not any((found.activities, found.versions, found.materials, found.changes)):
        raise InputError(
            "There is nothing of yours to give away.",
            field="activity",
            hint="Write an activity, or choose one that is yours.",
        )
    plain = ADAPTER.dump_python(found, mode="json")
    return json.dumps(plain, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def _of(caseload: Caseload, only: frozenset[str]) -> ShareFile:
    activities = _rows(caseload.own_activities, "id", only)
    versions = _rows(caseload.own_versions, "activity", only)
    named = {thing for row in (*activities, *versions) for thing in _things_in(row)}
    return ShareFile(
        kind=KIND,
        program=f"tapeline {__version__}",
        by=caseload.therapist.name,
        activities=tuple(map(_given, activities)),
        versions=tuple(map(_given, versions)),
        materials=tuple(
            row for row in caseload.own_materials if not only or row.get("id") in named
        ),
        changes=tuple(
            one
            for one in caseload.own_changes
            if one.field != READ and (not only or one.activity in only)
        ),
    )


def _given(row: Row) -> Row:
    """A row as it is given away: not what it said before, nor that she has read its Spanish."""
    made = {name: value for name, value in row.items() if name != "before"}
    if isinstance(made.get("spanish"), dict):
        made["spanish"] = {**made["spanish"], "read": ""}
    elif "spanish" in made and made["spanish"] is None:
        made.pop("spanish")
    if isinstance(made.get("versions"), list | tuple):
        made["versions"] = [
            _given(one) if isinstance(one, dict) else one for one in made["versions"]
        ]
    return made


def _rows(rows: Iterable[Row], field: str, only: frozenset[str]) -> tuple[Row, ...]:
    return tuple(row for row in rows if not only or row.get(field) in only)


def parse_share(text: str, *, name: str) -> ShareFile:
    """The file in a text; `name` is what its faults call it.

    Raises
    ------
    InputError
        It is too large, no JSON, or another kind of file.
    ManyFaults
        Its shape is wrong somewhere.
    """
    size = len(text.encode())
    if size > MOST_BYTES:
        raise InputError(
            f"{name} is {size / 1e6:.1f} MB; a file of activities has at most 2 MB.",
            field="file",
            hint="Choose the file that tapeline wrote.",
        )
    try:
        data = json.loads(text)
    except (json.JSONDecodeError, RecursionError):
        data = None
    if not isinstance(data, dict) or data.get("kind") != KIND:
        raise InputError(
            f"{name} is no file of activities.",
            field="file",
            hint="Choose one that was made under 'With other therapists'.",
        )
    if data.get("format") != FORMAT:
        raise InputError(
            f"{name} is of format {data.get('format')!r}; this program reads format {FORMAT}.",
            field="format",
            hint="Add it with the version of tapeline that wrote it, or a newer one.",
        )
    try:
        return ADAPTER.validate_python(data)
    except ValidationError as error:
        faults = [
            InputError(f"{', '.join(map(str, row['loc']))}: {row['msg']}.", field="file")
            for row in error.errors(include_url=False)
        ]
        raise ManyFaults(faults, where=name) from None


def share_look(file: ShareFile, now: Caseload, book: RuleBook, *, name: str) -> Shared:
    """What adding a file would do; nothing of hers is overwritten.

    Raises
    ------
    ManyFaults
        Something in the file cannot be used, or would not stand the library's check; then
        nothing of it may be added.
    """
    _refuse_unnamed(file, name)
    file = replace(
        file,
        activities=tuple(map(_given, file.activities)),
        versions=tuple(map(_given, file.versions)),
        changes=tuple(one for one in file.changes if one.field != READ),
    )
    library = library_in_force(now)
    materials = _ids(file.materials, now.own_materials, library.materials)
    file = _with_ids(file, materials, {})
    activities = _ids(file.activities, now.own_activities, library.activities)
    file = _with_ids(file, {}, activities)
    lines = [
        *_lines("material", file.materials, now.own_materials, materials),
        *_lines("activity", file.activities, now.own_activities, activities),
    ]
    version_lines, versions = _versions(file.versions, now, library)
    change_lines, changes = _changes(file.changes, now, library)
    new = {line.id for line in lines if line.verdict in ("new", "renamed")}
    writes = Caseload(
        own_materials=tuple(row for row in file.materials if row["id"] in new),
        own_activities=tuple(row for row in file.activities if row["id"] in new),
        own_versions=versions,
        own_changes=changes,
    )
    _refuse_faults(now, writes, book, name)
    return Shared(by=file.by, lines=(*lines, *version_lines, *change_lines), writes=writes)


def _refuse_unnamed(file: ShareFile, name: str) -> None:
    faults = [
        InputError(f"{what} {place} has no {field}.", field="file", hint="Give it one.")
        for what, rows, field in (
            ("Activity", file.activities, "id"),
            ("Thing", file.materials, "id"),
            ("Version", file.versions, "activity"),
        )
        for place, row in enumerate(rows, start=1)
        if not isinstance(row.get(field), str) or not row[field]
    ]
    if faults:
        raise ManyFaults(faults, where=name)


def _ids(rows: Iterable[Row], hers: Iterable[Row], taken: Mapping[str, object]) -> dict[str, str]:
    """The id each thing of the file gets here: its own, or a free one where that is taken."""
    own = {str(row["id"]): _given(row) for row in hers}
    used = set(taken)
    found = {}
    for row in rows:
        name = str(row["id"])
        if name not in used or own.get(name) == row:
            found[name] = name
        else:
            found[name] = free_id(name, used)
        used.add(found[name])
    return found


def _lines(
    kind: str, rows: Iterable[Row], hers: Iterable[Row], ids: Mapping[str, str]
) -> Iterable[ShareLine]:
    own = {str(row["id"]): _given(row) for row in hers}
    was = {new: old for old, new in ids.items()}
    for row in rows:
        name = str(row["id"])
        verdict: Verdict = "new" if was[name] == name else "renamed"
        if own.get(name) == row:
            verdict = "same"
        yield ShareLine(kind=kind, id=name, name=str(row.get("name", name)), verdict=verdict)


def _with_ids(
    file: ShareFile, materials: Mapping[str, str], activities: Mapping[str, str]
) -> ShareFile:
    """The file with other ids, wherever it names them."""
    return replace(
        file,
        materials=tuple(_material_with(row, materials) for row in file.materials),
        activities=tuple(
            {**_things_with(row, materials), "id": activities.get(str(row["id"]), row["id"])}
            for row in file.activities
        ),
        versions=tuple(
            {
                **_things_with(row, materials),
                "activity": activities.get(str(row["activity"]), row["activity"]),
            }
            for row in file.versions
        ),
    )


def _material_with(row: Row, ids: Mapping[str, str]) -> Row:
    made = {**row, "id": ids.get(str(row["id"]), row["id"])}
    for field in ("substitutes", "stands_in_for"):
        if isinstance(made.get(field), list):
            made[field] = [ids.get(str(one), one) for one in made[field]]
    return made


def _things_with(row: Row, ids: Mapping[str, str]) -> Row:
    """A row of an activity or version with other ids of things, common lines included."""
    made = dict(row)
    if isinstance(made.get("things"), list | tuple):
        made["things"] = [_need_with(need, ids) for need in made["things"]]
    if isinstance(made.get("all"), dict):
        made["all"] = _things_with(made["all"], ids)
    if isinstance(made.get("versions"), list | tuple):
        made["versions"] = [
            _things_with(one, ids) if isinstance(one, dict) else one for one in made["versions"]
        ]
    return made


def _need_with(need: Any, ids: Mapping[str, str]) -> Any:
    if not isinstance(need, dict) or not isinstance(need.get("any_of"), list | tuple):
        return need
    return {**need, "any_of": [ids.get(str(one), one) for one in need["any_of"]]}


def _things_in(row: Row) -> Iterable[str]:
    for part in (row, row.get("all") or {}, *(row.get("versions") or ())):
        for need in part.get("things") or ():
            yield from need.get("any_of") or ()


def _versions(
    rows: Iterable[Row], now: Caseload, library: Library
) -> tuple[list[ShareLine], tuple[Row, ...]]:
    own = {version_key(row): _given(row) for row in now.own_versions}
    taken = {one.id for game in library.activities.values() for one in game.versions}
    lines: list[ShareLine] = []
    made = []
    for row in rows:
        key, verdict = version_key(row), "new"
        if own.get(key) == row:
            verdict = "same"
        elif key in taken:
            variant = str(row.get("variant", "usual"))
            stem = key.removesuffix(variant)
            ends = {one.removeprefix(stem) for one in taken if one.startswith(stem)}
            row = {**row, "variant": free_id(variant, ends)}
            key, verdict = version_key(row), "renamed"
        if verdict != "same":
            made.append(row)
            taken.add(key)
        lines.append(
            ShareLine(kind="version", id=key, name=str(row.get("do", key)), verdict=verdict)  # type: ignore[arg-type]
        )
    return lines, tuple(made)


def _changes(
    changes: Iterable[OwnChange], now: Caseload, library: Library
) -> tuple[list[ShareLine], tuple[OwnChange, ...]]:
    hers = {one.id: one for one in now.own_changes}
    theirs = {one.id: one for one in changes}
    lines: list[ShareLine] = []
    made = []
    for change in theirs.values():
        verdict: Verdict = "new"
        if change.id in hers:
            verdict = "same" if hers[change.id].now == change.now else "kept_hers"
        elif _is_of_other_english(change, hers, theirs):
            verdict = "kept_hers"
        elif not applies(asdict(change), library):
            verdict = "no_line"
        else:
            made.append(change)
        known = library.activities.get(change.activity)
        name = known.name if known else change.activity
        lines.append(ShareLine(kind="change", id=change.id, name=name, verdict=verdict))
    return lines, tuple(made)


def _is_of_other_english(
    change: OwnChange, hers: Mapping[str, OwnChange], theirs: Mapping[str, OwnChange]
) -> bool:
    """Whether it is the Spanish of a line whose English stays as she wrote it."""
    if not change.field.startswith(IN_SPANISH):
        return False
    english = replace(change, field=change.field.removeprefix(IN_SPANISH)).id
    mine, other = hers.get(english), theirs.get(english)
    return mine is not None and (other is None or other.now != mine.now)


def _refuse_faults(now: Caseload, writes: Caseload, book: RuleBook, name: str) -> None:
    try:
        after = checked_library(
            replace(
                now,
                own_materials=(*now.own_materials, *writes.own_materials),
                own_activities=(*now.own_activities, *writes.own_activities),
                own_versions=(*now.own_versions, *writes.own_versions),
                own_changes=(*now.own_changes, *writes.own_changes),
            )
        )
    except ManyFaults as many:
        raise ManyFaults(many.faults, where=name) from None
    before = library_in_force(now)
    touched = {str(row["id"]) for row in writes.own_activities}
    touched |= {str(row["activity"]) for row in writes.own_versions}
    touched |= {one.activity for one in writes.own_changes}
    known = {
        fault
        for one in touched & before.activities.keys()
        for fault in check_activity(before.activities[one], before, book)
    }
    faults = [
        InputError(fault, field="file")
        for one in sorted(touched & after.activities.keys())
        for fault in check_activity(after.activities[one], after, book)
        if fault not in known
    ]
    unknown = sorted(touched - after.activities.keys())
    faults += [
        InputError(f"A version belongs to {one}, which the library does not have.", field="file")
        for one in unknown
    ]
    if faults:
        raise ManyFaults(faults, where=name)
