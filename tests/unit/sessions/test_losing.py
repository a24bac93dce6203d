"""A skill that falls is held, flagged and asked about; nothing is graded down by itself."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import cache

from tapeline.activities.loader import load_library, load_rule_book
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Trial
from tapeline.caseload.people import Illness, LossAnswer, SuccessBand
from tapeline.planner.given import Given
from tapeline.planner.load import load_words
from tapeline.planner.notice_words import KEPT
from tapeline.planner.plan import Lock, Reason, SessionPlan, Wishes
from tapeline.planner.words import notices_in_words, reason_in_words
from tapeline.sessions.learn import SkillLearned, learned_of, worths_of
from tapeline.sessions.prepare import lay_out_session, names_for, plan_session
from tests.builders import TODAY, a_goal, a_site
from tests.unit.sessions.losing_world import GOOD, SKILL, STEP, losing

CLOSED = LossAnswer(skill=SKILL, date=TODAY, says="closed", reason="spoken with the family")


def learned(caseload: Caseload) -> SkillLearned:
    found = learned_of(caseload, load_library(), caseload.children[0], on=TODAY)
    return next(one for one in found if one.skill.id == SKILL)


@cache
def plan_of(is_held: bool) -> tuple[Given, SessionPlan]:
    caseload = losing(loss_answers=() if is_held else (CLOSED,))
    given, _ = lay_out_session(caseload, group="tuesday", on=TODAY)
    return given, plan_session(caseload, group="tuesday", on=TODAY)


def test_the_step_stays_and_asks():
    found = learned(losing())
    assert found.matter is not None
    assert (found.proposal.code, found.proposal.step) == ("ask_first", STEP)


def test_without_a_fall_nothing_is_held():
    found = learned(losing(*GOOD, 5, 6, 5))
    assert found.matter is None
    assert found.proposal.code != "ask_first"


def test_a_closed_matter_lets_the_step_go_down_again():
    found = learned(losing(loss_answers=(CLOSED,)))
    assert found.matter is None
    assert found.proposal.code == "easier_first"


def test_no_easier_step_is_practised_and_no_harder_one_played_meanwhile():
    caseload = losing()
    worth = worths_of(caseload, load_library(), caseload.children, on=TODAY)["c1"]
    steps = [step.id for step in load_library().skills[SKILL].steps]
    here = steps.index(STEP)
    assert [step for step in steps if worth[step].practice] == [STEP]
    assert all(worth[step].revisit == 0 for step in steps[here + 1 :])


def test_a_plan_says_so_and_adds_no_new_jumping_or_tiring_game():
    given, plan = plan_of(is_held=True)
    names = names_for(given.caseload, given.library, load_rule_book())
    said = " ".join(notices_in_words(plan.notices, names))
    assert "Talk with the family and their doctor soon" in said
    assert given.losing == {"c1": {SKILL: "raised"}}
    for part in plan.parts:
        for row in part.children:
            version = given.library.find_version(row.version)
            assert load_words().isdisjoint(version.touches) or part.activity == "loaf_catch"


def test_where_the_step_cannot_be_played_the_plan_says_that_it_was_not_kept():
    without_balls = replace(losing(), sites=(a_site(),))
    plan = plan_session(without_balls, group="tuesday", on=TODAY)
    codes = {notice.code for notice in plan.notices}
    assert "skill_seen_less_step_not_kept" in codes
    assert "skill_seen_less" not in codes


def test_after_an_illness_the_plan_asks_first():
    ill = Illness(first=TODAY - dt.timedelta(weeks=3), last=TODAY - dt.timedelta(weeks=2))
    plan = plan_session(losing(ill=(ill,)), group="tuesday", on=TODAY)
    given, _ = plan_of(is_held=True)
    names = names_for(given.caseload, given.library, load_rule_book())
    said = " ".join(notices_in_words(plan.notices, names))
    assert "whether the child is well again" in said
    assert "doctor soon" not in said


def test_every_caution_has_its_sentence():
    given, _ = plan_of(is_held=True)
    names = names_for(given.caseload, given.library, load_rule_book())
    for code in KEPT:
        reason = Reason(code=code, values={"child": "c1", "skill": SKILL})
        (said,) = notices_in_words((reason,), names)
        assert said.startswith("Amara: Two-hand catch is seen less than before")
        assert said.endswith(KEPT[code])


def test_a_plan_without_a_fall_says_nothing_of_it():
    given, plan = plan_of(is_held=False)
    assert given.losing == {}
    assert "skill_seen_less" not in {notice.code for notice in plan.notices}


def test_she_decides_a_locked_game_stays():
    wishes = Wishes(locked=(Lock(activity="rain_puddles"),))
    plan = plan_session(losing(), group="tuesday", on=TODAY, wishes=wishes)
    assert plan.part_of("rain_puddles") is not None


def test_the_reason_of_a_held_step_is_said():
    given, plan = plan_of(is_held=True)
    names = names_for(given.caseload, given.library, load_rule_book())
    assert "skill_seen_less" in {notice.code for notice in plan.notices}
    held = [
        row.reason
        for part in plan.parts
        for row in part.children
        if row.reason.values.get("step") == STEP
    ]
    assert held
    assert all("stays until you decide" in reason_in_words(one, names) for one in held)


def test_a_childs_own_band_reaches_the_worths():
    usual = losing(*GOOD)
    gentle = losing(*GOOD, band=SuccessBand(low=80, best=88, high=95), goals=(a_goal(),))
    worths = [
        worths_of(one, load_library(), one.children, on=TODAY)["c1"] for one in (usual, gentle)
    ]
    assert worths[0][STEP].chance_in_ten == worths[1][STEP].chance_in_ten
    assert worths[0][STEP].practice != worths[1][STEP].practice


def test_a_step_due_to_be_looked_at_is_worth_more_where_skills_are_revisited():
    caseload = losing(*GOOD)
    moved = caseload.children[0]
    before = worths_of(caseload, load_library(), [moved], on=TODAY)["c1"][STEP]
    assert "check_due" not in before.seen
    rows = tuple(
        row if row.session != caseload.sessions[-1].id else _at(row, "catch2.chest")
        for row in caseload.trials
    )
    later = replace(caseload, trials=rows)
    due = worths_of(later, load_library(), [moved], on=TODAY + dt.timedelta(weeks=1))["c1"][STEP]
    assert due.seen["check_due"] is True


def _at(row: Trial, step: str) -> Trial:
    return replace(row, step=step)
