"""A draft note says what is on file, rests on it, and names no other child."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, Stop
from tapeline.caseload.notes import NoteSentence, SessionNote
from tapeline.caseload.people import ChildPrecaution
from tapeline.sessions.note import as_written, draft_note, made_from, without_other_names
from tapeline.sessions.note_results import level_names_of, results_in_words
from tests.builders import TODAY
from tests.unit.sessions.written_world import BOUNCED, HELD, a_written_world, tries


def note_of(child: str, caseload: Caseload | None = None) -> list[str]:
    world = caseload or a_written_world()
    return [one.text for one in draft_note(world, world.sessions[0], world.child(child))]


def ids_on_file(world: Caseload) -> set[str]:
    """Everything a sentence may rest on in this caseload."""
    found = {f"session:{one.id}" for one in world.sessions}
    found |= {f"plan:{one.id}" for one in world.sessions if one.plan}
    found |= {f"group:{one.id}" for one in world.groups}
    found |= {f"trial:{one.id}" for one in world.trials}
    found |= {f"answer:{one.id}" for one in world.family_answers}
    found |= {f"stop:{one.id}" for one in world.stops}
    found |= {f"late:{one.id}" for one in world.late_or_early}
    found |= {f"version:{one.version}" for one in world.trials}
    found |= {f"goal:{one.id}/{goal.id}" for one in world.children for goal in one.goals}
    found |= {
        f"precaution:{one.id}/{held.kind}" for one in world.children for held in one.precautions
    }
    for blank in world.blanks:
        whole = f"blank:{blank.session}/{blank.child}"
        found |= {whole, f"{whole}/{blank.activity or ''}"}
    return found


def test_every_sentence_rests_on_something_that_is_on_file() -> None:
    world = a_written_world()
    known = ids_on_file(world)
    for child in world.children:
        for sentence in draft_note(world, world.sessions[0], child):
            assert sentence.rests_on, sentence.text
            unknown = set(sentence.rests_on) - known - {"ability:catch2"}
            assert not unknown, sentence.text


def test_attendance_delivery_group_and_minutes_come_first() -> None:
    assert note_of("c1")[:4] == [
        "Amara took part in Tuesday group on Tuesday 10 March 2026.",
        "In person, in School hall.",
        "Group of 4 children, 1 of them absent.",
        "45 minutes planned, 40 delivered (14:10 to 14:50).",
    ]


def test_tries_are_told_as_n_of_all_tries_with_the_help_given() -> None:
    results = next(text for text in note_of("c1") if "step 4 of 7" in text)
    assert results.endswith("alone 3 of 6, with help (word) 2 of 6, not yet 1 of 6 (help: model).")


def test_a_corrected_row_gives_way_in_the_note() -> None:
    world = a_written_world()
    world = replace(world, trials=(*world.trials, tries(5, "c1", "alone", corrects="t3")))
    results = next(text for text in note_of("c1", world) if "step 4 of 7" in text)
    assert results.endswith("alone 4 of 6, with help (word) 2 of 6.")


def test_the_goal_worked_on_and_the_next_step_are_told() -> None:
    said = note_of("c1")
    assert "Goal: Catch a bounced ball (4 of 5 tries, on their own)." in said
    assert any(text.startswith("Next for Catch a bounced ball: ") for text in said)


def test_what_was_changed_for_this_child_is_told_without_a_name() -> None:
    own = next(text for text in note_of("c1") if text.startswith("Own version for Amara"))
    assert "others in the same game" in own


def test_a_refused_game_is_a_blank_and_no_zero() -> None:
    assert "Refused: Along the quay." in note_of("c1")
    assert not any(re.search(r"\b0 of\b", text) for text in note_of("c1"))


def test_a_child_who_came_late_has_fewer_minutes() -> None:
    said = note_of("c2")
    assert "Bruno came at 14:20." in said
    assert "45 minutes planned, 30 delivered (14:10 to 14:50)." in said


def test_a_child_who_was_absent_has_no_game_and_no_minutes_delivered() -> None:
    assert (
        note_of("c3")
        == [
            "Cleo was absent from Tuesday group on Tuesday 10 March 2026.",
            "45 minutes planned.",
            "Stopped at 14:31, the whole group: another child bumped into another child. "
            "Done: Looked at both, sat down.",
        ][:2]
    )


def test_a_recording_and_the_familys_answer_are_told() -> None:
    said = note_of("c4")
    assert "By recording, at home in the family's own time." in said
    assert "The family did it on 2 days and found it about right." in said


def test_a_child_of_whom_nothing_is_recorded_is_not_said_to_have_taken_part() -> None:
    world = replace(a_written_world(), trials=(), blanks=(), late_or_early=(), stops=())
    assert not any("took part" in text or "delivered" in text for text in note_of("c1", world))


def test_a_stop_of_the_whole_group_names_no_other_child() -> None:
    stop = next(text for text in note_of("c1") if text.startswith("Stopped"))
    assert stop == (
        "Stopped at 14:31, the whole group: another child bumped into Amara. "
        "Done: Looked at both, sat down."
    )


@pytest.mark.parametrize("child", ["c1", "c2", "c3", "c4"])
def test_no_other_child_is_named_anywhere(child: str) -> None:
    world = a_written_world()
    others = [one.name for one in world.children if one.id != child]
    text = " ".join(note_of(child))
    assert not any(re.search(rf"\b{name}\b", text) for name in others)


def test_a_name_inside_a_longer_word_stays() -> None:
    world = a_written_world()
    world = replace(world, children=(world.children[0], replace(world.children[1], name="Al")))
    assert without_other_names("Al and all", world.children[0], world) == "another child and all"


def test_precautions_on_file_that_day_are_told_and_later_ones_are_not() -> None:
    world = a_written_world()
    child = replace(
        world.children[0],
        precautions=(
            ChildPrecaution(kind="latex", since=TODAY),
            ChildPrecaution(kind="falls_often", since=TODAY.replace(year=2027)),
        ),
    )
    said = note_of("c1", replace(world, children=(child, *world.children[1:])))
    assert [text for text in said if text.startswith("Precautions")] == [
        "Precautions on file: latex: keep it out of the room."
    ]


def test_a_cancelled_session_has_one_sentence_with_reason_and_side() -> None:
    off = Session(
        id=HELD, group="tuesday", date=TODAY, status="cancelled", side="building", reason="Flood."
    )
    world = replace(a_written_world(), sessions=(off,))
    assert note_of("c1", world) == [
        "The session of Tuesday group on Tuesday 10 March 2026 was cancelled: "
        "Flood (the site's side)."
    ]


def test_the_fingerprint_of_a_draft_changes_with_the_record() -> None:
    world = a_written_world()
    more = replace(world, stops=(*world.stops, Stop(id="x2", session=HELD, happened="Slipped")))
    first, second = (draft_note(one, one.sessions[0], one.children[0]) for one in (world, more))
    assert made_from(first) != made_from(second)
    assert made_from(first) == made_from(draft_note(world, world.sessions[0], world.children[0]))


def test_a_line_she_left_keeps_what_it_rests_on_and_her_own_has_nothing() -> None:
    draft = (NoteSentence(text="It was played.", rests_on=("trial:t1",)),)
    written = as_written("It was   played.\n\nShe smiled.\n", draft)
    assert written == (*draft, NoteSentence(text="She smiled."))


def test_a_line_of_an_earlier_draft_keeps_what_it_rested_on() -> None:
    old = NoteSentence(text="Old.", rests_on=("trial:t9",))
    before = SessionNote(id="n", session=HELD, child="c1", sentences=(old,))
    assert as_written("Old.", (), before) == (old,)


def test_results_name_levels_of_every_list_she_ever_used() -> None:
    world = a_written_world()
    rows = (tries(1, "c1", "with_help", help="hummed"),)
    assert results_in_words(rows, level_names_of(world)) == "with help (hummed) 1 of 1"


def test_why_the_plan_chose_a_version_is_told_for_an_own_goal() -> None:
    world = a_written_world()
    row = {
        "id": "c1",
        "place": "room",
        "version": BOUNCED,
        "amount": 6,
        "unit": "tries",
        "new": True,
        "reason": {"code": "one_new_step", "values": {"goal": "g1", "chance_in_ten": 7}},
    }
    plan = {
        "request": {"adults": 2},
        "parts": [{"part": "practice", "activity": "loaf_catch", "children": [row]}],
    }
    world = replace(world, sessions=(replace(world.sessions[0], plan=plan),))
    said = draft_note(world, world.sessions[0], world.children[0])
    why = next(one for one in said if one.text.startswith("Why this version: "))
    assert "The one new thing today" in why.text
    assert why.rests_on == ("plan:s1",)
    assert any("2 adults planned in the room" in one.text for one in said)


def test_a_child_the_plan_was_told_is_away_was_absent_unless_it_came() -> None:
    world = replace(a_written_world(), blanks=())
    plan = {"request": {"wishes": {"away": ["c3", "c1"]}}, "parts": []}
    world = replace(world, sessions=(replace(world.sessions[0], plan=plan),))
    absent = draft_note(world, world.sessions[0], world.child("c3"))[0]
    assert absent.text.startswith("Cleo was absent")
    assert absent.rests_on == ("session:s1", "plan:s1")
    assert note_of("c1", world)[0].startswith("Amara took part")
