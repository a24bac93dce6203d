"""What is expected of a child before any trial is on record."""

from __future__ import annotations

import datetime as dt

from tapeline.ability.outlook import outlook, outlook_after
from tapeline.ability.replay import DatedTrial
from tapeline.ability.settings import ability_values
from tapeline.activities.models import Skill, Step
from tapeline.caseload.history import Trial

DAY = dt.date(2026, 9, 7)

SKILL = Skill(
    id="toss",
    name="Toss",
    family="sending_and_receiving",
    so_that="put toys away",
    icf="d4454",
    source="common practice, no source",
    steps=tuple(
        Step(id=f"toss.{tail}", text=tail, criterion="It lands.", difficulty=1.2 * place)
        for place, tail in enumerate(("drop", "near", "far", "small"))
    ),
)
OTHER = Skill(
    id="catch",
    name="Catch",
    family="sending_and_receiving",
    so_that="join a ball game",
    icf="d4455",
    source="common practice, no source",
    steps=tuple(
        Step(id=f"catch.{tail}", text=tail, criterion="It is held.", difficulty=1.2 * place)
        for place, tail in enumerate(("roll", "scarf", "bounce", "toss"))
    ),
)
SKILLS = {"toss": SKILL, "catch": OTHER}


def test_a_starting_step_is_taken_as_managed_about_seven_times_in_ten():
    found = outlook(SKILLS, {"toss": "toss.near"}, age_months=60)
    assert 0.63 < found["toss.near"].chance < 0.72


def test_chances_fall_along_a_progression():
    found = outlook(SKILLS, {"toss": "toss.near"}, age_months=60)
    chances = [found[step.id].chance for step in SKILL.steps]
    assert chances == sorted(chances, reverse=True)


def test_no_step_is_clearly_more_useful_to_practise_than_the_starting_step():
    """Clearly: by what it takes to leave a step; first guesses may be far off either way."""
    found = outlook(SKILLS, {"toss": "toss.near"}, age_months=60)
    best = max(found[step.id].practice for step in SKILL.steps)
    assert (
        best - found["toss.near"].practice
        < 1000 * ability_values()["next_step"]["stay_unless_gain"]
    )


def test_an_easier_step_is_better_to_revisit():
    found = outlook(SKILLS, {"toss": "toss.far"}, age_months=60)
    assert found["toss.near"].revisit > found["toss.far"].revisit


def test_a_step_likelier_than_not_below_four_in_ten_is_no_use_to_practise():
    found = outlook(SKILLS, {"toss": "toss.drop"}, age_months=60)
    assert found["toss.small"].practice == 0


def test_a_skill_without_a_start_is_guessed_from_the_others_one_step_easier():
    ahead = outlook(SKILLS, {"toss": "toss.small"}, age_months=60)
    behind = outlook(SKILLS, {"toss": "toss.drop"}, age_months=60)
    assert ahead["catch.scarf"].chance > behind["catch.scarf"].chance


def test_without_any_start_an_older_child_is_expected_to_do_more():
    older = outlook(SKILLS, {}, age_months=96)
    younger = outlook(SKILLS, {}, age_months=36)
    assert older["catch.scarf"].chance > younger["catch.scarf"].chance


def a_success(number: int, *, step: str, count: int, outcome: str = "alone") -> DatedTrial:
    trial = Trial(
        id=f"t{number}",
        session="s",
        child="c1",
        version="",
        step=step,
        outcome=outcome,
        count=count,
    )
    return DatedTrial(date=DAY + dt.timedelta(weeks=number), trial=trial)


STARTS = {"toss": "toss.near"}


def test_without_tries_the_outlook_is_the_first_guess():
    after = outlook_after(SKILLS, STARTS, (), age_months=60, on=DAY)
    assert after == outlook(SKILLS, STARTS, age_months=60)


def test_tries_move_their_own_skill_only():
    rows = [a_success(number, step="toss.near", count=8) for number in range(3)]
    before = outlook(SKILLS, STARTS, age_months=60)
    after = outlook_after(SKILLS, STARTS, rows, age_months=60, on=DAY + dt.timedelta(weeks=3))
    assert after["toss.near"].chance > before["toss.near"].chance
    assert after["catch.scarf"] == before["catch.scarf"]


def test_after_many_successes_a_harder_step_is_more_useful():
    rows = [a_success(number, step="toss.near", count=8) for number in range(4)]
    after = outlook_after(SKILLS, STARTS, rows, age_months=60, on=DAY + dt.timedelta(weeks=4))
    best = max(SKILL.steps, key=lambda step: after[step.id].practice)
    assert SKILL.index_of(best.id) > SKILL.index_of("toss.near")


def test_after_failures_an_easier_step_is_more_useful():
    rows = [a_success(0, step="toss.near", count=5, outcome="not_yet")]
    after = outlook_after(SKILLS, STARTS, rows, age_months=60, on=DAY)
    assert after["toss.near"].practice < after["toss.drop"].practice


def test_tries_narrow_the_interval():
    rows = [a_success(number, step="toss.near", count=5) for number in range(3)]
    rows += [a_success(number, step="toss.near", count=3, outcome="not_yet") for number in range(3)]
    before = outlook(SKILLS, STARTS, age_months=60)["toss.near"]
    after = outlook_after(SKILLS, STARTS, rows, age_months=60, on=DAY + dt.timedelta(weeks=3))
    found = after["toss.near"]
    assert found.high - found.low < before.high - before.low
    assert (before.tries, found.tries) == (0, 24)
    assert not before.is_known()
