"""Times that look like a slip of the pen are named, likely ones are not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tapeline.activities.check_times import faults_in_times
from tapeline.activities.timing import timing_file
from tests.unit.activities.small_library import a_library, a_version


def faults(**changes: Any) -> str:
    """All faults of one version's times."""
    library = a_library(a_version(**changes))
    return "\n".join(faults_in_times(library.activities["into_the_box"], library))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"seconds_per_unit": (600, 400)}, "takes 600 s for one of its tries"),
        ({"seconds_per_unit": (6, 0.1)}, "takes 0.1 s for one of its tries"),
        ({"unit": "metres", "seconds_per_unit": (60, 4)}, "for one of its metres"),
        ({"seconds_per_unit": (4, 6)}, "the older ones are not slower"),
        ({"most": 400}, "takes 2400 s in all"),
        ({"setup_s": 600}, "is set up in 600 s"),
    ],
)
def test_a_time_that_cannot_be_meant_is_named(changes: dict[str, Any], said: str) -> None:
    assert said in faults(**changes)
    assert faults() == ""


def test_older_children_may_take_longer_where_they_stay_in_the_line() -> None:
    library = a_library(a_version(seconds_per_unit=(90, 105), most=5))
    skill = replace(library.skills["toss"], family="fine_motor")
    fine = replace(library, skills={"toss": skill})
    assert list(faults_in_times(fine.activities["into_the_box"], fine)) == []


def test_every_planning_time_for_one_repetition_is_likely() -> None:
    """The ranges of the timing table (its own sources) must not be called a slip here."""
    for value in timing_file().values:
        if value.key.endswith("_each_s"):
            assert faults(seconds_per_unit=(value.value, value.value), most=5) == ""
