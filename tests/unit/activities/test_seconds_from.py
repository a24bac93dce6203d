"""Where a version's seconds come from: a row of the planning times, or nobody knows."""

from __future__ import annotations

from collections import Counter

import pytest

from tapeline.activities.loader import load_library
from tapeline.activities.seconds_from import SecondsRow, seconds_origin, seconds_rows
from tapeline.errors import InputError
from tests.unit.activities.small_library import a_version

KICK = {"step": "kick.alone", "seconds_per_unit": (8, 6)}


def test_seconds_within_the_range_at_both_ages_name_their_row():
    found = seconds_origin(a_version(**KICK))
    assert found.row is not None
    assert (found.row.row, found.mark) == ("kick_to_wall_each_s", "default")
    assert found.ranges_s == ((6, 8), (4, 6))


@pytest.mark.parametrize(
    "changes",
    [
        {"seconds_per_unit": (9, 6)},
        {"seconds_per_unit": (8, 7)},
        {"unit": "rounds"},
        {"step": "kick.trap_pass"},
        {"step": None},
    ],
)
def test_other_seconds_are_a_default_without_a_row(changes):
    found = seconds_origin(a_version(**{**KICK, **changes}))
    assert (found.mark, found.row, found.ranges_s) == ("default", None, ())


def test_what_a_version_says_of_itself_goes_first():
    found = seconds_origin(a_version(**KICK, seconds_mark="sourced"))
    assert (found.mark, found.row) == ("sourced", None)


# Worked by hand from the planning times (five bags in hand, q + c/k): 3 to 5 s for a toss and a
# fifth of 15 to 20 s for collecting make 6 to 9 s; at 5 to 8 years 3 s and a fifth of 10 to 15 s.
def test_a_toss_has_its_share_of_collecting():
    row = next(one for one in seconds_rows() if one.row == "toss_to_box_each_s")
    assert row.range_s(3.5) == pytest.approx((6, 9))
    assert row.range_s(6) == pytest.approx((5, 6))


def test_arithmetic_does_not_better_a_mark():
    falls = SecondsRow(row="ball_fall_s", name="a fall", steps=("a.b",), times=2)
    mixed = SecondsRow(row="ball_fall_s", plus_row="snip_each_s", name="both", steps=("a.b",))
    assert (falls.mark(), mixed.mark()) == ("derived", "default")


def test_a_row_needs_a_step():
    with pytest.raises(InputError, match="is for 0 steps"):
        SecondsRow(row="snip_each_s", name="a snip", steps=())


def test_every_row_is_for_steps_that_the_library_has():
    known = {step.id for skill in load_library().skills.values() for step in skill.steps}
    named = [step for row in seconds_rows() for step in row.steps]
    assert set(named) <= known
    assert max(Counter(named).values()) == 1
