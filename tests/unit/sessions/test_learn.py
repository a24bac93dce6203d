"""What was recorded changes what comes next, and nothing else does."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from tapeline.activities.loader import load_library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Blank, PromptLevel, PromptList, Session, Trial
from tapeline.planner.plan import SessionPlan, plan_json
from tapeline.sessions.demo import demo_caseload, next_meeting
from tapeline.sessions.learn import evidence_of, learned_of, worths_of
from tapeline.sessions.prepare import plan_session

TODAY = dt.date(2026, 11, 25)
GROUP = "home"
STEP = "catch2.bounced"


@cache
def caseload() -> Caseload:
    return demo_caseload(TODAY)


def meeting(weeks: int = 0) -> dt.date:
    return next_meeting(caseload().group(GROUP).weekday, TODAY) + dt.timedelta(weeks=weeks)


@cache
def week_one_went(outcome: str) -> Caseload:
    """The next session held, every child's every step of it tried eight times, all alike."""
    before = caseload()
    plan = plan_session(before, group=GROUP, on=meeting())
    library = load_library()
    rows = [
        (child.id, child.version, library.find_version(child.version).step)
        for part in plan.parts
        if library.activities[part.activity].skill
        for child in part.children
    ]
    held = Session(
        id="one",
        group=GROUP,
        date=meeting(),
        status="held",
        activities=tuple(dict.fromkeys(part.activity for part in plan.parts)),
    )
    trials = tuple(
        Trial(
            id=f"one-{number}",
            session="one",
            child=child,
            version=version,
            step=step,
            outcome=outcome,
            count=8,
        )
        for number, (child, version, step) in enumerate(rows)
        if step
    )
    return replace(before.with_session(held), trials=(*before.trials, *trials))


def versions(plan: SessionPlan) -> dict[tuple[str, str], str]:
    """Version by activity and child."""
    return {(part.activity, row.id): row.version for part in plan.parts for row in part.children}


def worths(of: Caseload, on: dt.date) -> dict[str, dict[str, Any]]:
    children = [child for _, child in of.who_comes(of.group(GROUP), on)]
    return worths_of(of, load_library(), children, on=on)


def test_week_two_differs_because_of_week_one():
    """The same session held: all went well, or none did. Only the results differ."""
    well, badly = (
        plan_session(week_one_went(outcome), group=GROUP, on=meeting(1))
        for outcome in ("alone", "not_yet")
    )
    assert versions(well) != versions(badly)


def test_after_a_good_week_one_each_step_tried_is_likelier():
    """No step of week two that was tried in week one has a lower chance than after a bad one."""
    good, bad = (worths(week_one_went(how), meeting(1)) for how in ("alone", "not_yet"))
    tried = {(trial.child, trial.step) for trial in week_one_went("alone").trials[-20:]}
    chances = [(good[child][step], bad[child][step]) for child, step in tried]
    assert all(well.chance_in_ten >= ill.chance_in_ten for well, ill in chances)
    assert any(well.chance_in_ten > ill.chance_in_ten for well, ill in chances)


def test_the_same_record_gives_the_same_plan():
    first, second = (
        plan_json(plan_session(week_one_went("alone"), group=GROUP, on=meeting(1)))
        for _ in range(2)
    )
    assert first == second


def test_order_of_rows_does_not_change_the_worths():
    of = week_one_went("alone")
    turned = replace(of, trials=tuple(reversed(of.trials)))
    assert worths(of, meeting(1)) == worths(turned, meeting(1))


def test_a_sessions_own_tries_do_not_change_its_own_plan():
    assert worths(week_one_went("not_yet"), meeting()) == worths(caseload(), meeting())


def test_blanks_weigh_nothing():
    of = week_one_went("alone")
    blank = Blank(session="one", child=of.trials[-1].child, kind="refused")
    assert worths(replace(of, blanks=(*of.blanks, blank)), meeting(1)) == worths(of, meeting(1))


def test_a_correction_counts_instead_of_its_row():
    of = week_one_went("alone")
    last = of.trials[-1]
    wrong = replace(last, id="wrong", outcome="not_yet")
    right = replace(last, id="right", corrects="wrong")
    corrected = replace(of, trials=(*of.trials[:-1], wrong, right))
    assert [row.practice for row in worths(corrected, meeting(1))[last.child].values()] == [
        row.practice for row in worths(of, meeting(1))[last.child].values()
    ]


def test_the_reason_says_what_was_seen_last():
    of = week_one_went("alone")
    last = of.trials[-1]
    seen = worths(of, meeting(1))[last.child][last.step].seen
    said = {name: value for name, value in seen.items() if name != "check_due"}
    assert said == {
        "seen_k": 8,
        "seen_n": 8,
        "seen_date": meeting().isoformat(),
        "seen_help": None,
    }


def test_a_step_never_seen_has_nothing_to_say():
    of = replace(caseload(), trials=())
    assert all(not row.seen for steps in worths(of, meeting()).values() for row in steps.values())


@pytest.mark.parametrize(
    "fields", [{"step": "catch2.moon"}, {"help": "shout"}, {"outcome": "with_help"}]
)
def test_a_row_that_cannot_be_read_is_set_apart(fields: dict[str, str]):
    of = week_one_went("alone")
    odd = replace(of.trials[-1], id="odd", **fields)
    found = evidence_of(replace(of, trials=(*of.trials, odd)), load_library(), until=meeting(1))
    assert found.left_out == ("odd",)
    assert found.by_child == evidence_of(of, load_library(), until=meeting(1)).by_child


def test_a_correction_that_cannot_be_read_does_not_bring_its_row_back():
    of = week_one_went("alone")
    last = of.trials[-1]
    odd = replace(last, id="odd", help="shout", corrects=last.id)
    found = evidence_of(replace(of, trials=(*of.trials, odd)), load_library(), until=meeting(1))
    assert last.id not in {row.trial.id for row in found.of(last.child)}


def test_a_correction_of_0_leaves_nothing():
    of = week_one_went("alone")
    last = of.trials[-1]
    undone = replace(last, id="undone", count=0, corrects=last.id)
    without = replace(of, trials=of.trials[:-1])
    found = replace(of, trials=(*of.trials, undone))
    assert worths(found, meeting(1)) == worths(without, meeting(1))


def test_levels_of_an_older_list_are_not_pooled_with_the_list_in_use():
    of = caseload()
    hers = PromptList(
        id="hers",
        levels=tuple(PromptLevel(id=name, name=name) for name in ("held", "shown", "alone")),
    )
    found = evidence_of(
        replace(of, prompt_lists=(*of.prompt_lists, hers)), load_library(), until=TODAY
    )
    older = {trial.id for trial in of.trials if trial.help != "alone"}
    assert set(found.left_out) == older


def test_a_childs_page_tells_skills_begun_seen_or_aimed_at():
    of = caseload()
    child = of.child("c1")
    found = learned_of(of, load_library(), child, on=TODAY)
    told = {one.skill.id for one in found}
    assert told >= {start.skill for start in child.skills} | {goal.skill for goal in child.goals}
    for one in found:
        steps = {step.id for step in one.skill.steps}
        assert one.proposal.step in steps
        assert one.proposal.second in steps
        assert set(one.steps) == steps
        assert sum(day.tries for day in one.days) == one.belief.tries
