"""An invented progression of four steps, and rows of tries at it."""

from __future__ import annotations

import datetime as dt
from typing import Any

from tapeline.ability.belief import Belief, Normal
from tapeline.ability.replay import DatedTrial, replay
from tapeline.activities.models import Skill, Step
from tapeline.caseload.history import Trial

MONDAY = dt.date(2026, 9, 7)
TOSS = Skill(
    id="toss",
    name="Toss",
    family="sending_and_receiving",
    so_that="put toys away",
    icf="d4454",
    source="common practice, no source",
    steps=tuple(
        Step(id=f"toss.{tail}", text=tail, criterion="It lands.", difficulty=1.2 * place)
        for place, tail in enumerate(("drop", "near", "far", "small"))
    ),
)
GUESS = Normal(mean=TOSS.steps[1].difficulty + 0.9, sd=1.0)


def week(number: int) -> dt.date:
    """The Monday so many weeks after the first."""
    return MONDAY + dt.timedelta(weeks=number)


def a_row(on: dt.date, outcome: str, count: int, **fields: Any) -> DatedTrial:
    """So many alike tries at the second step on a date."""
    usual = {
        "id": f"{on}-{fields.get('child', 'c1')}-{outcome}-{fields.get('help', '')}",
        "session": f"s{on}",
        "child": "c1",
        "version": "",
        "step": "toss.near",
        "help": "word" if outcome == "with_help" else "alone",
    }
    return DatedTrial(
        date=on, trial=Trial(**{**usual, "outcome": outcome, "count": count, **fields})
    )


def a_day(on: dt.date, alone: int, of: int, **fields: Any) -> list[DatedTrial]:
    """So many tries alone of so many; the others with a word."""
    rows = [a_row(on, "alone", alone, **fields)] if alone else []
    return rows + ([a_row(on, "with_help", of - alone, **fields)] if of > alone else [])


def belief_after(rows: list[DatedTrial], *, on: dt.date, guess: Normal = GUESS) -> Belief:
    """Belief about the one child on a date."""
    return replay({"toss": TOSS}, rows, {"c1": {"toss": guess}}, on=on)["c1", "toss"]
