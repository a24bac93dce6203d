"""What is on file of a session while it runs: counts, blanks, who came late or left."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from tapeline.caseload.history import Session, standing_trials
from tapeline.web.records import models as rows
from tapeline.web.records.convert import trial_from_row, trials_with_all

PLACES = {"alone": 0, "with_help": 1, "not_yet": 2}


@dataclass(frozen=True, kw_only=True)
class RunState:
    """Counts by ``child/activity``: alone, with help, not yet, and the help used last.

    `blanks` by ``child/activity``, with nothing after the stroke for the whole session.
    `known` are the ids of the presses that were taken in.
    """

    counts: dict[str, tuple[int, int, int, str]]
    blanks: dict[str, str]
    late: dict[str, str]
    left: dict[str, str]
    known: tuple[str, ...]
    last: str | None
    began: str | None
    status: str

    def as_data(self) -> dict[str, Any]:
        """Plain values for the page."""
        return asdict(self)


def run_state(session: Session) -> RunState:
    """What is on file of a session, in five queries."""
    trials = standing_trials(
        trial_from_row(row) for row in trials_with_all().filter(session__key=session.id)
    )
    counts: dict[str, list[int]] = {}
    helps: dict[str, str] = {}
    for trial in trials:
        key = f"{trial.child}/{trial.version.split('.')[0]}"
        counts.setdefault(key, [0, 0, 0])[PLACES[trial.outcome]] += trial.count
        if trial.outcome != "alone":
            helps[key] = trial.help
    blanks = rows.Blank.objects.filter(session__key=session.id)
    late = rows.LateOrEarly.objects.filter(session__key=session.id)
    comings = list(late.values_list("child__key", "kind", "at"))
    run = [trial.id for trial in trials if trial.source == "run"]
    return RunState(
        counts={key: (*found, helps.get(key, "")) for key, found in counts.items()},  # type: ignore[misc]
        blanks={
            f"{child}/{activity}": kind
            for child, activity, kind in blanks.values_list("child__key", "activity", "kind")
        },
        late={child: at for child, kind, at in comings if kind == "late"},
        left={child: at for child, kind, at in comings if kind == "left_early"},
        known=tuple(
            rows.Press.objects.filter(session__key=session.id).values_list("key", flat=True)
        ),
        last=run[-1] if run else None,
        began=session.began,
        status=session.status,
    )
