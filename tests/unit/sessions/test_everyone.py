"""Difficulties are learned from the whole caseload, whoever is asked about."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest

from tapeline.activities.loader import load_library
from tapeline.activities.models import Skill
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, Trial
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.everyone import forget_everyone, known_of
from tapeline.sessions.learn import evidence_of

TODAY = dt.date(2026, 11, 25)
SKILL, EASY = "catch2", "catch2.bounced"
WEEKS = 6


@pytest.fixture(autouse=True)
def nothing_kept() -> Iterator[None]:
    forget_everyone()
    yield
    forget_everyone()


def catching() -> tuple[Skill, str]:
    """The skill, and the step after the easy one."""
    skill = next(s for s in load_library().skills.values() if EASY in {t.id for t in s.steps})
    return skill, skill.steps[skill.index_of(EASY) + 1].id


def others_are_stuck() -> Caseload:
    """All children but the first manage a step for some weeks, then fail at the next one."""
    base, (_, hard) = demo_caseload(TODAY), catching()
    sessions = [
        Session(
            id=f"e{number}",
            group=base.groups[0].id,
            date=TODAY - dt.timedelta(weeks=WEEKS - number),
            status="held",
        )
        for number in range(WEEKS)
    ]
    rows = [
        Trial(
            id=f"{child.id}-{number}-{outcome}",
            session=f"e{number}",
            child=child.id,
            version="",
            step=EASY if number < WEEKS // 2 else hard,
            outcome=outcome,
            count=count,
        )
        for child in base.children[1:]
        for number in range(WEEKS)
        for outcome, count in (("alone", 7 if number < WEEKS // 2 else 1), ("not_yet", 3))
    ]
    return replace(base, sessions=(*base.sessions, *sessions), trials=(*base.trials, *rows))


def test_what_others_show_moves_how_hard_a_step_is_for_a_child_not_seen():
    caseload, library, (skill, hard) = others_are_stuck(), load_library(), catching()
    evidence, child = evidence_of(caseload, library, until=TODAY), caseload.children[0]
    known = known_of(
        library,
        caseload.children,
        evidence.by_child,
        wanted=[child],
        on=TODAY,
        levels=evidence.level_ids,
    )
    learned = known.skills[skill.id]
    guessed_gap, learned_gap = (
        one.steps[one.index_of(hard)].difficulty - one.steps[one.index_of(EASY)].difficulty
        for one in (skill, learned)
    )
    assert learned_gap > guessed_gap + 0.2
    middles = [np.mean([step.difficulty for step in one.steps]) for one in (skill, learned)]
    assert middles[0] == pytest.approx(middles[1])
    assert set(known.beliefs) == {(child.id, one) for one in library.skills}
    assert known.steps[hard].children == len(caseload.children) - 1
    assert not known.steps[hard].is_guess
