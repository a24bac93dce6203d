"""A session as its record page shows it: the grid to type into, and what is on file."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Outcome, PromptLevel, Session, Stop, Trial, standing_trials
from tapeline.caseload.people import Child
from tapeline.sessions.recording.differ import differences_between
from tapeline.web.records.convert.whole import session_from_rows
from tapeline.web.selectors.run_view import BLANK_WORDS, RunPart, RunView, run_view
from tapeline.web.selectors.sessions import Meeting

OUTCOME_WORDS: dict[Outcome, str] = {
    "alone": "alone",
    "with_help": "with help",
    "not_yet": "not yet",
}


@dataclass(frozen=True, kw_only=True)
class Standing:
    """What stands of one child at one version, of one outcome and help, and what it was."""

    child: Child
    activity: str
    version: str
    outcome: Outcome
    help: str
    help_name: str
    count: int
    was: str

    @property
    def words(self) -> str:
        """Such as ``3 with help (word)``."""
        return in_words(self.count, self.outcome, self.help_name)


@dataclass(frozen=True, kw_only=True)
class RecordView:
    """Everything the record page shows; `games` are the activities that are counted."""

    session: Session
    run: RunView
    games: tuple[RunPart, ...]
    levels: tuple[tuple[int, PromptLevel], ...]
    children: tuple[Child, ...]
    standing: tuple[Standing, ...]
    taken_back: tuple[str, ...]
    blanks: tuple[str, ...]
    comings: tuple[str, ...]
    stops: tuple[tuple[Stop, str], ...]
    sheets: tuple[str, ...]
    differences: tuple[str, ...]
    by: str


def record_view(meeting: Meeting) -> RecordView | None:
    """The record page of a meeting; None where nothing was planned."""
    view = run_view(meeting)
    if view is None:
        return None
    session = view.session
    caseload = session_from_rows(meeting.group, session)
    names = {child.id: child.name for child in caseload.children}
    activities = {part.activity: part.name for part in view.parts}
    levels = caseload.prompt_levels
    level_names = {level.id: level.name for level in levels}
    return RecordView(
        session=session,
        run=view,
        games=tuple(part for part in view.parts if part.is_counted),
        levels=tuple(
            (at, level)
            for at, level in enumerate((one for one in levels[:-1] if not one.hidden), start=1)
        ),
        children=tuple(child for _, child in meeting.coming),
        standing=_standing(caseload.trials, caseload, activities, level_names),
        taken_back=_taken_back(caseload.trials, names, activities, level_names),
        blanks=tuple(
            _blank(names[one.child], one.kind, activities.get(one.activity or "", one.activity))
            for one in caseload.blanks
        ),
        comings=_comings(caseload, names),
        stops=tuple((stop, names.get(stop.child or "", "")) for stop in caseload.stops),
        sheets=tuple(
            f"{sheet.id}" + (f", {sheet.by}" if sheet.by else "") for sheet in caseload.sheets
        ),
        differences=_differences(caseload, session, names, activities),
        by=caseload.therapist.name,
    )


def in_words(count: int, outcome: Outcome, help_name: str) -> str:
    """A count with its outcome and help: ``3 alone``, ``2 with help (word)``."""
    words = f"{count} {OUTCOME_WORDS[outcome]}"
    return words if outcome == "alone" else f"{words} ({help_name})"


def _standing(
    trials: Sequence[Trial], caseload: Caseload, activities: dict[str, str], levels: dict[str, str]
) -> tuple[Standing, ...]:
    by_id = {trial.id: trial for trial in trials}
    found: dict[tuple[str, str, Outcome, str], list[Trial]] = {}
    for trial in standing_trials(trials):
        key = (trial.child, trial.version, trial.outcome, trial.help)
        found.setdefault(key, []).append(trial)
    rows = [
        Standing(
            child=caseload.child(child),
            activity=activities.get(version.split(".")[0], version.split(".")[0]),
            version=version,
            outcome=outcome,
            help=level,
            help_name=levels.get(level, level),
            count=sum(row.count for row in same),
            was=_was(same, by_id, levels),
        )
        for (child, version, outcome, level), same in found.items()
    ]
    order = list(activities.values())
    place = {name: at for at, name in enumerate(order)}
    return tuple(
        sorted(rows, key=lambda row: (place.get(row.activity, 99), row.child.name, row.outcome))
    )


def _was(rows: Iterable[Trial], by_id: dict[str, Trial], levels: dict[str, str]) -> str:
    """What corrected rows said before, joined; nothing for those never corrected."""
    olds = [by_id[row.corrects] for row in rows if row.corrects in by_id]
    return ", ".join(in_words(one.count, one.outcome, levels.get(one.help, "")) for one in olds)


def _taken_back(
    trials: Sequence[Trial],
    names: dict[str, str],
    activities: dict[str, str],
    levels: dict[str, str],
) -> tuple[str, ...]:
    """Tries taken back, in words; those undone one by one on the run page are counted together."""
    by_id = {trial.id: trial for trial in trials}
    counts: dict[tuple[str, str, Outcome, str], int] = {}
    for row in trials:
        old = by_id.get(row.corrects or "")
        if row.count == 0 and old is not None:
            key = (old.child, old.version.split(".")[0], old.outcome, old.help)
            counts[key] = counts.get(key, 0) + old.count
    return tuple(
        f"{names[child]}, {activities.get(activity, activity)}: "
        + in_words(count, outcome, levels.get(level, level))
        for (child, activity, outcome, level), count in counts.items()
    )


def _blank(name: str, kind: str, activity: str | None) -> str:
    words = f"{name}: {BLANK_WORDS[kind].lower()}"
    return f"{words}, {activity}" if activity else words


def _comings(caseload: Caseload, names: dict[str, str]) -> tuple[str, ...]:
    last = {(one.child, one.kind): one.at for one in caseload.late_or_early}
    words = {"late": "came late", "left_early": "left early"}
    return tuple(f"{names[child]} {words[kind]}, {at}" for (child, kind), at in last.items())


def _differences(
    caseload: Caseload, session: Session, names: dict[str, str], activities: dict[str, str]
) -> tuple[str, ...]:
    """One sentence for each child and activity that two sheets counted differently."""
    return tuple(
        f"{names[one.child]}, {activities.get(one.activity, one.activity)}: "
        + "; ".join(
            f"{said.by or said.sheet} has {said.counts[0]} alone, {said.counts[1]} with help,"
            f" {said.counts[2]} not yet"
            for said in one.counted
        )
        + "."
        for one in differences_between(caseload, session.id)
    )
