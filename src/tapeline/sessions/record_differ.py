"""Two people recorded the same session: where their counts differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Sheet, Trial, standing_trials
from tapeline.caseload.record import record

Counts = tuple[int, int, int]
PLACES = {"alone": 0, "with_help": 1, "not_yet": 2}


@record
class CountedBy:
    """What one sheet says of a child at an activity: alone, with help, not yet."""

    sheet: str
    by: str
    counts: Counts


@record
class Difference:
    """A child and an activity that two sheets counted differently."""

    child: str
    activity: str
    counted: tuple[CountedBy, ...]


def differences_between(caseload: Caseload, session: str) -> tuple[Difference, ...]:
    """Where the sheets of a session say different things of the same child and activity.

    All of them count. A child and activity that only one sheet has is no difference.
    """
    sheets = [one for one in caseload.sheets if one.session == session]
    trials = [one for one in caseload.trials if one.session == session]
    found: dict[tuple[str, str], dict[str, Counts]] = {}
    for sheet in sheets:
        for (child, activity), counts in _counts(_of(sheet, sheets, trials), trials).items():
            found.setdefault((child, activity), {})[sheet.id] = counts
    by = {one.id: one.by for one in sheets}
    return tuple(
        Difference(
            child=child,
            activity=activity,
            counted=tuple(
                CountedBy(sheet=name, by=by[name], counts=counts) for name, counts in said.items()
            ),
        )
        for (child, activity), said in found.items()
        if len(set(said.values())) > 1
    )


def _of(sheet: Sheet, sheets: Iterable[Sheet], trials: Iterable[Trial]) -> set[str]:
    """Ids of the trials of one sheet."""
    return {trial.id for trial in trials if sheet_of(trial.id) == sheet.id}


def sheet_of(trial_id: str) -> str:
    """The id of the sheet that a trial's id begins with."""
    return trial_id.rpartition(".")[0]


def _counts(own: set[str], trials: Iterable[Trial]) -> dict[tuple[str, str], Counts]:
    """What stands of one sheet; a correction stands for the row it corrects."""
    rows = tuple(trials)
    root = {row.id: row.corrects for row in rows}
    counts: dict[tuple[str, str], Counter[int]] = {}
    for row in standing_trials(rows):
        first = row.id
        while root[first] is not None and root[first] in root:
            first = str(root[first])
        if first in own:
            key = (row.child, row.version.split(".")[0])
            counts.setdefault(key, Counter())[PLACES[row.outcome]] += row.count
    return {key: (found[0], found[1], found[2]) for key, found in counts.items()}
