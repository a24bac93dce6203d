"""NAP and Tau at their edges."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.errors import InputError
from tapeline.progress.overlap import baseline_corrected_tau, nap, tau

counts = st.lists(st.integers(0, 8), min_size=1, max_size=8)


@settings(max_examples=80, deadline=None, derandomize=True)
@given(counts, counts, st.sampled_from((0.5, 0.8, 0.95)))
def test_the_interval_holds_the_estimate_and_stays_on_the_scale(a, b, confidence):
    found = nap(a, b, improvement="increase", confidence=confidence)
    assert 0 <= found.low <= found.estimate <= found.high <= 1
    assert found.low < found.high


@settings(max_examples=80, deadline=None, derandomize=True)
@given(counts, counts)
def test_the_other_direction_is_the_mirror(a, b):
    up = nap(a, b, improvement="increase")
    down = nap(a, b, improvement="decrease")
    assert down.estimate == pytest.approx(1 - up.estimate)
    assert (down.low, down.high) == pytest.approx((1 - up.high, 1 - up.low))


def test_all_above_reaches_from_its_root_to_the_end():
    found = nap([1, 2, 3], [5, 6, 7], improvement="increase")
    assert (found.estimate, found.high) == (1.0, 1.0)
    assert 0.5 < found.low < 1


def test_all_alike_is_no_difference():
    assert tau([4, 4, 4], [4, 4], improvement="increase").estimate == 0.0


def test_one_point_has_no_error_but_an_interval():
    found = nap([2], [3, 4], improvement="increase")
    assert found.error is None
    assert found.low < 1


def test_a_rising_baseline_alone_makes_no_corrected_difference():
    found = baseline_corrected_tau([1, 2, 3, 4], [5, 6, 7], improvement="increase")
    assert found.estimate == 0.0


@pytest.mark.parametrize("phases", [([], [1]), ([1], []), ([1], [float("inf")])])
def test_an_empty_phase_is_a_sentence(phases):
    with pytest.raises(InputError, match="A phase to compare"):
        nap(*phases, improvement="increase")


def test_a_short_baseline_has_no_trend_to_take_out():
    with pytest.raises(InputError, match="no trend to take out"):
        baseline_corrected_tau([1, 2], [3, 4], improvement="increase")
