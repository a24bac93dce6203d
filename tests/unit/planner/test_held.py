"""A missing adult is no reason to let go of a child who was held until now."""

from __future__ import annotations

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, Trial
from tapeline.caseload.people import Start
from tapeline.errors import NoFeasiblePlan
from tapeline.planner.plan import Lock, SessionPlan, Wishes
from tapeline.sessions.prepare import lay_out_session, plan_session
from tests.builders import TODAY, a_caseload, a_child, a_goal, a_group

HELD = Start(skill="jump2", step="jump2.held")
ON_HER_OWN = Start(skill="jump2", step="jump2.in_place")
LOCKED = Wishes(locked=(Lock(activity="stamp_letters"),))
BEFORE = Session(id="last", group="tuesday", date=TODAY.replace(day=3), status="held")


def jumpers(*starts: Start, trials: tuple[Trial, ...] = ()) -> Caseload:
    """Children who work on catching, and who start to jump at this step."""
    marks = ("boat", "kite", "shell")
    children = tuple(
        a_child(
            id=f"c{number}",
            mark=mark,
            skills=(*a_child().skills, start),
            goals=(a_goal(),),
        )
        for number, (start, mark) in enumerate(zip(starts, marks, strict=False), 1)
    )
    group = a_group(*(child.id for child in children), minutes=45)
    return a_caseload(children=children, groups=(group,), sessions=(BEFORE,), trials=trials)


def planned(caseload: Caseload, adults: int) -> SessionPlan:
    return plan_session(caseload, group="tuesday", on=TODAY, wishes=LOCKED, adults=adults)


def steps_of(plan: SessionPlan) -> list[str]:
    part = plan.part_of("stamp_letters")
    assert part is not None
    return [row.version.split(".")[1] for row in part.children]


def held_free(caseload: Caseload) -> dict[str, int]:
    """Shares of an adult to be free, by step of the locked game, for the first child."""
    _, board = lay_out_session(caseload, group="tuesday", on=TODAY, wishes=LOCKED, adults=1)
    return {
        option.version.split(".")[1]: option.held
        for candidate in board.candidates
        if candidate.activity == "stamp_letters"
        for level in candidate.levels
        for option in level.options["c1"]
    }


def test_two_children_held_and_one_adult_clash_with_the_lock() -> None:
    with pytest.raises(NoFeasiblePlan) as caught:
        planned(jumpers(HELD, HELD), adults=1)
    assert set(caught.value.clash) == {"adults", "locked:stamp_letters"}
    assert "were held until now" in caught.value.message
    assert "Ask one more adult." in caught.value.ways_out


def test_the_second_adult_is_a_way_out_that_works() -> None:
    plan = planned(jumpers(HELD, HELD), adults=2)
    assert len(steps_of(plan)) == 2


def test_children_who_jump_on_their_own_need_no_second_adult() -> None:
    assert "held" not in steps_of(planned(jumpers(ON_HER_OWN, ON_HER_OWN), adults=1))


def test_the_harder_step_of_a_child_who_is_held_takes_an_adult_too() -> None:
    free = held_free(jumpers(HELD, HELD))
    assert free.pop("in_place", 3) == 3
    assert free.pop("held", 0) == 0
    assert held_free(jumpers(ON_HER_OWN, ON_HER_OWN)).get("in_place") == 0


def seen(help_given: str) -> Trial:
    return Trial(
        id="t1", session="last", child="c1", version="stamp_letters.in_place.usual",
        step="jump2.in_place", outcome="with_help", help=help_given,
    )  # fmt: skip


def test_who_was_last_helped_with_both_hands_counts_as_held() -> None:
    both = held_free(jumpers(ON_HER_OWN, ON_HER_OWN, trials=(seen("full_physical"),)))
    shown = held_free(jumpers(ON_HER_OWN, ON_HER_OWN, trials=(seen("model"),)))
    assert both["in_place"] == 3
    assert shown["in_place"] == 0


def test_a_game_that_was_not_played_for_this_is_named() -> None:
    caseload = jumpers(HELD, HELD, HELD)
    plan = plan_session(caseload, group="tuesday", on=TODAY, adults=1)
    [bound] = [one for one in plan.binding if one.rule == "held"]
    assert bound.children == ("c1", "c2", "c3")
    assert "stamp_letters" in bound.activities


def test_a_child_who_is_let_go_has_a_notice() -> None:
    """Her last help was both hands, and an adult is there for each."""
    caseload = jumpers(ON_HER_OWN, trials=(seen("full_physical"),))
    plan = planned(caseload, adults=2)
    told = {
        (one.values["child"], one.values["activity"])
        for one in plan.notices
        if one.code == "lets_go"
    }
    is_let_go = steps_of(plan)[0] != "held"
    assert (("c1", "stamp_letters") in told) is is_let_go
