"""What was seen by day, where a child stands, and what to look at again."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.ability.outlook import StepOutlook
from tapeline.ability.seen import DaySeen, checks_due, days_seen, where_it_stands
from tapeline.ability.settings import shipped_levels
from tapeline.ability.words import chance_in_words, day_in_words, place_in_words
from tests.unit.ability.a_ladder import TOSS, a_day, a_row, week

LEVELS = shipped_levels()


def some_days(*steps: str, first: int = 0) -> tuple[DaySeen, ...]:
    """One day a week at each step in turn."""
    return tuple(
        DaySeen(step=f"toss.{step}", date=week(first + number), alone=6, tries=8)
        for number, step in enumerate(steps)
    )


def test_a_day_counts_alone_of_all_with_the_usual_help():
    rows = [
        a_row(week(0), "alone", 3),
        a_row(week(0), "with_help", 1, help="model"),
        a_row(week(0), "with_help", 2, help="word"),
        a_row(week(0), "not_yet", 2, help="model"),
    ]
    assert days_seen(rows, LEVELS) == (
        DaySeen(step="toss.near", date=week(0), alone=3, tries=8, help="word"),
    )


def test_of_two_helps_alike_the_lighter_is_named():
    rows = [a_row(week(0), "with_help", 2, help=level) for level in ("word", "model")]
    assert days_seen(rows, LEVELS)[0].help == "word"


def test_a_corrected_row_is_not_seen():
    wrong = a_row(week(0), "alone", 3)
    right = replace(wrong, trial=replace(wrong.trial, id="again", corrects=wrong.trial.id, count=5))
    assert days_seen([wrong, right], LEVELS)[0].alone == 5


def test_days_come_in_order_of_date():
    rows = a_day(week(2), 1, 2) + a_day(week(0), 1, 2)
    assert [day.date for day in days_seen(rows, LEVELS)] == [week(0), week(2)]


def test_a_child_stands_at_what_it_practised_last():
    found = where_it_stands(TOSS, some_days("drop", "near", "near"), "toss.drop")
    assert (found.step, found.since) == ("toss.near", week(1))


def test_an_easier_day_in_between_takes_nobody_back():
    found = where_it_stands(TOSS, some_days("near", "far", "near"), "toss.near")
    assert (found.step, found.since) == ("toss.far", week(1))


def test_two_easier_days_running_do():
    found = where_it_stands(TOSS, some_days("near", "far", "near", "near"), "toss.near")
    assert (found.step, found.since) == ("toss.near", week(3))


def test_a_start_harder_than_all_that_was_seen_still_stands():
    found = where_it_stands(TOSS, some_days("drop", "drop"), "toss.far")
    assert (found.step, found.since) == ("toss.far", None)


@pytest.mark.parametrize(("start", "step"), [("toss.far", "toss.far"), (None, "toss.drop")])
def test_before_any_day_it_is_her_start_or_the_first_step(start, step):
    assert where_it_stands(TOSS, (), start).step == step


@pytest.mark.parametrize(
    ("weeks_later", "is_due"),
    [(0, False), (1, True), (2, True), (3, True), (4, False), (5, True), (6, True), (7, False)],
)
def test_a_step_left_behind_is_looked_at_after_one_two_to_three_and_five_to_six_weeks(
    weeks_later: int, is_due: bool
):
    days = some_days("near") + some_days("far", "far", first=1)
    due = checks_due(TOSS, days, on=week(weeks_later))
    assert [check.step for check in due] == (["toss.near"] if is_due and weeks_later else [])


def test_looking_at_it_starts_the_weeks_anew():
    days = some_days("near") + some_days("far", "far") + some_days("near", first=4)
    assert checks_due(TOSS, days, on=week(4) + dt.timedelta(3)) == ()
    assert [check.last for check in checks_due(TOSS, days, on=week(5))] == [week(4)]


def test_the_step_a_child_is_at_needs_no_check():
    assert checks_due(TOSS, some_days("near", "near"), on=week(3)) == ()


KNOWN = StepOutlook(chance=0.68, practice=800, revisit=500, low=0.58, high=0.79, tries=40)


def test_a_chance_is_told_in_tenths():
    expected = "Most days about 7 in 10 at this step (likely between 6 and 8)."
    assert chance_in_words(KNOWN) == expected


def test_an_interval_wider_than_the_band_is_not_enough():
    wide = replace(KNOWN, low=0.4)
    assert chance_in_words(wide) == "Not enough seen yet (likely between 4 and 8 in 10)."


def test_a_first_guess_says_that_it_is_one():
    assert "first guess" in chance_in_words(replace(KNOWN, tries=0))


def test_a_day_is_told_as_k_of_n_with_its_help():
    day = DaySeen(step="toss.near", date=week(0), alone=3, tries=8, help="word")
    assert day_in_words(day, {"word": "a word"}) == (
        "3 of 8 on their own; the help needed was mostly: a word."
    )
    assert day_in_words(replace(day, help=None), {}) == "3 of 8 on their own."


def test_a_progression_is_told_by_the_hardest_step_that_mostly_works_and_the_next():
    chances = dict(zip((step.id for step in TOSS.steps), (0.9, 0.7, 0.4, 0.2), strict=True))
    steps = {step: replace(KNOWN, chance=chance) for step, chance in chances.items()}
    assert place_in_words(TOSS, steps) == (
        "Most days “near” about 7 in 10, then “far” about 4 in 10."
    )


def test_a_progression_never_tried_is_a_first_guess():
    steps = {step.id: replace(KNOWN, chance=0.1, tries=0) for step in TOSS.steps}
    assert place_in_words(TOSS, steps).startswith("Not enough seen yet. A first guess is: “drop”")


def test_the_last_step_is_told_alone():
    steps = {step.id: replace(KNOWN, chance=0.9) for step in TOSS.steps}
    assert place_in_words(TOSS, steps) == "Most days “small” about 9 in 10."
