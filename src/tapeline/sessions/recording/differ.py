"""Two people recorded the same session: where their counts differ."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Trial, standing_trials
from tapeline.caseload.record import record

Counts = tuple[int, int, int]
RUN = "run page"
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

    All of them count. What was pressed on run pages is one sheet, whatever the number of
    devices: each of them shows the counts of all. A child and activity that only one sheet
    has is no difference.
    """
    trials = [one for one in caseload.trials if one.session == session]
    by = {one.id: one.by for one in caseload.sheets if one.session == session}
    of = {one.id: sheet for one in trials if (sheet := _sheet(one, by)) is not None}
    found: dict[tuple[str, str], dict[str, Counts]] = {}
    for sheet in dict.fromkeys(of.values()):
        own = {name for name, its in of.items() if its == sheet}
        for (child, activity), counts in _counts(own, trials).items():
            found.setdefault((child, activity), {})[sheet] = counts
    by[RUN] = RUN
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


def _sheet(trial: Trial, sheets: Container[str]) -> str | None:
    """The sheet a trial stands on: the one its id begins with, or the run page."""
    if trial.source == "run":
        return RUN
    sheet = trial.id.rpartition(".")[0]
    return sheet if sheet in sheets else None


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
