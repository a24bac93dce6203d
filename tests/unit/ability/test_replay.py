"""The record replayed: corrections, deletions, unknown names, several children at once."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from tapeline.ability.belief import Normal
from tapeline.ability.gather import Gathered
from tapeline.ability.replay import DatedTrial, replay, standing
from tapeline.ability.settings import filter_values, shipped_levels
from tapeline.errors import InputError
from tests.unit.ability.a_ladder import GUESS, TOSS, a_day, a_row, belief_after, week

USUAL = [row for number in range(3) for row in a_day(week(number), 5, 8)]


def same(one, other) -> bool:
    return bool(np.array_equal(one.weights, other.weights))


def correction(row: DatedTrial, **fields) -> DatedTrial:
    trial = replace(row.trial, id=f"{row.trial.id}-again", corrects=row.trial.id, **fields)
    return replace(row, trial=trial)


def gathered(rows: list[DatedTrial]) -> Gathered:
    found = Gathered({"toss": TOSS}, shipped_levels(), filter_values(), [("c1", "toss")])
    for row in rows:
        found.add(row.date, row.trial)
    return found


def test_a_correction_takes_the_place_of_the_row_it_names():
    corrected = [*USUAL, correction(USUAL[0], count=8)]
    typed_right = [replace(USUAL[0], trial=replace(USUAL[0].trial, count=8)), *USUAL[1:]]
    assert same(belief_after(corrected, on=week(3)), belief_after(typed_right, on=week(3)))


def test_a_correction_of_a_correction_stands_alone():
    first = correction(USUAL[0], count=8)
    second = correction(first, count=2)
    assert {row.trial.id for row in standing([*USUAL, first, second])} == {
        second.trial.id,
        *(row.trial.id for row in USUAL[1:]),
    }


def test_of_two_corrections_of_one_row_the_later_stays():
    first, second = correction(USUAL[0], count=8), correction(USUAL[0], count=2)
    second = replace(second, trial=replace(second.trial, id="later"))
    assert [row.trial.id for row in standing([USUAL[0], first, second])] == ["later"]


def test_a_correction_can_move_a_row_to_another_child():
    moved = correction(USUAL[0], child="c2")
    guesses = {"c1": {"toss": GUESS}, "c2": {"toss": GUESS}}
    found = replay({"toss": TOSS}, [*USUAL, moved], guesses, on=week(3))
    assert found["c2", "toss"].tries == USUAL[0].trial.count
    typed = replace(USUAL[0], trial=replace(USUAL[0].trial, child="c2"))
    expected = replay({"toss": TOSS}, [typed, *USUAL[1:]], guesses, on=week(3))
    assert all(same(found[key], expected[key]) for key in expected)


def test_a_child_that_is_gone_leaves_no_trace():
    others = [row for number in range(3) for row in a_day(week(number), 1, 8, child="c2")]
    found = replay({"toss": TOSS}, [*others, *USUAL], {"c1": {"toss": GUESS}}, on=week(3))
    assert list(found) == [("c1", "toss")]
    assert same(found["c1", "toss"], belief_after(USUAL, on=week(3)))


def test_of_other_children_only_steps_gains_and_first_guesses_are_learned():
    late = [row for number in (0, 2, 9) for row in a_day(week(number), 3, 8, child="c2")]
    guesses = {"c1": {"toss": GUESS}, "c2": {"toss": Normal(mean=0.0, sd=1.5)}}
    together = replay({"toss": TOSS}, [*late, *USUAL], guesses, on=week(10))
    alone = replay({"toss": TOSS}, late, {"c2": guesses["c2"]}, on=week(10))
    one, other = together["c2", "toss"], alone["c2", "toss"]
    assert (one.tries, one.days, one.last) == (other.tries, other.days, other.last)
    assert one.mean == pytest.approx(other.mean, abs=0.1)
    assert one.sd == pytest.approx(other.sd, abs=0.05)


def test_another_group_is_no_other_record():
    """A child who moves to another group keeps what was seen: sessions are only dates here."""
    moved = [replace(row, trial=replace(row.trial, session="other-group")) for row in USUAL]
    assert same(belief_after(moved, on=week(3)), belief_after(USUAL, on=week(3)))


def test_tries_after_the_date_do_not_count():
    assert same(
        belief_after([*USUAL, *a_day(week(9), 8, 8)], on=week(3)), belief_after(USUAL, on=week(3))
    )


def test_without_tries_the_first_guess_stands_however_late():
    found = belief_after([], on=week(30))
    assert found.mean == pytest.approx(GUESS.mean, abs=0.02)
    assert GUESS.sd < found.sd < 1.5 * GUESS.sd
    assert (found.tries, found.days, found.last) == (0, 0, None)


def test_what_was_seen_is_counted():
    found = belief_after(USUAL, on=week(3))
    assert (found.tries, found.days, found.last) == (24, 3, week(2))


def test_four_weeks_away_widen_the_interval():
    then, later = belief_after(USUAL, on=week(2)), belief_after(USUAL, on=week(6))
    assert later.sd > then.sd + 0.1


def test_a_week_with_other_skills_only_is_no_absence():
    """The child was seen, at a skill that is not asked for here: no decay, no drift."""
    seen = [a_row(week(number), "alone", 4, step="catch.roll") for number in range(3, 6)]
    catch = replace(
        TOSS,
        id="catch",
        steps=tuple(
            replace(s, id=f"catch.{t}")
            for s, t in zip(TOSS.steps, ("roll", "b", "c", "d"), strict=True)
        ),
    )
    guesses = {"c1": {"toss": GUESS, "catch": GUESS}}
    skills = {"toss": TOSS, "catch": catch}
    here = replay(skills, [*USUAL, *seen], guesses, on=week(5))["c1", "toss"]
    away = replay(skills, USUAL, guesses, on=week(5))["c1", "toss"]
    assert here.mean > away.mean
    assert here.sd < away.sd


def test_rows_of_two_recorders_on_one_day_both_count():
    again = a_row(week(0), "alone", 3, id="other-tally")
    assert belief_after([*USUAL, again], on=week(3)).tries == 27


@pytest.mark.parametrize(
    ("fields", "said"),
    [({"step": "toss.moon"}, "the step 'toss.moon'"), ({"help": "shout"}, "prompt level 'shout'")],
)
def test_an_unknown_name_is_a_sentence(fields, said: str):
    with pytest.raises(InputError, match=said):
        belief_after([a_row(week(0), "alone", 3, **fields)], on=week(3))


def test_ordinary_weeks_and_long_gaps_add_up():
    """Ten weeks between two days: one practised, nine absent."""
    found = gathered(a_day(week(0), 5, 8) + a_day(week(10), 5, 8)).days().gaps
    assert (found.practised[1], found.elsewhere[1], found.absent[1]) == (1.0, 0.0, 9.0)


def test_a_few_days_apart_is_part_of_a_week():
    found = gathered(a_day(week(0), 5, 8) + a_day(week(0) + dt.timedelta(2), 5, 8)).days().gaps
    assert found.practised[1] == pytest.approx(2 / 7)
    assert found.absent[1] == 0.0


def test_a_first_day_has_no_gap():
    found = gathered(a_day(week(0), 5, 8)).days().gaps
    assert (found.practised[0], found.elsewhere[0], found.absent[0]) == (0.0, 0.0, 0.0)
