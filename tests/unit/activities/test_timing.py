"""Planning times and what is said about them."""

from __future__ import annotations

import pytest

from tapeline.activities.timing import (
    TimingFile,
    TimingValue,
    change_s,
    explain_s,
    source_of,
    timing_file,
    timing_value,
)
from tapeline.errors import InputError


def a_value(**changes) -> TimingValue:
    fields = {
        "key": "hop_each_s",
        "ages": "any",
        "value": 2.0,
        "low": 1.0,
        "high": 3.0,
        "unit": "s",
        "mark": "default",
        "source": "practice",
    }
    return TimingValue(**(fields | changes))


def test_a_new_game_takes_longer_to_explain():
    assert explain_s(is_new=False) == 25
    assert explain_s(is_new=True) == 75


def test_the_first_change_of_the_first_session_takes_twice_as_long():
    assert change_s(age_years=4) == 60
    assert change_s(age_years=6) == 45
    assert change_s(age_years=6, is_first=True) == 90


@pytest.mark.parametrize(
    ("age_years", "ages"), [(2.5, "3-4"), (4.99, "3-4"), (5, "5-8"), (9, "5-8")]
)
def test_the_band_nearest_to_the_age_answers(age_years, ages):
    assert timing_value("hop_each_s", age_years=age_years).ages == ages


def test_every_value_of_common_practice_says_so():
    for value in timing_file().values:
        assert (value.mark == "default") == (source_of(value) == "common practice, no source")


@pytest.mark.parametrize("age_years", [3, 7])
def test_every_key_answers_for_both_bands(age_years):
    bands = {"any", "5-8" if age_years >= 5 else "3-4"}
    for key in {value.key for value in timing_file().values}:
        assert timing_value(key, age_years=age_years).ages in bands


def test_no_unit_is_left_out_of_a_key_of_seconds_or_minutes():
    for value in timing_file().values:
        if value.unit in ("s", "min"):
            assert value.key.endswith(f"_{value.unit}")


def test_a_younger_child_is_never_planned_faster_except_where_the_note_says_why():
    slower_when_older = {"colour_5_cm_shape_each_s", "stride_s", "station_min", "novelty_min"}
    for key in {value.key for value in timing_file().values if value.unit in ("s", "min")}:
        younger = timing_value(key, age_years=3).value
        older = timing_value(key, age_years=7).value
        assert younger >= older or key in slower_when_older, key


def test_a_value_that_depends_on_age_needs_one():
    with pytest.raises(ValueError, match="depends on age"):
        timing_value("hop_each_s")


def test_an_unknown_key_is_named():
    with pytest.raises(ValueError, match="'cartwheel_s'"):
        timing_value("cartwheel_s")


def test_a_value_outside_its_range_is_refused():
    with pytest.raises(InputError, match="hop_each_s is 4"):
        a_value(value=4.0)


def test_a_source_that_is_not_listed_is_refused():
    with pytest.raises(InputError, match="'rumour'"):
        TimingFile(
            valid_from=timing_file().valid_from,
            sources={"practice": "common practice, no source"},
            values=(a_value(source="rumour"),),
        )
