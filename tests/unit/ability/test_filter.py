"""The filter's two kernels, and what a day, a gap and one bad day do to a belief."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from tapeline.ability.days import Gaps
from tapeline.ability.filter import run
from tapeline.ability.grid import SHIPPED_GRID, Grid, day_kernel, moved_along
from tapeline.ability.replay import replay
from tapeline.ability.settings import filter_values
from tests.unit.ability.a_caseload import days_of, one_day
from tests.unit.ability.a_ladder import GUESS, TOSS, a_day, a_row, belief_after, week

VALUES = replace(filter_values(), drift_child_sd=0.0, drift_group_sd=0.0)
AT = SHIPPED_GRID.at


def some_beliefs(means: list[float], sd: float) -> np.ndarray:
    return SHIPPED_GRID.normal(np.array(means), np.full(len(means), sd))


def mean_and_sd(belief: np.ndarray) -> tuple[float, float]:
    mean = belief @ AT
    return float(mean), float(np.sqrt(belief @ (AT - mean) ** 2))


def after_a_gap(before: np.ndarray, **weeks: float | list[float]) -> np.ndarray:
    """Beliefs after a gap and a day that says nothing."""
    n = len(before)
    gaps = Gaps(
        **{
            name: np.broadcast_to(np.asarray(weeks.get(name, 0.0), dtype=float), (n,))
            for name in ("practised", "elsewhere", "absent")
        }
    )
    nothing = [one_day(belief, count=1e-12) for belief in range(n)]
    return run(before, days_of(nothing, gaps=gaps), grid=SHIPPED_GRID, values=VALUES)


def test_tries_of_one_day_say_less_than_tries_of_several_days():
    one_day = belief_after(a_day(week(0), 12, 16), on=week(0))
    spread_out = [row for number in range(4) for row in a_day(week(0) + dt.timedelta(number), 3, 4)]
    assert one_day.sd > belief_after(spread_out, on=week(0) + dt.timedelta(3)).sd


def test_practice_drifts_up_and_absence_down():
    before = some_beliefs([0.0], 0.5)
    practised = after_a_gap(before, practised=1.0)
    absent = after_a_gap(before, absent=1.0)
    elsewhere = after_a_gap(before, elsewhere=1.0)
    assert mean_and_sd(practised[0])[0] == pytest.approx(VALUES.drift)
    assert mean_and_sd(absent[0])[0] == pytest.approx(-VALUES.decay)
    assert mean_and_sd(elsewhere[0])[0] == pytest.approx(0.0, abs=1e-9)


def test_a_gap_adds_its_variance():
    moved = after_a_gap(some_beliefs([0.0], 0.5), absent=4.0)
    wider = np.sqrt(0.5**2 + 4 * VALUES.weekly_sd_absent**2)
    assert mean_and_sd(moved[0])[1] == pytest.approx(wider, abs=1e-6)


def test_beliefs_with_other_gaps_do_not_touch_each_other():
    before = some_beliefs([-1.0, 0.0, 1.0], 0.5)
    together = after_a_gap(before, practised=[1.0, 0.0, 0.3], absent=[0.0, 1.0, 2.0])
    for row, (practised, absent) in enumerate([(1.0, 0.0), (0.0, 1.0), (0.3, 2.0)]):
        alone = after_a_gap(before[[row]], practised=practised, absent=absent)
        assert together[row] == pytest.approx(alone[0], abs=1e-14)


@pytest.mark.parametrize(("shift", "sd"), [(0.0, 0.3), (0.05, 0.22), (-0.333, 0.05), (2.7, 0.7)])
def test_moving_on_waves_agrees_with_a_normal_belief_moved(shift: float, sd: float):
    moved = moved_along(
        some_beliefs([0.4], 0.5), np.array([shift]), np.array([sd**2]), grid=SHIPPED_GRID
    )
    assert moved == pytest.approx(some_beliefs([0.4 + shift], np.hypot(0.5, sd)), abs=1e-8)


def test_nothing_leaves_the_scale_at_its_ends():
    edge = np.zeros((1, SHIPPED_GRID.points))
    edge[0, -1] = 1.0
    moved = moved_along(edge, np.array([0.4]), np.array([0.2]), grid=SHIPPED_GRID)
    assert moved.sum() == pytest.approx(1.0)
    assert moved[0, -20:].sum() == pytest.approx(1.0, abs=1e-3)


def test_a_spread_the_grid_cannot_show_is_refused():
    with pytest.raises(ValueError, match="finer grid"):
        day_kernel(SHIPPED_GRID, 0.03)


def test_the_shipped_grid_is_as_good_as_one_eight_times_finer():
    rows = [row for number in range(5) for row in a_day(week(number), 5 + number % 2, 8)]
    fine = Grid(points=1281)
    found = replay({"toss": TOSS}, rows, {"c1": {"toss": GUESS}}, on=week(5), grid=fine)
    finer, shipped = found["c1", "toss"], belief_after(rows, on=week(5))
    assert shipped.mean == pytest.approx(finer.mean, abs=1e-4)
    assert shipped.interval() == pytest.approx(finer.interval(), abs=1e-3)


FOUR_USUAL = [row for number in range(4) for row in a_day(week(number), 6, 8)]
BAD = [a_row(week(4), "not_yet", 8, help="full_physical")]


def test_one_bad_day_after_four_moves_the_mean_by_half_a_logit_at_most():
    before = belief_after(FOUR_USUAL, on=week(4))
    after = belief_after(FOUR_USUAL + BAD, on=week(4))
    assert before.mean - after.mean == pytest.approx(0.5, abs=1e-5)
    assert after.sd > before.sd


def test_a_usual_day_after_the_bad_one_brings_the_mean_back():
    usual_again = FOUR_USUAL + BAD + a_day(week(5), 6, 8)
    without = FOUR_USUAL + a_day(week(5), 6, 8)
    found, expected = belief_after(usual_again, on=week(5)), belief_after(without, on=week(5))
    assert found.mean == pytest.approx(expected.mean, abs=0.25)


def test_a_second_bad_day_running_is_believed():
    again = [a_row(week(5), "not_yet", 8, help="full_physical")]
    once = belief_after(FOUR_USUAL + BAD, on=week(5))
    twice = belief_after(FOUR_USUAL + BAD + again, on=week(5))
    assert once.mean - twice.mean > 1.0


def test_a_good_day_is_never_held_back():
    wonderful = [a_row(week(4), "alone", 8, step="toss.small")]
    before = belief_after(FOUR_USUAL, on=week(4))
    assert belief_after(FOUR_USUAL + wonderful, on=week(4)).mean - before.mean > 0.5
