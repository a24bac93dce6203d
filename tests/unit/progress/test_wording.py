"""What a goal's wording lacks is said in one sentence each; nothing is refused."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from tapeline.caseload.people import Baseline, Goal
from tapeline.progress.strictness import (
    chance_in_a_session,
    chance_of_meeting,
    strictness_in_words,
    strictness_of,
)
from tapeline.progress.wording import wording_of
from tests.builders import TODAY, a_goal

WEEK = dt.timedelta(weeks=1)


def whole(**fields: Any) -> Goal:
    """A goal whose words lack nothing."""
    return a_goal(
        **{
            "condition": "A large light ball with one bounce from 1.5 m",
            "behaviour": "Amara scoops it up with both arms",
            "date": TODAY + 6 * WEEK,
            "baseline": Baseline(k=1, n=5, date=TODAY - WEEK),
            **fields,
        }
    )


def said(**fields: Any) -> tuple[str, ...]:
    return wording_of(whole(**fields), today=TODAY)


def test_of_a_whole_goal_nothing_is_said() -> None:
    assert said() == ()


@pytest.mark.parametrize(
    ("fields", "start"),
    [
        ({"condition": " "}, "The condition is missing"),
        ({"behaviour": ""}, "The behaviour is missing"),
        ({"date": None}, "The date is missing"),
        ({"date": TODAY - 2 * WEEK}, "The date is not after the baseline"),
        ({"date": TODAY - dt.timedelta(days=1)}, "The date has passed"),
        ({"baseline": None}, "The baseline is missing"),
        ({"baseline": Baseline(k=0, n=0, date=TODAY - WEEK)}, "The baseline holds no tries"),
        (
            {"baseline": Baseline(k=1, n=5, date=TODAY, help="word")},
            "The baseline was counted with",
        ),
        ({"baseline": Baseline(k=4, n=5, date=TODAY)}, "The baseline is at the criterion"),
        ({"behaviour": "Amara catches better"}, "“better” cannot be seen"),
        ({"behaviour": "Amara tolerates the swing"}, "“tolerates” cannot be seen"),
        ({"behaviour": "Amara catches the ball and throws it back"}, "Two behaviours"),
        ({"behaviour": "Runs to the line, then jumps over it"}, "Two behaviours"),
        ({"behaviour": "Catches or kicks the ball"}, "Two behaviours"),
        ({"name": "Catch in 80 % of tries"}, "“80 %” has no number of tries"),
        ({"behaviour": "Catches 3 of 5 balls"}, "The words say “3 of 5” and the count says 4 of 5"),
    ],
)
def test_each_gap_has_one_sentence(fields: dict[str, Any], start: str) -> None:
    found = said(**fields)
    assert len(found) == 1
    assert found[0].startswith(start)
    assert found[0].endswith(".")


@pytest.mark.parametrize(
    "behaviour",
    [
        "Amara scoops the ball up with both arms and hands",
        "Amara catches the ball with hands and no chest",
        "Walks along a line and a rope",
        "Amara catches 4 of 5 balls",
        "Amara catches in 80 % of tries, 4 of 5",
        "Atrapa la pelota y la lanza",
    ],
)
def test_one_behaviour_in_several_words_stays_one(behaviour: str) -> None:
    assert said(behaviour=behaviour) == ()


def test_a_goal_without_anything_is_told_all_that_is_missing() -> None:
    found = wording_of(a_goal(), today=TODAY)
    assert [one.split()[1] for one in found] == ["condition", "behaviour", "date", "baseline"]


# Source: exact binomial table of a run of sessions, 12 sessions, printed to two digits; by
# tries n (needing k), the chance of one session and of three running, at each true share.
TABLE = {
    (4, 5): {0.5: (0.19, 0.05), 0.6: (0.34, 0.25), 0.7: (0.53, 0.64), 0.8: (0.74, 0.94)},
    (7, 8): {0.5: (0.04, 0.00), 0.6: (0.11, 0.01), 0.7: (0.26, 0.13), 0.8: (0.50, 0.59)},
    (8, 10): {0.5: (0.06, 0.00), 0.6: (0.17, 0.04), 0.7: (0.38, 0.34), 0.8: (0.68, 0.89)},
}


@pytest.mark.parametrize("counts", TABLE)
def test_the_chance_that_a_criterion_is_met_is_that_of_the_table(counts: tuple[int, int]) -> None:
    k, n = counts
    for share, (session, running) in TABLE[counts].items():
        assert chance_in_a_session(share, k=k, n=n) == pytest.approx(session, abs=0.006)
        found = chance_of_meeting(share, k=k, n=n, m=3, sessions=12)
        assert found == pytest.approx(running, abs=0.006)


def test_the_chance_agrees_with_every_order_counted() -> None:
    """Sessions won or lost, all 2^8 orders, weighed by their chance."""
    one = chance_in_a_session(0.7, k=4, n=5)
    counted = sum(
        one ** order.count("1") * (1 - one) ** order.count("0")
        for order in (format(number, "08b") for number in range(2**8))
        if "11" in order
    )
    assert chance_of_meeting(0.7, k=4, n=5, m=2, sessions=8) == pytest.approx(counted, abs=1e-12)


def test_a_criterion_says_how_strict_it_is() -> None:
    """4 of 5 in two sessions running at a true share of .7: .93 in the same table."""
    goal = a_goal(m=2)
    assert strictness_of(goal).chance == pytest.approx(0.93, abs=0.006)
    assert strictness_in_words(goal) == (
        "How strict: a child who manages 70 of 100 tries would meet this within 12 sessions in "
        "about 93 of 100 cases."
    )


def test_a_criterion_of_one_try_in_many_is_no_chance_below_zero() -> None:
    assert strictness_of(a_goal(k=1, n=20)).share == 0.0
    assert strictness_of(a_goal(k=1, n=20)).chance == 0.0


def test_thousands_of_tries_are_counted_too() -> None:
    """Half of 9,999 tries at a share of one half: by symmetry .5."""
    assert chance_in_a_session(0.5, k=5000, n=9999) == pytest.approx(0.5, abs=1e-9)
    assert chance_in_a_session(1.0, k=3, n=3) == 1.0
    assert chance_in_a_session(0.0, k=1, n=3) == 0.0


@given(st.integers(1, 60), st.integers(0, 60), st.floats(0.01, 0.99))
def test_the_chance_of_a_session_is_scipys(n: int, k: int, share: float) -> None:
    k = min(k, n)
    found = chance_in_a_session(share, k=k, n=n)
    assert found == pytest.approx(stats.binom.sf(k - 1, n, share), abs=1e-10)
