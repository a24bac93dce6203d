"""The library's check: each fault is found when it is planted, and the shipped one has none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.activities.check import check_activity, check_library
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.models import Need
from tapeline.activities.trade_limits import TradeLimit
from tests.unit.activities.small_library import (
    a_book,
    a_library,
    a_material,
    a_rule,
    a_version,
)


def faults_of(*versions, library=None, book=None) -> str:
    """All faults of a small library, joined."""
    return "\n".join(check_library(library or a_library(*versions), book or a_book()))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"things": (Need(any_of=("moon_rock",)),)}, "moon_rock, which is no material"),
        ({"touches": ("levitate",)}, "levitate, which is no word"),
        ({"whole_turns": 1}, "touches neither turn nor roll"),
        ({"whole_turns": 1, "least": 5}, "more turns than the cap of 3"),
        (
            {"do": "Toss the sock into the box and then walk over there and fetch it all again."},
            "has 16 words",
        ),
        ({"do": "Toss the sock into the box"}, "no full stop"),
        ({"steps": ("Stand on the long grey tape with both feet.", "Go.", "Go.")}, "more than 8"),
        ({"captions": ("stand.", "swing", "let go")}, "ends in a stop"),
        ({"too_easy": "Move the box closer."}, "the same for too hard and too easy"),
        (
            {
                "do": "Propel the flexible cylindrical apparatus horizontally immediately.",
                "watch": ("Considerable deterioration of unilateral coordination.",),
            },
            "is not plain",
        ),
    ],
)
def test_a_fault_of_a_version_is_named(changes, said):
    found = faults_of(a_version(**changes))
    assert said in found
    assert said not in faults_of(a_version())


def test_a_version_that_its_own_hazards_forbid_is_named():
    forbidden = a_rule(id="ever.throw", precaution=None, youngest_under_months=216)
    found = faults_of(a_version(), book=a_book(forbidden))
    assert "into_the_box.near.usual is blocked by ever.throw" in found


def test_a_step_without_a_version_is_named():
    assert "Step toss.far has no version, so no child" in faults_of(a_version())
    both = (a_version(), a_version(id="into_the_box.far.usual", step="toss.far"))
    assert "has no version, so no child" not in faults_of(*both)


def test_a_step_wants_two_activities():
    library = a_library()
    said = "Step toss.near has only the activity into_the_box; give it a second one."
    assert said in faults_of(library=library)
    again = a_version(id="other.near.usual", activity="other")
    other = replace(library.activities["into_the_box"], id="other", versions=(again,))
    both = replace(library, activities={**library.activities, "other": other})
    assert said not in faults_of(library=both)


@pytest.mark.parametrize(
    ("place", "changes", "said"),
    [
        (0, {"changes": "distance"}, "is the first one"),
        (1, {"changes": None}, "changes None"),
        (1, {"changes": "distance and target"}, "name one word of grading.yaml"),
        (1, {"difficulty": 0.0}, "is not harder than"),
        (1, {"id": "throw.far"}, "must begin with toss and a dot"),
    ],
)
def test_a_progression_that_cannot_be_climbed_is_named(place, changes, said):
    library = a_library()
    skill = library.skills["toss"]
    steps = list(skill.steps)
    steps[place] = replace(steps[place], **changes)
    broken = replace(library, skills={"toss": replace(skill, steps=tuple(steps))})
    assert said in faults_of(library=broken)


@pytest.mark.parametrize("name", ["so_that", "success", "errors", "watch", "source"])
def test_a_skill_says_what_it_is_for_and_what_to_look_at(name):
    library = a_library()
    full = replace(library.skills["toss"], success=("It lands in.",), watch=("The arm tires.",))
    said = f"Skill toss says nothing under {name}."
    assert said not in faults_of(library=replace(library, skills={"toss": full}))
    empty = replace(full, **{name: type(getattr(full, name))()})
    assert said in faults_of(library=replace(library, skills={"toss": empty}))


def test_an_icf_code_that_the_standard_lacks_is_named():
    library = a_library()
    skill = replace(library.skills["toss"], icf="d9999")
    assert "ICF code d9999" in faults_of(library=replace(library, skills={"toss": skill}))


@pytest.mark.parametrize(
    ("thing", "said"),
    [
        (a_material("sock_ball", touches=("levitate",)), "levitate, which is no word"),
        (a_material("sock_ball", substitutes=("moon_rock",)), "the substitute moon_rock"),
        (
            a_material("sock_ball", functions=("catch",), substitutes=("paper_ball",)),
            "is not for the same",
        ),
        (a_material("sock_ball", functions=("landing",)), "is called a landing"),
        (a_material("sock_ball", name_es=""), "a name in English and in Spanish"),
        (a_material("sock_ball", functions=(), substitutes=("paper_ball",)), "serves for nothing"),
    ],
)
def test_a_fault_of_a_thing_is_named(thing, said):
    library = a_library(materials=(thing, a_material("paper_ball")))
    assert said in faults_of(library=library)


def test_a_rule_with_an_unknown_word_or_precaution_is_named():
    found = faults_of(book=a_book(a_rule(touches="levitate"), a_rule(precaution="wing")))
    assert "levitate, which is no word" in found
    assert "the precaution wing, which is not there" in found


def test_a_rule_by_age_without_spanish_is_named():
    by_age = a_rule(id="under_36.throw", precaution=None, youngest_under_months=36)
    said = "Rule under_36.throw is read by families and has no Spanish."
    assert said in faults_of(book=a_book(by_age))
    in_both = replace(by_age, sentence_es="Hay alguien de menos de tres años.")
    assert said not in faults_of(book=a_book(in_both))


def test_spanish_that_is_not_there_is_named():
    assert "into_the_box.near.usual has no Spanish." in faults_of()
    assert "Skill toss has no Spanish." in faults_of()


def test_spanish_of_her_own_activity_is_not_expected():
    library = a_library()
    her_own = check_library(library, a_book(), own={"into_the_box"})
    assert "into_the_box.near.usual has no Spanish." not in her_own
    changed = replace(library.activities["into_the_box"], own_words=("near.usual",))
    mine = replace(library, activities={"into_the_box": changed})
    assert "into_the_box.near.usual has no Spanish." not in faults_of(library=mine)


def test_one_activity_is_checked_alone():
    library = a_library(a_version(touches=("levitate",), too_easy=""))
    found = check_activity(library.activities["into_the_box"], library, a_book())
    assert found == (
        "into_the_box.near.usual touches levitate, which is no word of touches.yaml.",
        "into_the_box.near.usual says nothing under too_easy.",
    )
    sound = a_library()
    assert check_activity(sound.activities["into_the_box"], sound, a_book()) == ()


def test_a_step_outside_the_progression_is_named():
    library = a_library(a_version(step="hop.one"))
    found = check_activity(library.activities["into_the_box"], library, a_book())
    assert (
        "into_the_box.near.usual names the step hop.one, which is not in its progression." in found
    )


def test_an_empty_cell_without_a_reason_is_a_fault():
    found = faults_of(a_version(noise="loud"))
    assert "Skill toss has no version that is quiet at home." in found
    assert "Step toss.near has no version that is quiet at home." not in found, "said once"
    assert "Step toss.far has no version from a chair" not in found
    assert "Skill toss has no version for a poor home with 1 m by 1 m at home." in found


def test_a_reason_for_a_cell_that_is_filled_is_a_fault(monkeypatch):
    needless = TradeLimit(skill="toss", cell="that is quiet", reason="Nobody can.")
    monkeypatch.setattr("tapeline.activities.check.trade_limits", lambda: (needless,))
    assert "toss has a version that is quiet after all; take its limit off the list." in faults_of()


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"too_hard": ""}, "says nothing under too_hard"),
        ({"do": 'Say "go.'}, "without its other half"),
        ({"do": "Play Ballo® now."}, "sign of a trade name"),
    ],
)
def test_what_no_text_may_hold_is_named(changes, said):
    assert said in faults_of(a_version(**changes))
    assert said not in faults_of(a_version())


def test_the_shipped_library_has_no_fault():
    faults = "\n".join(check_library(load_library(), load_rule_book()))
    assert faults == ""
