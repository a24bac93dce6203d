"""The filter's two kernels, and what a day, a gap and one bad day do to a belief."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from numpy.polynomial.hermite_e import hermegauss

from tapeline.ability.filter import Gaps, move, update
from tapeline.ability.grid import SHIPPED_GRID, Grid, day_kernel, day_points, transition
from tapeline.ability.likelihood import Event, log_likelihood
from tapeline.ability.replay import replay
from tapeline.ability.settings import filter_values
from tests.unit.ability.a_ladder import GUESS, TOSS, a_day, a_row, belief_after, week

VALUES = filter_values()
AT = SHIPPED_GRID.at


def some_beliefs(means: list[float], sd: float) -> np.ndarray:
    return SHIPPED_GRID.normal(np.array(means), np.full(len(means), sd))


def weeks(n: int, **kind: float) -> Gaps:
    return Gaps(
        **{name: np.full(n, kind.get(name, 0.0)) for name in ("practised", "elsewhere", "absent")}
    )


def mean_and_sd(belief: np.ndarray) -> tuple[float, float]:
    mean = belief @ AT
    return float(mean), float(np.sqrt(belief @ (AT - mean) ** 2))


def test_day_effect_agrees_with_gauss_hermite():
    """Forty-one nodes; five leave up to 1 % of the likelihood of eight alike tries."""
    tries = {Event("at_least", 6): 6, Event("exactly", 5): 1, Event("below", 4): 1}

    def of_day(ability: np.ndarray) -> np.ndarray:
        logs = sum(n * log_likelihood(ability, 0.4, event, VALUES) for event, n in tries.items())
        return np.exp(logs)

    on_grid = day_kernel(SHIPPED_GRID, VALUES) @ of_day(day_points(SHIPPED_GRID, VALUES))
    nodes, shares = hermegauss(41)
    shares = shares / shares.sum()
    by_nodes = sum(
        share * of_day(AT + VALUES.day_sd * node) for node, share in zip(nodes, shares, strict=True)
    )
    inside = np.abs(AT) < 5
    assert on_grid[inside] == pytest.approx(by_nodes[inside], rel=1e-4, abs=1e-12)


def test_tries_of_one_day_say_less_than_tries_of_several_days():
    one_day = belief_after(a_day(week(0), 12, 16), on=week(0))
    spread_out = [row for number in range(4) for row in a_day(week(0) + dt.timedelta(number), 3, 4)]
    assert one_day.sd > belief_after(spread_out, on=week(0) + dt.timedelta(3)).sd


def test_practice_drifts_up_and_absence_down():
    before = some_beliefs([0.0], 0.5)
    practised = move(before, weeks(1, practised=1.0), grid=SHIPPED_GRID, values=VALUES)
    absent = move(before, weeks(1, absent=1.0), grid=SHIPPED_GRID, values=VALUES)
    elsewhere = move(before, weeks(1, elsewhere=1.0), grid=SHIPPED_GRID, values=VALUES)
    assert mean_and_sd(practised[0])[0] == pytest.approx(VALUES.drift)
    assert mean_and_sd(absent[0])[0] == pytest.approx(-VALUES.decay)
    assert mean_and_sd(elsewhere[0])[0] == pytest.approx(0.0, abs=1e-9)


def test_a_gap_adds_its_variance():
    moved = move(some_beliefs([0.0], 0.5), weeks(1, absent=4.0), grid=SHIPPED_GRID, values=VALUES)
    wider = np.sqrt(0.5**2 + 4 * VALUES.weekly_sd_absent**2)
    assert mean_and_sd(moved[0])[1] == pytest.approx(wider, abs=1e-6)


def test_beliefs_with_other_gaps_do_not_touch_each_other():
    before = some_beliefs([-1.0, 0.0, 1.0], 0.5)
    gaps = Gaps(practised=np.array([1.0, 0.0, 0.3]), elsewhere=np.zeros(3), absent=np.arange(3.0))
    together = move(before, gaps, grid=SHIPPED_GRID, values=VALUES)
    for row in range(3):
        alone = move(before[[row]], gaps.at(slice(row, row + 1)), grid=SHIPPED_GRID, values=VALUES)
        assert together[row] == pytest.approx(alone[0], abs=1e-15)


def test_nothing_leaves_the_scale_at_its_ends():
    edge = np.zeros((1, SHIPPED_GRID.points))
    edge[0, -1] = 1.0
    moved = move(edge, weeks(1, practised=1.0), grid=SHIPPED_GRID, values=VALUES)
    assert moved.sum() == pytest.approx(1.0)


def test_a_spread_the_grid_cannot_show_is_refused():
    with pytest.raises(ValueError, match="finer grid"):
        transition(SHIPPED_GRID, 0.0, 0.03**2)


def test_the_shipped_grid_is_as_good_as_one_eight_times_finer():
    rows = [row for number in range(5) for row in a_day(week(number), 5 + number % 2, 8)]
    fine = Grid(points=1281)
    found = replay({"toss": TOSS}, rows, {"c1": {"toss": GUESS}}, on=week(5), grid=fine)
    finer, shipped = found["c1", "toss"], belief_after(rows, on=week(5))
    assert shipped.mean == pytest.approx(finer.mean, abs=1e-4)
    assert shipped.interval() == pytest.approx(finer.interval(), abs=1e-3)


def test_update_keeps_rows_whole():
    logs = np.zeros((2, len(day_points(SHIPPED_GRID, VALUES))))
    before = some_beliefs([0.0, 2.0], 1.0)
    after = update(before, logs, grid=SHIPPED_GRID, values=VALUES)
    assert after == pytest.approx(before)


FOUR_USUAL = [row for number in range(4) for row in a_day(week(number), 6, 8)]
BAD = [a_row(week(4), "not_yet", 8, help="full_physical")]


def test_one_bad_day_after_four_moves_the_mean_by_half_a_logit_at_most():
    before = belief_after(FOUR_USUAL, on=week(4))
    after = belief_after(FOUR_USUAL + BAD, on=week(4))
    assert before.mean - after.mean == pytest.approx(0.5, abs=1e-6)
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
