"""What changed between two plans, one sentence per change she would notice."""

from __future__ import annotations

from tapeline.planner.difference import difference_in_words
from tapeline.planner.plan import Dropped, Reason, SessionPlan
from tests.unit.planner.small_board import a_child_plan, a_part_plan, a_plan, some_names

BOX = a_part_plan("practice", "into_the_box")


def told(before: SessionPlan, after: SessionPlan) -> tuple[str, ...]:
    return difference_in_words(before, after, some_names())


def test_equal_plans_have_no_difference() -> None:
    assert told(a_plan(), a_plan()) == ()


def test_another_activity_is_told_with_the_one_it_replaces() -> None:
    after = a_plan(a_part_plan("practice", "sack"))
    assert told(a_plan(BOX), after) == ("Practice: sack in place of Into the box.",)


def test_a_part_that_comes_in_and_one_that_goes_are_told() -> None:
    fine = a_part_plan("fine_motor", "beads")
    assert told(a_plan(BOX), a_plan(BOX, fine)) == ("Fine motor: beads comes in.",)
    assert told(a_plan(BOX, fine), a_plan(BOX)) == ("Fine motor: beads is left out.",)


def test_minutes_are_told_in_whole_minutes() -> None:
    longer = a_part_plan("practice", "into_the_box", seconds=420)
    assert told(a_plan(BOX), a_plan(longer)) == ("Practice: 7 minutes, it was 5.",)


def test_a_second_that_changes_no_whole_minute_is_not_told() -> None:
    longer = a_part_plan("practice", "into_the_box", seconds=301)
    assert told(a_plan(BOX), a_plan(longer)) == ()


def test_another_amount_is_told_over_all_rounds() -> None:
    twice = a_part_plan("practice", "into_the_box", a_child_plan(amount=6), rounds=2)
    assert told(a_plan(BOX), a_plan(twice)) == ("Odo, Into the box: 12 tries, it was 10.",)


def test_more_rounds_of_fewer_are_the_same_amount() -> None:
    twice = a_part_plan("practice", "into_the_box", a_child_plan(amount=5), rounds=2)
    assert told(a_plan(BOX), a_plan(twice)) == ()


def test_another_version_is_told_by_what_the_child_does() -> None:
    other = a_child_plan(version="into_the_box.near.usual")
    was = a_child_plan(version="into_the_box.far.usual")
    before = a_plan(a_part_plan("practice", "into_the_box", was))
    after = a_plan(a_part_plan("practice", "into_the_box", other))
    assert told(before, after) == (
        "Odo, Into the box: another version, Toss the sock into the box.",
    )


def test_a_child_who_is_away_now_is_no_change_of_amounts() -> None:
    both = a_part_plan("practice", "into_the_box", a_child_plan(), a_child_plan("c2"))
    assert told(a_plan(both), a_plan(BOX)) == ()


def test_a_goal_lost_or_gained_is_told_by_name() -> None:
    without = a_plan(BOX, dropped=(Dropped(child="c1", goal="g1", reason=Reason(code="x")),))
    assert told(a_plan(BOX), without) == ("Odo loses work on the goal Catch a bounced ball today.",)
    assert told(without, a_plan(BOX)) == ("Odo gains work on the goal Catch a bounced ball today.",)
