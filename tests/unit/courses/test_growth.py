"""The bounds a course is built within."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapeline.courses.growth import (
    stature_at,
    stature_at_percentile,
    stature_limits_cm,
    z_of_stature,
)
from tapeline.errors import InputError

ages = st.floats(min_value=24, max_value=240)
sexes = st.sampled_from(["M", "F"])


@given(months=ages, sex=sexes, z=st.floats(min_value=-3, max_value=3))
def test_stature_and_z_undo_each_other(months, sex, z):
    assert z_of_stature(stature_at(months, sex, z=z), months, sex) == pytest.approx(z, abs=1e-6)


@given(months=ages, sex=sexes, percentile=st.floats(min_value=3, max_value=97))
def test_the_limits_hold_every_child_between_the_two_percentiles(months, sex, percentile):
    lowest, highest = stature_limits_cm(months)
    assert lowest <= stature_at_percentile(months, sex, percentile=percentile) <= highest


@given(months=st.floats(min_value=24, max_value=144), later=st.floats(min_value=1, max_value=24))
def test_an_older_child_is_not_expected_to_be_smaller(months, later):
    younger, older = stature_limits_cm(months), stature_limits_cm(months + later)
    assert older[0] >= younger[0]
    assert older[1] >= younger[1]


def test_the_limits_are_the_outermost_of_both_tables_rounded_outwards():
    lowest = min(stature_at_percentile(60.5, sex, percentile=3) for sex in "MF")
    highest = max(stature_at_percentile(60.5, sex, percentile=97) for sex in "MF")
    found = stature_limits_cm(60.5)
    assert found[0] <= lowest < found[0] + 1
    assert found[1] - 1 < highest <= found[1]


@pytest.mark.parametrize("months", [0, 23.9, 240.1])
def test_an_age_outside_the_table_is_refused_with_the_age(months):
    with pytest.raises(InputError, match=f"{months:g} months old") as caught:
        stature_limits_cm(months)
    assert caught.value.field == "birth_month"


def test_a_height_of_zero_is_refused():
    with pytest.raises(InputError, match="0 cm"):
        z_of_stature(0, 60, "M")


@pytest.mark.parametrize("percentile", [0, 100, -5])
def test_a_percentile_outside_its_range_is_our_mistake(percentile):
    with pytest.raises(ValueError, match="between 0 and 100"):
        stature_at_percentile(60, "M", percentile=percentile)
