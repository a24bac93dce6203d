"""A caseload file laid over the caseload on file: by id, adding, never erasing. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, replace
from typing import Any, Literal

from tapeline.caseload.caseload import Caseload, fingerprint
from tapeline.caseload.history import Blank, PromptList, Session
from tapeline.caseload.notes import KeptReport, SessionNote
from tapeline.caseload.own_library import version_key
from tapeline.caseload.people import Therapist

Verdict = Literal["new", "changed", "unchanged", "inactive", "refused"]
VERDICTS: tuple[Verdict, ...] = ("new", "changed", "unchanged", "inactive", "refused")
WRITTEN: tuple[Verdict, ...] = ("new", "changed", "inactive")
Row = Any


@dataclass(frozen=True, kw_only=True)
class Line:
    """What would happen to one record: its kind (as in the file), id, name, verdict, why."""

    kind: str
    id: str
    name: str
    verdict: Verdict
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class Merge:
    """Every record of a file with its verdict, and what is left to write.

    `result` is the whole caseload afterwards, `writes` only what is new or changed.
    """

    lines: tuple[Line, ...]
    result: Caseload
    writes: Caseload

    def count(self, verdict: Verdict) -> int:
        """How many records have this verdict."""
        return sum(line.verdict == verdict for line in self.lines)

    def of(self, verdict: Verdict) -> tuple[Line, ...]:
        """The records with this verdict."""
        return tuple(line for line in self.lines if line.verdict == verdict)

    def counts_by_kind(self) -> dict[str, dict[str, int]]:
        """Verdicts counted for each kind of record, in the order of the file's fields."""
        found: dict[str, dict[str, int]] = {}
        for line in self.lines:
            counts = found.setdefault(line.kind, dict.fromkeys(VERDICTS, 0))
            counts[line.verdict] += 1
        return found

    @property
    def changes_something(self) -> bool:
        """Whether anything would be written."""
        return any(self.count(verdict) for verdict in WRITTEN)

    @property
    def digest(self) -> str:
        """Changes when what would happen changes."""
        return fingerprint(self.lines)


def merge(now: Caseload, file: Caseload) -> Merge:
    """Lay a file over what is on file.

    A child who is missing in the file becomes inactive. Trials, answers and blanks are
    added and never removed; one that differs from the one on file under the same id is
    refused. A held session and the order of prompt levels do not change either.
    """
    parts: dict[str, list[_One]] = {
        "homes": _by_id(now.homes, file.homes),
        "children": _with_missing(_by_id(now.children, file.children), now, file),
        "sites": _by_id(now.sites, file.sites),
        "groups": _by_id(now.groups, file.groups),
        "sessions": _by_id(now.sessions, file.sessions, refuse=_held),
        "trials": _by_id(now.trials, file.trials, refuse=_other_trial),
        "family_answers": _by_id(now.family_answers, file.family_answers, refuse=_other_answer),
        "late_or_early": _by_id(now.late_or_early, file.late_or_early, refuse=_other_row),
        "stops": _by_id(now.stops, file.stops, refuse=_other_row),
        "sheets": _by_id(now.sheets, file.sheets, refuse=_other_row),
        "timings": _by_id(now.timings, file.timings, refuse=_other_row),
        "notes": _by_id(now.notes, file.notes, refuse=_signed),
        "reports": _by_id(now.reports, file.reports, refuse=_signed_report),
        "made_up": _by_id(now.made_up, file.made_up, refuse=_other_made_up),
        "blanks": _by_id(now.blanks, file.blanks, refuse=_other_blank, key=_blank_key),
        "prompt_lists": _by_id(now.prompt_lists, file.prompt_lists, refuse=_new_order),
        "own_activities": _by_id(now.own_activities, file.own_activities, key=_body_id),
        "own_versions": _by_id(now.own_versions, file.own_versions, key=version_key),
        "own_materials": _by_id(now.own_materials, file.own_materials, key=_body_id),
        "own_changes": _by_id(now.own_changes, file.own_changes),
        "own_drafts": _by_id(now.own_drafts, file.own_drafts, key=_body_id),
        "left_out": _by_id(now.left_out, file.left_out),
        "kept_texts": _by_id(now.kept_texts, file.kept_texts, refuse=_other_text),
    }
    therapist, line = _therapist(now.therapist, file.therapist)
    results: dict[str, Any] = {
        kind: _result(getattr(now, kind), part) for kind, part in parts.items()
    }
    writes: dict[str, Any] = {
        kind: tuple(one.row for one in part if one.is_written) for kind, part in parts.items()
    }
    invented = now.invented or (file.invented and not now.children)
    return Merge(
        lines=(*line, *(one.line(kind) for kind, part in parts.items() for one in part)),
        result=replace(now, therapist=therapist, invented=invented, **results),
        writes=Caseload(therapist=therapist, invented=invented, **writes),
    )


@dataclass(frozen=True, kw_only=True)
class _One:
    key: str
    row: Row
    verdict: Verdict
    why: str = ""

    @property
    def is_written(self) -> bool:
        return self.verdict in WRITTEN

    def line(self, kind: str) -> Line:
        named = self.row.get("name") if isinstance(self.row, dict) else _name(self.row)
        return Line(
            kind=kind, id=self.key, name=named or self.key, verdict=self.verdict, why=self.why
        )


Refuse = Callable[[Row, Row], str]


def _id(row: Row) -> str:
    return str(row.id)


def _by_id(
    now: Iterable[Row],
    file: Iterable[Row],
    *,
    refuse: Refuse = lambda old, new: "",
    key: Callable[[Row], str] = _id,
) -> list[_One]:
    kept = {key(row): row for row in now}
    return [_verdict(key(row), kept, row, refuse) for row in file]


def _verdict(key: str, kept: Mapping[str, Row], row: Row, refuse: Refuse) -> _One:
    old = kept.get(key)
    if old is None:
        return _One(key=key, row=row, verdict="new")
    if old == row:
        return _One(key=key, row=row, verdict="unchanged")
    why = refuse(old, row)
    if why:
        return _One(key=key, row=row, verdict="refused", why=why)
    return _One(key=key, row=row, verdict="changed", why=", ".join(_differing(old, row)))


def _with_missing(found: list[_One], now: Caseload, file: Caseload) -> list[_One]:
    there = {child.id for child in file.children}
    missing = [
        _One(
            key=child.id,
            row=replace(child, active=False),
            verdict="inactive",
            why="not in the file",
        )
        for child in now.children
        if child.id not in there and child.active
    ]
    return found + missing


def _result(now: tuple[Row, ...], part: list[_One]) -> tuple[Row, ...]:
    """What is there afterwards; a row that stands twice in the file stands twice here too."""
    taken = [one for one in part if one.verdict != "refused"]
    keys = {one.key for one in taken}
    return (*(row for row in now if _any_key(row) not in keys), *(one.row for one in taken))


def _any_key(row: Row) -> str:
    if isinstance(row, dict):
        return _body_id(row) or version_key(row)
    return _blank_key(row) if isinstance(row, Blank) else _id(row)


def _therapist(now: Therapist, file: Therapist) -> tuple[Therapist, list[Line]]:
    if file in (Therapist(), now):
        return now, []
    verdict: Verdict = "new" if now == Therapist() else "changed"
    why = ", ".join(_differing(now, file)) if verdict == "changed" else ""
    line = Line(kind="therapist", id="therapist", name=file.name, verdict=verdict, why=why)
    return file, [line]


def _differing(old: Row, new: Row) -> Iterator[str]:
    if isinstance(old, dict):
        yield from sorted(key for key in old.keys() | new.keys() if old.get(key) != new.get(key))
        return
    for field in fields(old):
        if getattr(old, field.name) != getattr(new, field.name):
            yield field.name


def _held(old: Session, new: Session) -> str:
    return (
        "this session was held, and what happened is not rewritten" if old.status == "held" else ""
    )


def _signed(old: SessionNote, new: SessionNote) -> str:
    """A signed note may gain amendments; nothing of it is rewritten or taken back."""
    if not old.is_signed:
        return ""
    kept = new.amendments[: len(old.amendments)]
    if replace(new, amendments=kept) == old:
        return ""
    return "this note is signed, and what was signed is not rewritten"


def _signed_report(old: KeptReport, new: KeptReport) -> str:
    return "this report is signed, and what was signed is not rewritten" if old.is_signed else ""


def _other_made_up(old: Row, new: Row) -> str:
    return f"other minutes have this id already (they differ in {', '.join(_differing(old, new))})"


def _other_trial(old: Row, new: Row) -> str:
    return f"another trial has this id already (it differs in {', '.join(_differing(old, new))})"


def _other_answer(old: Row, new: Row) -> str:
    return f"another answer has this id already (it differs in {', '.join(_differing(old, new))})"


def _other_row(old: Row, new: Row) -> str:
    return f"another row has this id already (it differs in {', '.join(_differing(old, new))})"


def _other_text(old: Row, new: Row) -> str:
    return "another text has this fingerprint already"


def _other_blank(old: Blank, new: Blank) -> str:
    return f"{old.kind} is on file for this, and the file says {new.kind}"


def _new_order(old: PromptList, new: PromptList) -> str:
    if [level.id for level in old.levels] == [level.id for level in new.levels]:
        return ""
    return "levels are never reordered, added or taken out; a new order needs a list of its own"


def _blank_key(blank: Blank) -> str:
    return f"{blank.session}/{blank.child}/{blank.activity or ''}"


def _body_id(body: Mapping[str, Any]) -> str:
    return str(body.get("id", ""))


def _name(row: Row) -> str:
    return str(getattr(row, "name", "") or "")
