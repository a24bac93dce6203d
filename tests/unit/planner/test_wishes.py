"""How her wishes change; every change stays near the plan she is looking at."""

from __future__ import annotations

from tapeline.planner import wishes as change
from tapeline.planner.plan import Amount, Lock, SessionPlan, Wishes
from tests.unit.planner.small_board import a_part_plan, a_plan

BOX = Lock(activity="box", part="practice")


def a_plan_of_two(**wishes: object) -> SessionPlan:
    return a_plan(
        a_part_plan("arrival", "hello"),
        a_part_plan("practice", "box"),
        wishes=Wishes(**wishes),  # type: ignore[arg-type]
    )


def test_locking_keeps_an_activity_in_its_part() -> None:
    assert change.lock(a_plan_of_two(), "box").locked == (BOX,)


def test_locking_twice_keeps_one_lock() -> None:
    assert change.lock(a_plan_of_two(locked=(BOX,)), "box").locked == (BOX,)


def test_locking_takes_an_activity_back_in() -> None:
    assert change.lock(a_plan_of_two(left_out=("box",)), "box").left_out == ()


def test_unlocking_leaves_other_locks() -> None:
    hello = Lock(activity="hello", part="arrival")
    assert change.unlock(a_plan_of_two(locked=(BOX, hello)), "box").locked == (hello,)


def test_leaving_out_forgets_lock_amount_and_nearness() -> None:
    wishes = change.leave_out(
        a_plan_of_two(locked=(BOX,), amounts=(Amount(activity="box", amount=4),)), "box"
    )
    assert wishes.left_out == ("box",)
    assert wishes.locked == wishes.amounts == ()
    assert [one.activity for one in wishes.stay_near] == ["hello"]


def test_leaving_out_twice_counts_once() -> None:
    assert change.leave_out(a_plan_of_two(left_out=("box",)), "box").left_out == ("box",)


def test_taking_in_lets_it_be_chosen_again() -> None:
    assert change.take_in(a_plan_of_two(left_out=("sack", "box")), "sack").left_out == ("box",)


def test_a_swap_locks_the_other_and_leaves_the_first_out() -> None:
    wishes = change.swap(a_plan_of_two(left_out=("sack",)), "box", "sack", "practice")
    assert wishes.locked == (Lock(activity="sack", part="practice"),)
    assert wishes.left_out == ("box",)


def test_swapping_back_and_forth_leaves_only_the_last_wish() -> None:
    there = change.swap(a_plan_of_two(), "box", "sack", "practice")
    after = a_plan(a_part_plan("practice", "sack"), wishes=there)
    back = change.swap(after, "sack", "box", "practice")
    assert back.locked == (BOX,)
    assert back.left_out == ("sack",)


def test_an_amount_for_one_child_keeps_those_of_the_others() -> None:
    first = change.ask_amount(a_plan_of_two(), "box", 4, "c1")
    both = change.ask_amount(a_plan_of_two(amounts=first.amounts), "box", 6, "c2")
    assert both.amounts == (
        Amount(activity="box", amount=4, child="c1"),
        Amount(activity="box", amount=6, child="c2"),
    )


def test_an_amount_for_all_replaces_those_of_single_children() -> None:
    asked = (Amount(activity="box", amount=4, child="c1"), Amount(activity="hello", amount=1))
    wishes = change.ask_amount(a_plan_of_two(amounts=asked), "box", 8, None)
    assert wishes.amounts == (asked[1], Amount(activity="box", amount=8))


def test_no_amount_lets_the_plan_choose() -> None:
    asked = (Amount(activity="box", amount=4, child="c1"),)
    assert change.ask_amount(a_plan_of_two(amounts=asked), "box", None, "c1").amounts == ()


def test_who_is_away_replaces_who_was() -> None:
    assert change.set_away(a_plan_of_two(away=("c1",)), ("c2",)).away == ("c2",)


def test_every_change_stays_near_what_was_chosen() -> None:
    near = change.near(a_plan_of_two()).stay_near
    assert near == (Lock(activity="hello", part="arrival"), BOX)
    assert change.set_away(a_plan_of_two(), ()).stay_near == near


def test_choosing_afresh_keeps_the_wishes_and_drops_the_nearness() -> None:
    wishes = change.afresh(a_plan_of_two(locked=(BOX,), stay_near=(BOX,)))
    assert wishes.locked == (BOX,)
    assert wishes.stay_near == ()
