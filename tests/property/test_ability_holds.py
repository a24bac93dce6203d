"""What holds for every record of tries."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.ability.outlook import outlook_of
from tapeline.ability.replay import DatedTrial, learn
from tapeline.ability.settings import shipped_levels
from tapeline.caseload.history import Trial
from tests.unit.ability.a_ladder import GUESS, MONDAY, TOSS, belief_after, week

LEVELS = shipped_levels()
END = week(40)
fast = settings(max_examples=60, deadline=None, derandomize=True)


@st.composite
def rows(draw: st.DrawFn, most_weeks: int = 12, most_count: int = 10) -> list[DatedTrial]:
    """Rows of one child on some Mondays, each a possible outcome."""
    found = []
    for number, day in enumerate(draw(st.lists(st.integers(0, most_weeks), max_size=14))):
        outcome = draw(st.sampled_from(("alone", "with_help", "not_yet")))
        levels = LEVELS[:-1] if outcome == "with_help" else LEVELS
        trial = Trial(
            id=f"t{number}",
            session=f"s{day}",
            child="c1",
            version="",
            step=draw(st.sampled_from(TOSS.steps)).id,
            outcome=outcome,
            help=draw(st.sampled_from(levels)),
            procedure=draw(st.sampled_from(("least_help", "planned_help"))),
            count=draw(st.integers(1, most_count)),
        )
        found.append(DatedTrial(date=week(day), trial=trial))
    return found


def is_sound(weights: np.ndarray) -> bool:
    return bool(np.isfinite(weights).all() and (weights >= 0).all())


@fast
@given(rows())
def test_beliefs_are_whole_and_chances_fall_along_the_progression(record: list[DatedTrial]):
    belief = belief_after(record, on=END)
    assert is_sound(belief.weights)
    assert belief.weights.sum() == pytest.approx(1.0)
    chances = [belief.chance(step.difficulty) for step in TOSS.steps]
    assert chances == sorted(chances, reverse=True)
    for one in outlook_of(TOSS, belief).values():
        assert 0 <= one.low <= one.high <= 1
        assert 0 <= one.practice <= 1000


@fast
@given(rows(), st.data())
def test_correcting_is_the_same_as_having_typed_it_right(record: list[DatedTrial], data):
    if not record:
        return
    wrong = data.draw(st.sampled_from(record))
    count = data.draw(st.integers(1, 10))
    right = replace(wrong.trial, count=count)
    corrected = [*record, replace(wrong, trial=replace(right, id="t-new", corrects=right.id))]
    typed = [replace(wrong, trial=right) if row is wrong else row for row in record]
    assert np.array_equal(
        belief_after(corrected, on=END).weights, belief_after(typed, on=END).weights
    )


@fast
@given(rows(), st.randoms(use_true_random=False))
def test_order_of_rows_within_the_record_does_not_matter(record: list[DatedTrial], chance):
    mixed = record.copy()
    chance.shuffle(mixed)
    assert np.array_equal(belief_after(mixed, on=END).weights, belief_after(record, on=END).weights)


@fast
@given(rows(most_weeks=8))
def test_absence_widens(record: list[DatedTrial]):
    if not record:
        return
    last = max(row.date for row in record)
    spreads = [belief_after(record, on=last + dt.timedelta(weeks=gone)).sd for gone in (0, 1, 4)]
    assert spreads == sorted(spreads)


@fast
@given(st.sampled_from(("alone", "not_yet")), st.integers(1, 1000), st.integers(1, 40))
def test_nothing_but_successes_or_failures_stays_finite(outcome: str, count: int, weeks: int):
    record = [
        DatedTrial(
            date=week(number),
            trial=Trial(
                id=f"t{number}",
                session=f"s{number}",
                child="c1",
                version="",
                step="toss.near",
                outcome=outcome,
                help="alone" if outcome == "alone" else "full_physical",
                count=count,
            ),
        )
        for number in range(weeks)
    ]
    belief = belief_after(record, on=week(weeks))
    assert is_sound(belief.weights)
    assert abs(belief.mean) < 10
    assert 0.01 < belief.sd < 3


@fast
@given(rows(most_weeks=3, most_count=6), rows(most_weeks=0))
def test_one_bad_day_after_four_moves_the_mean_by_half_a_logit_at_most(usual, bad):
    days = {week(number) for number in range(4)}
    usual = usual + [
        DatedTrial(
            date=day,
            trial=Trial(
                id=f"u{day}",
                session=f"s{day}",
                child="c1",
                version="",
                step="toss.near",
                outcome="alone",
                count=3,
            ),
        )
        for day in days
    ]
    on = MONDAY + dt.timedelta(weeks=4)
    today = [replace(row, date=on, trial=replace(row.trial, id=f"b{row.trial.id}")) for row in bad]
    before, after = belief_after(usual, on=on), belief_after(usual + today, on=on)
    assert before.mean - after.mean <= 0.5 + 1e-9


@st.composite
def rows_of_many(draw: st.DrawFn) -> list[DatedTrial]:
    """Rows of three children at two skills, the second a copy of the first."""
    found = []
    for child in ("c1", "c2", "c3"):
        for skill in ("toss", "roll"):
            for row in draw(rows(most_weeks=8)):
                trial = replace(
                    row.trial,
                    id=f"{child}-{skill}-{row.trial.id}",
                    child=child,
                    step=row.trial.step.replace("toss", skill),
                )
                found.append(replace(row, trial=trial))
    return found


ROLL = replace(
    TOSS,
    id="roll",
    steps=tuple(replace(step, id=step.id.replace("toss", "roll")) for step in TOSS.steps),
)
MANY = {child: {"toss": GUESS, "roll": GUESS} for child in ("c1", "c2", "c3")}


def learned_from(record: list[DatedTrial]):
    return learn({"toss": TOSS, "roll": ROLL}, record, MANY, on=END)


def same(one, other) -> bool:
    return one.steps == other.steps and all(
        np.array_equal(belief.weights, other.beliefs[key].weights)
        for key, belief in one.beliefs.items()
    )


@fast
@given(rows_of_many(), st.data())
def test_correcting_or_deleting_a_try_is_the_same_for_everyone_as_replaying(record, data):
    """All that is learned across children and skills included, to the last bit."""
    if not record:
        return
    wrong = data.draw(st.sampled_from(record))
    right = replace(wrong.trial, count=data.draw(st.integers(1, 10)))
    correction = replace(wrong, trial=replace(right, id="new", corrects=right.id))
    nothing = replace(wrong, trial=replace(right, id="none", corrects=right.id, count=0))
    typed = [replace(wrong, trial=right) if row is wrong else row for row in record]
    without = [row for row in record if row is not wrong]
    assert same(learned_from([*record, correction]), learned_from(typed))
    assert same(learned_from([*record, nothing]), learned_from(without))


@fast
@given(rows_of_many(), st.randoms(use_true_random=False))
def test_order_of_rows_of_many_children_does_not_matter(record, chance):
    mixed = record.copy()
    chance.shuffle(mixed)
    assert same(learned_from(mixed), learned_from(record))


@fast
@given(rows_of_many())
def test_what_is_learned_is_finite_and_in_order(record: list[DatedTrial]):
    learned = learned_from(record)
    for skill in learned.skills.values():
        at = [step.difficulty for step in skill.steps]
        assert at == sorted(at)
        mean = np.mean([step.difficulty for step in TOSS.steps])
        assert np.mean(at) == pytest.approx(mean, abs=1e-3)  # shares are sums over a grid
    assert np.isfinite([gain for pair in learned.gains.values() for gain in pair]).all()
    assert all(is_sound(belief.weights) for belief in learned.beliefs.values())
