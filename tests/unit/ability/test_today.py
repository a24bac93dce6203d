"""A child's skills share the day: the filter against sums over everything at once.

The reference keeps the joint belief of two skills on a grid of its own and integrates each
day's effect out with 41 Gauss-Hermite nodes; nothing is left separate between days.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.polynomial.hermite_e import hermegauss
from scipy.special import expit
from scipy.stats import norm

from tapeline.ability.days import Roster
from tapeline.ability.filter import Filter
from tapeline.ability.grid import SHIPPED_GRID
from tapeline.ability.likelihood import Event
from tapeline.ability.settings import FilterValues
from tests.unit.ability.a_caseload import OneDay, days_of

VALUES = FilterValues(thresholds=(-0.9, 0.0), lapse=0.03, day_sd=0.7, weekly_sd=0.3)
AT = SHIPPED_GRID.at
ALONE, NOT_YET = Event("at_least", 2), Event("below", 2)
NODES, SHARES = hermegauss(41)
PRIOR = ((0.3, 1.0), (-0.4, 0.8))
# (alone, not yet) of skill 0 and skill 1 on each day: a bad day for both, then unlike days.
RECORD = [((1, 7), (0, 6)), ((5, 3), (6, 1)), ((7, 1), (2, 5))]


def two_skills(child: tuple[int, int] = (0, 0)) -> Roster:
    return Roster(
        child=np.array(child),
        skill=np.array([0, 1]),
        difficulties=np.zeros((2, 1)),
        guess=np.zeros(2),
        guess_sd=np.ones(2),
        start=np.zeros(2, dtype=np.int64),
        rests_on=np.ones((2, 1)),
    )


def filtered(record, *, values: FilterValues = VALUES, roster: Roster | None = None) -> np.ndarray:
    """The filter's beliefs after the days."""
    days = [
        OneDay(skill, 7 * week, ((0.0, ALONE, 0, alone), (0.0, NOT_YET, 0, not_yet)))
        for week, day in enumerate(record)
        for skill, (alone, not_yet) in enumerate(day)
    ]
    filter_ = Filter(roster=roster or two_skills(), grid=SHIPPED_GRID, values=values)
    prior = SHIPPED_GRID.normal(*(np.array(side) for side in zip(*PRIOR, strict=True)))
    return filter_.follow(filter_.at_first(prior), days_of(days)).weights


def all_at_once(record) -> tuple[np.ndarray, np.ndarray]:
    """Both skills' beliefs after the days, from their joint belief."""
    joint = np.outer(*(norm.pdf(AT, mean, sd) for mean, sd in PRIOR))
    step = norm.pdf(AT[:, None] - AT[None, :], 0, VALUES.weekly_sd)
    for week, day in enumerate(record):
        if week:
            joint = step @ joint @ step.T
        likely = np.zeros_like(joint)
        for node, share in zip(NODES, SHARES, strict=True):
            each = [of_tries(AT + VALUES.day_sd * node, alone, not_yet) for alone, not_yet in day]
            likely += share * np.outer(*each)
        joint = joint * likely
        joint /= joint.sum()
    return joint.sum(axis=1), joint.sum(axis=0)


def of_tries(ability: np.ndarray, alone: int, not_yet: int) -> np.ndarray:
    chance = VALUES.lapse / 2 + (1 - VALUES.lapse) * expit(ability)
    return np.asarray(chance**alone * (1 - chance) ** not_yet)


def test_after_one_day_each_skill_is_exact():
    found = filtered(RECORD[:1])
    for belief, exact in zip(found, all_at_once(RECORD[:1]), strict=True):
        assert belief == pytest.approx(exact, abs=1e-6)


def test_after_three_days_only_the_tie_between_skills_is_missing():
    """What is lost by starting each day with separate beliefs: a tenth of a logit at most.

    The record is a hard one: a very bad day of both skills, then days that disagree.
    """
    found = filtered(RECORD)
    for belief, exact in zip(found, all_at_once(RECORD), strict=True):
        assert belief @ AT == pytest.approx(exact @ AT, abs=0.11)
        spread = np.sqrt(belief @ AT**2 - (belief @ AT) ** 2)
        exact_spread = np.sqrt(exact @ AT**2 - (exact @ AT) ** 2)
        assert spread == pytest.approx(exact_spread, rel=0.08)


def test_two_skills_of_one_child_share_a_bad_day():
    """The same tries of two children are believed more than of one child's bad day."""
    shared = filtered(RECORD[:1]) @ AT
    apart = filtered(RECORD[:1], roster=two_skills((0, 1))) @ AT
    assert (shared > apart + 0.05).all()


def test_a_day_says_no_more_of_one_skill_than_its_effect_leaves_open():
    """A thousand tries of one day: the belief is as wide as the day, not as the tries."""
    found = filtered([((700, 300), (1, 1))])[0]
    spread = np.sqrt(found @ AT**2 - (found @ AT) ** 2)
    alone = 1 / np.sqrt(1 / PRIOR[0][1] ** 2 + 1 / VALUES.day_sd**2)
    assert np.isfinite(found).all()
    assert spread == pytest.approx(alone, abs=0.05)


def test_without_a_day_effect_skills_are_apart():
    still = replace(VALUES, day_sd=0.0)
    together = filtered(RECORD, values=still)
    apart = filtered(RECORD, values=still, roster=two_skills((0, 1)))
    assert together == pytest.approx(apart, abs=1e-12)
