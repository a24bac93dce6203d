"""The library's files become values, and every fault is kept with its place."""

from __future__ import annotations

import copy

import pytest

from tapeline.activities.build import build_activity, build_skill
from tapeline.activities.library_files import LibraryFile, content_of, short_hash
from tapeline.activities.loader import (
    load_library,
    load_materials,
    load_rule_book,
    plain_facts,
    touch_names,
)
from tapeline.activities.records import Faults
from tapeline.errors import InputError, ManyFaults

ACTIVITY = {
    "id": "own_toss",
    "name": "Our own toss",
    "skill": "toss_under",
    "uses": ["practice"],
    "lead": "Toss one each.",
    "lanes": 0,
    "all": {
        "unit": "tries",
        "seconds_per_unit": [6, 4],
        "least": 5,
        "most": 20,
        "try_size": 1,
        "setup_s": 30,
        "length_cm": 150,
        "width_cm": 100,
        "clear_cm": 50,
        "things": [{"any_of": ["sock_ball"]}],
        "position": "standing",
        "arousal": "organising",
        "adult_need": "within_sight",
        "hands": 0,
        "noise": "quiet",
        "touches": ["throw"],
        "whole_turns": 0,
        "gets_about": ["on_foot"],
        "where": ["home"],
        "adult": {"stand": "Stand beside the child.", "stop": "Stop when it gets wild."},
        "watch": ["The arm tires."],
        "cues": ["Swing and let go."],
        "captions": ["stand", "swing", "let go"],
    },
    "versions": [
        {
            "step": "toss_under.drop",
            "do": "Drop the sock.",
            "steps": ["Stand.", "Hold it up.", "Let go."],
            "too_hard": "Hold it lower.",
            "too_easy": "Move the box.",
        }
    ],
}


def own_activity(**changes):
    """An own activity; `all_` and `version` change what stands under those."""
    activity = copy.deepcopy(ACTIVITY)
    activity["all"].update(changes.pop("all_", {}))
    activity["versions"][0].update(changes.pop("version", {}))
    activity.update(changes)
    return activity


def faults_of(*activities) -> list[str]:
    """The messages that refuse these own activities."""
    with pytest.raises(ManyFaults) as caught:
        load_library(activities)
    return [str(fault) for fault in caught.value.faults]


def test_a_version_gets_what_stands_under_all_and_an_id_of_its_own():
    version = load_library([own_activity()]).find_version("own_toss.drop.usual")
    assert (version.unit, version.length_cm, version.touches) == ("tries", 150, ("throw",))
    assert (version.activity, version.step, version.variant) == (
        "own_toss",
        "toss_under.drop",
        "usual",
    )


def test_the_adults_lines_are_merged_by_name_and_all_else_is_replaced():
    changed = own_activity(version={"adult": {"stand": "Kneel behind."}, "cues": ["Drop it."]})
    version = load_library([changed]).find_version("own_toss.drop.usual")
    assert version.adult.sentences() == ("Kneel behind.", "Stop when it gets wild.")
    assert version.cues == ("Drop it.",)


def test_a_step_stands_1_2_logits_after_the_one_before_and_the_first_at_0():
    skill = build_skill(
        {
            "id": "toss",
            "name": "Toss",
            "family": "trunk",
            "so_that": "play",
            "icf": "d4454",
            "source": "common practice, no source",
            "steps": [
                {"id": "toss.a", "text": "A.", "criterion": "A."},
                {"id": "toss.b", "text": "B.", "criterion": "B.", "changes": "distance"},
                {
                    "id": "toss.c",
                    "text": "C.",
                    "criterion": "C.",
                    "changes": "help",
                    "difficulty": 3,
                },
                {"id": "toss.d", "text": "D.", "criterion": "D.", "changes": "target"},
            ],
        },
        "here",
        Faults(),
    )
    assert skill is not None
    assert [step.difficulty for step in skill.steps] == [0, 1.2, 3, 4.2]


def test_a_part_without_a_skill_has_any_as_the_tail_of_its_step():
    activity = own_activity(skill=None, version={"step": None})
    library = load_library([activity])
    assert library.find_version("own_toss.any.usual").step is None
    assert library.skill_of("own_toss") is None


@pytest.mark.parametrize(
    ("activity", "said"),
    [
        (own_activity(skill="juggling"), "the skill juggling"),
        (own_activity(version={"step": "toss_under.moon"}), "the step toss_under.moon"),
        (own_activity(all_={"things": [{"any_of": ["moon_rock"]}]}), "moon_rock"),
        (own_activity(all_={"seconds_per_unit": [-1, 4]}), "seconds_per_unit"),
        (own_activity(version={"do": "<b>Drop</b> it."}), "holds a < or >"),
        (own_activity(version={"steps": ["One."]}), "exactly three"),
        (own_activity(all_={"captions": ["a b c d e f", "b", "c"]}), "five words"),
        (own_activity(all_={"colour": "red"}), "'colour'"),
        (own_activity(versions=[]), "it has no version"),
        (own_activity(version={"id": "mine"}), "is made from its activity"),
        (own_activity(id="own.toss"), "cannot be an id"),
        (own_activity(uses=["pudding"]), "'pudding'"),
        (own_activity(all_={"hands": "both"}), "'both'"),
    ],
)
def test_what_cannot_be_used_is_named_in_one_sentence(activity, said):
    assert any(said in fault for fault in faults_of(activity))


def test_all_faults_come_at_once_and_nothing_is_added():
    before = load_library()
    faults = faults_of(
        own_activity(all_={"hands": 7}), own_activity(id="second", all_={"least": 0})
    )
    assert len(faults) == 2
    assert "own activity 1" in faults[0]
    assert "own activity 2" in faults[1]
    assert load_library() is before


def test_an_own_activity_with_a_shipped_id_takes_its_place_and_changes_the_version():
    shipped = load_library()
    name = next(key for key, found in shipped.activities.items() if found.skill == "toss_under")
    changed = load_library([own_activity(id=name)])
    assert changed.activities[name].name == "Our own toss"
    assert len(changed.activities) == len(shipped.activities)
    assert changed.version != shipped.version
    assert changed.version == load_library([own_activity(id=name)]).version


def test_the_same_activity_twice_is_refused():
    assert any("stands already" in fault for fault in faults_of(own_activity(), own_activity()))


def test_a_word_like_no_stays_a_word_and_a_key_may_stand_once():
    said = content_of(LibraryFile(path="x.yaml", text="cues: [no, yes, on]\neach: true\n"))
    assert said == {"cues": ["no", "yes", "on"], "each": True}
    with pytest.raises(InputError, match=r"x\.yaml, line 1"):
        content_of(LibraryFile(path="x.yaml", text="a: 1\nb: 2\na: 3\n"))


def test_a_file_that_is_no_yaml_is_named_with_its_line():
    with pytest.raises(InputError, match=r"x\.yaml, line 2"):
        content_of(LibraryFile(path="x.yaml", text="a: 1\nb: ]1\n"))


def test_line_ends_of_another_computer_do_not_change_the_hash():
    assert short_hash("a\r\nb") == short_hash("a\nb")
    assert short_hash("a", "b") != short_hash("ab")


def test_a_skill_or_a_version_that_is_no_block_is_a_fault_and_no_crash():
    faults = Faults()
    assert build_activity(["not", "a", "block"], "here", faults, skill=None) is None
    assert build_skill("nothing", "here", faults) is None
    assert len(faults.found) > 2


def test_the_shipped_library_has_enough_for_two_groups():
    library = load_library()
    uses = [use for activity in library.activities.values() for use in activity.uses]
    least = {"arrival": 4, "warm_up": 6, "cool_down": 4, "closing": 5, "course": 12}
    assert {use: uses.count(use) >= count for use, count in least.items()} == dict.fromkeys(
        least, True
    )
    assert len(library.skills) >= 14
    assert len(library.activities) >= 60


def test_versions_can_be_found_by_their_id():
    library = load_library()
    for activity in library.activities.values():
        for version in activity.versions:
            assert library.find_version(version.id) is version
    with pytest.raises(InputError, match="no version"):
        library.find_version("nothing.here.usual")


def test_the_rule_book_has_its_words_precautions_and_numbers():
    book = load_rule_book()
    assert (book.turn_cap, book.floor_of_trials) == (3, 5)
    assert book.date == "2026-11-25"
    assert {rule.precaution for rule in book.rules if rule.precaution} <= set(book.precautions)
    assert all(rule.source and rule.mark for rule in book.rules)


def test_a_rule_without_a_source_of_its_own_has_that_of_its_precaution():
    book = load_rule_book()
    rule = next(rule for rule in book.rules if rule.id == "shunt.head_down")
    assert rule.source == book.precautions["shunt"].source


def test_every_word_is_said_in_both_languages():
    assert touch_names("en").keys() == touch_names("es").keys()
    assert touch_names("es")["jump"] == "saltar"


def test_each_plain_fact_says_why_and_what_to_do():
    facts = {"left_out", "place", "gets_about", "space", "things", "hands", "noise"}
    assert facts <= set(plain_facts("because"))
    assert all(said[0].islower() and said[-1] != "." for said in plain_facts("because").values())
    assert all(said[0].isupper() and said[-1] == "." for said in plain_facts("next").values())


def test_no_household_thing_is_a_landing():
    household = [thing for thing in load_materials().values() if thing.household]
    assert len(household) > 100
    assert not any("landing" in " ".join(thing.functions) for thing in household)
    soft = ("cushion", "pillow", "mattress", "mat", "blanket_folded")
    assert not any("jump target" in load_materials()[name].functions for name in soft)


def test_a_pillowcase_and_three_socks_can_be_thrown_carried_and_sorted():
    functions = {name for key in ("pillowcase", "sock") for name in load_materials()[key].functions}
    assert {"throw", "catch", "target", "carry", "sort", "container", "heavy work"} <= functions
