"""The array caseload: shapes, refusals, order of telling, and what it learns across children."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tapeline.ability import Caseload
from tapeline.ability.settings import FilterValues, filter_values
from tapeline.errors import InputError

STEPS = [0.0, 1.2, 2.4, 3.6]
ALONE = 6
VALUES = filter_values()


def told(caseload: Caseload, rows: list[tuple[int, int, int, int, int, int]]) -> Caseload:
    """Rows of (child, skill, week, step, alone, not yet)."""
    for child, skill, week, step, alone, not_yet in rows:
        if alone:
            caseload.observe(child, skill, week, step, "alone", ALONE, count=alone)
        if not_yet:
            caseload.observe(child, skill, week, step, "not_yet", ALONE, count=not_yet)
    return caseload


def steady(child: int, step: int, weeks: range, alone: int, of: int = 8, skill: int = 0):
    return [(child, skill, week, step, alone, of - alone) for week in weeks]


def answers(caseload: Caseload, week: int) -> list[float]:
    chance, successes = caseload.predict(0, 0, week, 1)
    return [chance, *successes, caseload.belief(0, 0, week).mean, caseload.goal_met(0, 0, week, 1)]


MIXED = [
    *steady(0, 1, range(6), 5),
    *steady(1, 1, range(3), 7),
    *steady(1, 2, range(3, 6), 2),
    *steady(0, 0, range(2, 6), 6, skill=1),
]


def a_caseload(**fields) -> Caseload:
    return Caseload(2, [STEPS, STEPS[:3]], **fields)


def test_shapes_and_sums():
    caseload = told(a_caseload(), MIXED)
    chance, successes = caseload.predict(0, 0, 6, 1, n=8)
    assert successes.shape == (9,)
    assert successes.sum() == pytest.approx(1.0)
    assert 0 < chance < caseload.predict(0, 0, 6, 1, help=3)[0] < 1
    step, second, code = caseload.next_step(0, 0, 6)
    assert step in range(4)
    assert second is None or second in range(4)
    assert code in ("in_the_band", "stay_close", "ready_for_more", "easier_first", "gap")
    assert caseload.belief(0, 0, 6).below(100.0) == pytest.approx(1.0)
    assert caseload.difficulty(0, 1).below(-100.0) == pytest.approx(0.0)


def test_weeks_told_in_any_order_give_the_same_to_the_last_bit():
    forward, backward = told(a_caseload(), MIXED), told(a_caseload(), MIXED[::-1])
    assert answers(forward, 6) == answers(backward, 6)
    assert answers(forward, 3) == answers(backward, 3)


def test_asking_in_between_changes_nothing():
    asked = a_caseload()
    for row in sorted(MIXED, key=lambda row: row[2]):
        answers(asked, row[2])
        told(asked, [row])
        asked.difficulty(0, 1)
    assert answers(asked, 6) == answers(told(a_caseload(), MIXED), 6)


def test_tries_of_later_weeks_do_not_count_yet():
    some = [row for row in MIXED if row[2] <= 2]
    assert answers(told(a_caseload(), MIXED), 2) == answers(told(a_caseload(), some), 2)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda c: c.observe(2, 0, 0, 0, "alone", ALONE), "child"),
        (lambda c: c.observe(0, 2, 0, 0, "alone", ALONE), "skill"),
        (lambda c: c.observe(0, 0, 0, 4, "alone", ALONE), "step"),
        (lambda c: c.observe(0, 0, -1, 0, "alone", ALONE), "week"),
        (lambda c: c.observe(0, 0, 0, 0, "not_yet", 7), "help"),
        (lambda c: c.observe(0, 0, 0, 0, "with_help", ALONE), "help"),
        (lambda c: c.observe(0, 0, 0, 0, "alone", ALONE, count=0), "count"),
        (lambda c: c.predict(0, 0, 0, 9), "step"),
        (lambda c: Caseload(0, [STEPS]), "children"),
        (lambda c: Caseload(1, [[1.0, 0.0]]), "skills"),
    ],
)
def test_what_is_not_there_is_a_sentence(call, field: str):
    with pytest.raises(InputError) as caught:
        call(a_caseload())
    assert caught.value.field == field


@pytest.mark.parametrize("alone", [0, 1000])
def test_a_thousand_tries_in_one_session_stay_finite(alone: int):
    caseload = told(a_caseload(), [(0, 0, 0, 1, alone, 1000 - alone)])
    assert np.isfinite(answers(caseload, 0)).all()
    assert caseload.belief(0, 0, 0).sd > 0.3


def test_planned_help_is_managed_or_not():
    """Planned with help k says y >= k; least help that worked says y = k: less able."""
    planned, least = a_caseload(), a_caseload()
    planned.observe(0, 0, 0, 1, "with_help", 3, count=6, planned=True)
    least.observe(0, 0, 0, 1, "with_help", 3, count=6)
    assert planned.belief(0, 0, 0).mean > least.belief(0, 0, 0).mean + 0.5


def test_difficulty_is_learned_across_children_and_the_mean_stays():
    """Six children manage step 1 and then mostly fail at step 2, guessed only 1.2 harder."""
    rows = [
        row
        for child in range(6)
        for row in steady(child, 1, range(4), 6) + steady(child, 2, range(4, 8), 1)
    ]
    caseload = told(Caseload(6, [STEPS]), rows)
    found = [caseload.difficulty(0, step) for step in range(4)]
    assert found[2].mean - found[1].mean > 1.5
    assert sum(one.mean for one in found) == pytest.approx(sum(STEPS))
    assert found[2].sd < caseload.difficulty(0, 2, week=0).sd
    assert [one.is_guess for one in found] == [True, False, False, True]


def test_first_guesses_in_logits_tell_how_hard_steps_are_as_such():
    """Twelve children do as guessed at one skill, and all worse than guessed at the other."""
    rows = []
    for child in range(12):
        rows += [(child, 0, 0, step, 5, 2) for step in (1,)]
        rows += [(child, 1, 0, step, 2, 5) for step in (1,)]
    guesses = [[2.1, 2.1]] * 12
    caseload = told(Caseload(12, [STEPS, STEPS], first_guesses=guesses), rows)
    easier, harder = (caseload.difficulty(skill, 1) for skill in (0, 1))
    assert harder.mean > easier.mean + 0.3
    fresh = Caseload(12, [STEPS, STEPS], first_guesses=guesses).difficulty(1, 1)
    assert harder.sd < fresh.sd - 0.05


def test_guesses_that_tell_nothing_are_drawn_to_the_others():
    """Twenty children guessed far apart and all alike: the next is thought nearer to them."""
    guesses = [[at] for at in np.linspace(-0.9, 5.1, 21)]
    rows = [(child, 0, 0, 1, 6, 2) for child in range(20)]
    caseload = told(Caseload(21, [STEPS], first_guesses=guesses), rows)
    fresh = Caseload(21, [STEPS], first_guesses=guesses)
    assert caseload.belief(20, 0, 0).mean < fresh.belief(20, 0, 0).mean - 1.0


def test_order_of_steps_is_kept_however_contrary_the_tries():
    """Children fail at step 1 and manage step 2."""
    rows = [
        row
        for child in range(6)
        for row in steady(child, 1, range(4), 0) + steady(child, 2, range(4, 8), 8)
    ]
    caseload = told(Caseload(6, [STEPS]), rows)
    found = [caseload.difficulty(0, step).mean for step in range(4)]
    apart = VALUES.step_apart * np.diff(STEPS)
    assert (np.diff(found) >= apart - 1e-9).all()


def test_a_difficulty_that_others_learn_moves_no_child_that_stays_at_its_step():
    """A child known at step 1 keeps its chance there when step 1 turns out easier for all."""
    own = steady(0, 1, range(6), 5)
    others = [
        row
        for child in range(1, 7)
        for row in steady(child, 1, range(3), 6) + steady(child, 2, range(3, 6), 0)
    ]
    alone, among = Caseload(7, [STEPS]), Caseload(7, [STEPS])
    chances = [
        told(one, rows).predict(0, 0, 6, 1)[0]
        for one, rows in ((alone, own), (among, own + others))
    ]
    assert among.difficulty(0, 1).mean < alone.difficulty(0, 1).mean - 0.2
    assert chances[0] == pytest.approx(chances[1], abs=0.05)


def test_gain_is_learned_per_child_and_shrunk_to_the_group():
    """One child of eight rises by a quarter logit a week; the others stay as they are."""
    values = replace(VALUES, step_sd=0.0)
    chance = np.random.default_rng(5)
    rows = []
    for child in range(8):
        for week in range(16):
            above = 0.2 + (0.25 * week if child == 0 else 0.0)
            step = min(3, int(above // 1.2) + 1) if child == 0 else 1
            p = 1 / (1 + np.exp(-(above + 1.2 - STEPS[step])))
            alone = int(chance.binomial(8, p))
            rows.append((child, 0, week, step, alone, 8 - alone))
    caseload = told(Caseload(8, [STEPS], values=values), rows)
    gains = caseload.gains(16)
    assert gains[0].mean == max(one.mean for one in gains)
    assert gains[0].mean > np.mean([one.mean for one in gains[1:]]) + 0.02
    assert gains[0].mean < 0.25
    assert np.mean([one.mean for one in gains[1:]]) < VALUES.drift


@pytest.mark.parametrize("wrong", [-2.0, 2.0])
def test_a_first_guess_two_logits_off_is_found_out_in_three_weeks(wrong: float):
    """A child who manages step 1 seven times in ten; she guessed two logits more or less."""
    true = 1.2 + 0.95
    caseload = Caseload(1, [STEPS], first_guesses=[[true + wrong]])
    before = caseload.predict(0, 0, 0, 1)[0]
    told(caseload, steady(0, 1, range(3), 7, of=10))
    assert abs(before - 0.7) > 0.15
    assert caseload.predict(0, 0, 3, 1)[0] == pytest.approx(0.7, abs=0.08)


def test_what_first_guesses_are_worth_is_learned_from_the_first_children():
    """Twelve children two logits less able than she said: the thirteenth is doubted."""
    first = [[3.0]] * 13
    caseload = told(
        Caseload(13, [STEPS], first_guesses=first),
        [row for child in range(12) for row in steady(child, 1, range(3), 4)],
    )
    fresh = Caseload(13, [STEPS], first_guesses=first)
    assert caseload.belief(12, 0, 3).mean < fresh.belief(12, 0, 3).mean - 1.0


def test_four_weeks_away_widen_the_interval():
    caseload = told(a_caseload(), steady(0, 0, range(5), 5))
    (low, high), (later_low, later_high) = (
        caseload.belief(0, 0, week).interval() for week in (4, 8)
    )
    assert later_high - later_low > high - low + 0.1


def test_one_lucky_day_is_no_goal_reached():
    once = told(Caseload(1, [STEPS]), steady(0, 1, range(1), 10, of=10))
    often = told(Caseload(1, [STEPS]), steady(0, 1, range(2), 3) + steady(0, 1, range(2, 12), 8))
    assert once.goal_met(0, 0, 0, 1) == 0.0
    assert often.goal_met(0, 0, 12, 1) > 0.9
    assert often.goal_said(0, 0, 12, 1)


def test_a_goal_is_said_only_after_a_day_that_was_sure_already():
    """Asked week by week: not said in the first week in which it is likely enough."""
    rows = steady(0, 1, range(2), 3) + steady(0, 1, range(2, 14), 8)
    caseload = told(Caseload(1, [STEPS]), rows)
    sure = [week for week in range(14) if caseload.goal_met(0, 0, week, 1) >= 0.9]
    said = [week for week in range(14) if caseload.goal_said(0, 0, week, 1)]
    assert said
    assert said[0] > sure[0]
    assert set(said) <= set(sure)


def test_a_goal_at_a_step_never_tried_is_not_said():
    caseload = told(Caseload(1, [STEPS]), steady(0, 1, range(2), 3) + steady(0, 2, range(2, 16), 8))
    assert caseload.goal_met(0, 0, 15, 1) > 0.9
    assert not caseload.goal_said(0, 0, 15, 3)
    assert not caseload.goal_said(0, 0, 15, 0)


def test_a_yes_or_no_list_needs_one_threshold_only():
    caseload = Caseload(1, [STEPS], values=FilterValues(thresholds=(0.0,), day_sd=0.5))
    caseload.observe(0, 0, 0, 1, "alone", 1, count=4)
    caseload.observe(0, 0, 0, 1, "not_yet", 1, count=4)
    assert 0.3 < caseload.predict(0, 0, 0, 1)[0] < 0.7
