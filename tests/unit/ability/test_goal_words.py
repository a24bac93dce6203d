"""What is believed of goals and losses is said in whole numbers, and defers to others."""

from __future__ import annotations

import re
from itertools import product

import pytest

from tapeline.ability.goal import GoalForecast
from tapeline.ability.goal_words import NOT_ENOUGH, goal_in_words, in_ten
from tapeline.ability.loss import SkillLoss
from tapeline.ability.loss_words import loss_fact, loss_seen, loss_to_do
from tapeline.ability.matters import LossMatter
from tapeline.ability.seen import DaySeen
from tapeline.caseload.people import Illness
from tests.unit.ability.a_ladder import TOSS, week


def a_forecast(**fields) -> GoalForecast:
    usual = {
        "met_now": 0.4,
        "by_date": 0.8,
        "level": 0.3,
        "sessions_left": 6,
        "days_to_settle": 3,
        "days_at_step": 6,
    }
    return GoalForecast(**{**usual, **fields})


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.0, "less than 1 in 10"),
        (0.04, "less than 1 in 10"),
        (0.42, "about 4 in 10"),
        (0.96, "more than 9 in 10"),
        (1.0, "more than 9 in 10"),
    ],
)
def test_the_ends_are_not_said_as_never_or_always(chance: float, said: str):
    assert in_ten(chance) == said


def test_every_forecast_has_whole_sentences_without_decimals():
    values = product(
        (0.0, 0.5, 1.0), (None, 0.0, 0.9), (0.0, 0.5, 0.95), (0, 1, 7), (None, 0, 1, 4), (0, 6)
    )
    for met_now, by_date, level, left, days, at_step in values:
        said = goal_in_words(
            a_forecast(
                met_now=met_now,
                by_date=by_date,
                level=level,
                sessions_left=None if by_date is None else left,
                days_to_settle=days,
                days_at_step=at_step,
            )
        )
        assert said.endswith(".")
        assert not re.search(r"\d\.\d|nan|None|%", said)


def test_met_is_said_only_at_a_high_probability_of_the_level():
    assert "Very likely met" not in goal_in_words(a_forecast(met_now=0.95, level=0.89))
    reached = a_forecast(met_now=0.8, level=0.91, is_level_reached=True)
    assert "Very likely met" in goal_in_words(reached)


def test_a_goal_that_only_the_last_day_shows_waits_for_another():
    said = goal_in_words(a_forecast(met_now=0.8, level=0.95, days_to_settle=0))
    assert said.startswith("It may be met: another day like the last would say so.")
    assert "Not met" not in said


def test_a_step_not_tried_yet_says_that_not_enough_was_seen():
    said = goal_in_words(a_forecast(level=0.0, days_at_step=1, days_to_settle=0))
    assert said.startswith("Not enough seen yet at this step to say whether it is met.")
    assert "Enough was seen" not in said


def test_what_was_not_seen_enough_says_so():
    assert goal_in_words(None) == NOT_ENOUGH


def test_more_days_are_named_and_not_more_tries():
    assert "About 3 more days would likely settle it" in goal_in_words(a_forecast())
    assert "About 1 more day would" in goal_in_words(a_forecast(days_to_settle=1))
    assert "many more days" in goal_in_words(a_forecast(days_to_settle=None))


def a_matter(**fields) -> LossMatter:
    loss = SkillLoss(
        skill="toss",
        step="toss.near",
        since=week(5),
        last=week(6),
        days=2,
        tries=12,
        before_in_ten=8,
        now_in_ten=2,
        ratio=300.0,
    )
    return LossMatter(**{"loss": loss, "stage": "raised", **fields})


DAYS = tuple(
    DaySeen(step="toss.near", date=week(number), alone=alone, tries=6)
    for number, alone in ((3, 5), (4, 5), (5, 1), (6, 0))
)


def test_a_loss_says_what_was_counted_and_not_why():
    said = loss_seen(a_matter(), TOSS, DAYS)
    assert "2 days: 1 of 6 alone on 12 October, 0 of 6 alone on 19 October" in said
    assert "“near” worked about 8 in 10 times" in said
    assert "5 of 6" not in said
    assert loss_fact(a_matter(), TOSS, DAYS).startswith(said)


def test_a_loss_defers_to_family_and_doctor():
    said = " ".join(loss_to_do(a_matter()))
    assert "family soon" in said
    assert "doctor soon" in said
    assert "the step stays" in said
    for word in ("safe", "regression", "diagnos", "%"):
        assert word not in said


def test_after_an_illness_it_asks_and_does_not_hold_back_a_worry():
    ill = Illness(first=week(4), last=week(5))
    said = " ".join(loss_to_do(a_matter(stage="after_illness", ill=ill)))
    assert "ill until 12 October" in said
    assert "do not wait" in said
