"""Trends of short and dull series."""

from __future__ import annotations

import pytest

from tapeline.errors import InputError
from tapeline.progress.trend import trend_of


def test_a_line_is_found_whatever_one_wild_point_does():
    found = trend_of([1, 2, 3, 4, 5, 6], [2, 4, 6, 40, 10, 12])
    assert found.slope == pytest.approx(2.0)


def test_a_constant_series_has_no_slope_and_no_warning():
    found = trend_of([1, 2, 3, 4], [5, 5, 5, 5])
    assert (found.slope, found.intercept, found.low, found.high) == (0.0, 5.0, 0.0, 0.0)


def test_two_points_give_a_line_without_an_interval():
    found = trend_of([1, 3], [2, 6])
    assert (found.slope, found.low, found.high) == (2.0, None, None)


def test_missed_sessions_keep_their_time():
    assert trend_of([1, 2, 6], [1, 2, 6]).slope == pytest.approx(1.0)


def test_two_values_of_one_time_make_no_slope():
    assert trend_of([1, 1, 2, 2], [3, 5, 4, 6]).slope == pytest.approx(1.0)


def test_the_line_has_its_height():
    assert trend_of([1, 2, 3], [3, 5, 7]).at(10) == pytest.approx(21.0)


def test_the_interval_holds_the_slope():
    found = trend_of(range(8), [4, 5, 6, 5, 6, 6, 7, 6])
    assert found.low <= found.slope <= found.high


@pytest.mark.parametrize(
    ("times", "values"),
    [([], []), ([1], [2]), ([3, 3], [1, 2]), ([1, 2], [1]), ([1, 2], [1, float("nan")])],
)
def test_too_little_is_a_sentence(times: list[float], values: list[float]):
    with pytest.raises(InputError, match="A trend was asked for"):
        trend_of(times, values)
