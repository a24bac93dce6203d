"""A sheet of results becomes trials and blanks, once, and says what cannot be right."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import (
    Blank,
    LateOrEarly,
    PromptLevel,
    PromptList,
    Session,
    Trial,
    standing_trials,
)
from tapeline.errors import InputError, ManyFaults
from tapeline.sessions.recording.correct import correction_of, corrections_for
from tapeline.sessions.recording.differ import differences_between
from tapeline.sessions.recording.record import Taken, take_in
from tapeline.sessions.recording.sheet import Counted, ResultSheet, parse_sheet, sheet_key
from tests.builders import TODAY, a_caseload, a_child, a_group

LOAF, WASH = "loaf_catch", "wash_catch"
PLAN = {
    "parts": [
        {
            "activity": LOAF,
            "children": [
                {"id": "c1", "version": "loaf_catch.hugged.usual"},
                {"id": "c2", "version": "loaf_catch.bounced.usual"},
            ],
        },
        {"activity": "arrive_spot", "children": [{"id": "c1", "version": "arrive_spot.any.usual"}]},
    ]
}


def a_held(**fields: Any) -> Session:
    return Session(**{"id": "s1", "group": "tuesday", "date": TODAY, "plan": PLAN, **fields})


def world(**fields: Any) -> Caseload:
    return a_caseload(
        children=(a_child(), a_child(id="c2", name="Bo", mark="moon"), a_child(id="c9", name="Cy")),
        groups=(a_group("c1", "c2"), a_group("c9", id="other", name="Other group")),
        **{"sessions": (a_held(),), **fields},
    )


def a_sheet(*rows: Counted, **fields: Any) -> ResultSheet:
    return ResultSheet(
        **{
            "sheet": "3cfa-d65d-3f2a",
            "group": "tuesday",
            "date": TODAY,
            "by": "R. Quay",
            "began": "14:12",
            "ended": "14:50",
            "rows": rows,
            **fields,
        }
    )


def four_alone(**fields: Any) -> Counted:
    return Counted(**{"child": "c1", "activity": LOAF, "alone": 4, **fields})


def take(caseload: Caseload, sheet: ResultSheet, **fields: Any) -> Taken:
    return take_in(caseload, sheet, **{"group": "tuesday", "on": TODAY, "today": TODAY, **fields})


def test_counts_become_trials_at_the_step_of_the_planned_version() -> None:
    taken = take(world(), a_sheet(four_alone(with_help={"word": 2}, not_yet=1)))
    assert {(one.step, one.outcome, one.help, one.count) for one in taken.trials} == {
        ("catch2.hugged", "alone", "alone", 4),
        ("catch2.hugged", "with_help", "word", 2),
        ("catch2.hugged", "not_yet", "word", 1),
    }
    assert {one.source for one in taken.trials} == {"tally"}


def test_not_yet_without_one_level_written_says_only_not_alone() -> None:
    two_levels = four_alone(with_help={"word": 1, "model": 1}, not_yet=2)
    for row in (four_alone(not_yet=2), two_levels):
        (row,) = (one for one in take(world(), a_sheet(row)).trials if one.outcome == "not_yet")
        assert row.help == "alone"


def test_what_is_left_of_the_tries_was_not_yet() -> None:
    taken = take(world(), a_sheet(four_alone(tries=7)))
    assert sum(one.count for one in taken.trials if one.outcome == "not_yet") == 3


def test_real_start_and_end_mark_the_session_held() -> None:
    session = take(world(), a_sheet(four_alone())).session
    assert (session.status, session.began, session.ended) == ("held", "14:12", "14:50")


def test_the_same_sheet_twice_counts_once() -> None:
    once = take(world(), a_sheet(four_alone(), Counted(child="c2", blank="absent")))
    twice = take(once.caseload, a_sheet(four_alone(), Counted(child="c2", blank="absent")))
    assert twice.caseload == once.caseload
    assert twice.already == 2
    assert (twice.trials, twice.blanks, twice.sheets) == ((), (), ())


def test_a_sheet_typed_in_two_goes_adds_what_is_new() -> None:
    once = take(world(), a_sheet(four_alone()))
    more = take(once.caseload, a_sheet(four_alone(), Counted(child="c2", activity=LOAF, alone=2)))
    assert [(one.child, one.count) for one in more.trials] == [("c2", 2)]


def test_the_same_sheet_with_other_numbers_is_refused() -> None:
    once = take(world(), a_sheet(four_alone()))
    with pytest.raises(ManyFaults, match="taken in already, with other numbers"):
        take(once.caseload, a_sheet(four_alone(alone=5)))


def test_two_people_both_count_and_their_difference_is_named() -> None:
    one = take(world(), a_sheet(four_alone(), Counted(child="c2", activity=LOAF, alone=2)))
    two = take(
        one.caseload,
        a_sheet(four_alone(alone=3), Counted(child="c2", activity=LOAF, alone=2), by="M. Pier"),
    )
    assert sum(trial.count for trial in two.caseload.trials if trial.child == "c1") == 7
    (found,) = differences_between(two.caseload, "s1")
    assert (found.child, found.activity) == ("c1", LOAF)
    assert {(said.by, said.counts) for said in found.counted} == {
        ("R. Quay", (4, 0, 0)),
        ("M. Pier", (3, 0, 0)),
    }


def test_a_corrected_sheet_no_longer_differs() -> None:
    one = take(world(), a_sheet(four_alone()))
    two = take(one.caseload, a_sheet(four_alone(alone=3), by="M. Pier")).caseload
    row = correction_of(two, one.trials[0].id, new_id="k1", count=3)
    assert differences_between(replace(two, trials=(*two.trials, row)), "s1") == ()


def test_a_blank_is_a_blank_and_never_0() -> None:
    taken = take(world(), a_sheet(Counted(child="c1", activity=LOAF, blank="refused")))
    assert taken.trials == ()
    assert taken.blanks == (Blank(session="s1", child="c1", kind="refused", activity=LOAF),)


def test_tries_may_go_before_a_refusal() -> None:
    taken = take(world(), a_sheet(four_alone(blank="refused")))
    assert len(taken.trials) == len(taken.blanks) == 1


def test_who_came_late_is_kept_with_the_session() -> None:
    late = LateOrEarly(id="l1", session="", child="c1", kind="late", at="14:20")
    taken = take(world(), a_sheet(four_alone(), late_or_early=(late,)))
    assert taken.caseload.late_or_early == (replace(late, session="s1"),)


ABSENT = Counted(child="c1", blank="absent")
REFUSED = {
    "more that went well than tries": (
        a_sheet(four_alone(with_help={"word": 2}, tries=5)),
        "Amara has 6 that went well out of 5 tries at loaf_catch",
    ),
    "tries that do not add up": (
        a_sheet(four_alone(not_yet=1, tries=6)),
        "Amara has 5 tries counted and 6 in all",
    ),
    "less than nothing": (a_sheet(four_alone(alone=-1)), "Amara has -1 tries"),
    "a slip of the finger": (a_sheet(four_alone(alone=4444)), "4444 tries at loaf_catch in one"),
    "absent, and tries": (
        a_sheet(ABSENT, four_alone()),
        "Amara has 4 tries at loaf_catch, and was absent",
    ),
    "not offered, and tries": (a_sheet(four_alone(blank="not_offered")), "was not offered it"),
    "an empty row": (a_sheet(four_alone(alone=0)), "neither tries nor a blank"),
    "a level that is not in the list": (
        a_sheet(four_alone(with_help={"shout": 1})),
        "Amara had the help 'shout', which is not in your list",
    ),
    "help that is none": (a_sheet(four_alone(with_help={"alone": 1})), "were without help"),
    "a child of another group": (a_sheet(four_alone(child="c9")), "Cy was not in the group"),
    "nobody": (a_sheet(four_alone(child="c77")), "c77 was not in the group"),
    "a child twice": (a_sheet(four_alone(), four_alone()), "Amara stands 2 times under loaf_catch"),
    "an activity nobody knows": (a_sheet(four_alone(activity="zz")), "which the library does not"),
    "a version that was not planned": (
        a_sheet(four_alone(activity=WASH)),
        "no version of wash_catch in the plan",
    ),
    "a version of another activity": (
        a_sheet(four_alone(version="wash_catch.rolled.usual")),
        "under loaf_catch",
    ),
    "a part that is not counted": (
        a_sheet(four_alone(activity="arrive_spot")),
        "is no practice of a step",
    ),
}


@pytest.mark.parametrize(("sheet", "sentence"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_right_is_one_sentence(sheet: ResultSheet, sentence: str) -> None:
    before = world()
    with pytest.raises(ManyFaults) as caught:
        take(before, sheet)
    assert [fault for fault in caught.value.faults if sentence in fault.message]
    assert all(fault.hint for fault in caught.value.faults)


def test_every_fault_of_a_sheet_is_told_at_once() -> None:
    sheet = a_sheet(four_alone(tries=2), Counted(child="c2", activity=LOAF, alone=-3))
    with pytest.raises(ManyFaults) as caught:
        take(world(), sheet)
    assert len(caught.value.faults) == 2


def test_a_sheet_of_another_group_is_refused() -> None:
    with pytest.raises(InputError, match="is of group other, not of Tuesday group"):
        take(world(), a_sheet(four_alone(), group="other"))


def test_a_sheet_of_another_date_is_refused() -> None:
    with pytest.raises(InputError, match="is of 2026-03-03, not of 2026-03-10"):
        take(world(), a_sheet(four_alone(), date=TODAY - dt.timedelta(days=7)))


def test_a_date_that_lies_ahead_is_refused() -> None:
    with pytest.raises(InputError, match="on 2026-03-10 lies ahead: today is 2026-03-09"):
        take(world(), a_sheet(four_alone()), today=TODAY - dt.timedelta(days=1))


def test_a_day_without_a_session_is_refused() -> None:
    with pytest.raises(InputError, match="Tuesday group has no session on 2026-03-10"):
        take(world(sessions=()), a_sheet(four_alone()))


def test_a_session_that_was_not_held_is_refused() -> None:
    with pytest.raises(InputError, match="was not held yet"):
        take(world(), a_sheet(four_alone(), began=None, ended=None))


def test_a_session_that_was_called_off_is_refused() -> None:
    off = a_held(status="cancelled", reason="snow")
    with pytest.raises(InputError, match=r"was cancelled \(snow\)"):
        take(world(sessions=(off,)), a_sheet(four_alone()))


def test_a_sheet_of_another_session_is_refused() -> None:
    before = a_held(id="s0", date=TODAY - dt.timedelta(days=7))
    sheet = a_sheet(four_alone(), date=before.date)
    once = take(world(sessions=(before, a_held())), sheet, on=before.date)
    with pytest.raises(InputError, match="was taken in for tuesday on 2026-03-03 already"):
        take(once.caseload, a_sheet(four_alone()))


def test_a_child_with_tries_on_file_cannot_have_been_absent() -> None:
    once = take(world(), a_sheet(four_alone()))
    with pytest.raises(ManyFaults, match="marked absent, and has tries on file"):
        take(once.caseload, a_sheet(ABSENT, sheet="another"))


def test_tries_of_a_child_whose_absence_is_on_file_are_refused() -> None:
    once = take(world(), a_sheet(ABSENT))
    with pytest.raises(ManyFaults, match="was absent that day"):
        take(once.caseload, a_sheet(four_alone(), sheet="another"))


@pytest.mark.parametrize("times", [("14:60", None), ("14:12", "soon"), ("14:50", "14:12")])
def test_times_that_cannot_be_are_refused(times: tuple[str, str | None]) -> None:
    with pytest.raises(InputError) as caught:
        take(world(), a_sheet(four_alone(), began=times[0], ended=times[1]))
    assert caught.value.field in ("began", "ended")


def test_a_hidden_level_still_counts_on_an_older_print() -> None:
    levels = (PromptLevel(id="nudge", name="nudge", hidden=True), PromptLevel(id="own", name="own"))
    caseload = world(prompt_lists=(PromptList(id="mine", levels=levels),))
    taken = take(caseload, a_sheet(Counted(child="c1", activity=LOAF, with_help={"nudge": 2})))
    assert [one.help for one in taken.trials] == ["nudge"]


def test_a_correction_names_what_it_corrects_and_the_old_row_stays() -> None:
    once = take(world(), a_sheet(four_alone())).caseload
    row = correction_of(once, once.trials[0].id, new_id="k1", count=3)
    after = (*once.trials, row)
    assert row.corrects == once.trials[0].id
    assert [(one.id, one.count) for one in standing_trials(after)] == [("k1", 3)]
    assert len(after) == 2


def test_a_row_is_corrected_once() -> None:
    once = take(world(), a_sheet(four_alone())).caseload
    row = correction_of(once, once.trials[0].id, new_id="k1", count=3)
    again = replace(once, trials=(*once.trials, row))
    with pytest.raises(InputError, match="was corrected already"):
        correction_of(again, once.trials[0].id, new_id="k2", count=2)
    assert correction_of(again, "k1", new_id="k2", count=2).corrects == "k1"


def test_a_correction_that_changes_nothing_or_names_no_level_is_refused() -> None:
    once = take(world(), a_sheet(four_alone())).caseload
    first = once.trials[0].id
    with pytest.raises(InputError, match="on file already"):
        correction_of(once, first, new_id="k1", count=4)
    with pytest.raises(InputError, match="'shout' is not in your list"):
        correction_of(once, first, new_id="k1", outcome="with_help", help="shout")
    with pytest.raises(InputError, match="needs a level of help"):
        correction_of(once, first, new_id="k1", outcome="with_help")


def presses(count: int) -> tuple[Trial, ...]:
    return tuple(
        Trial(id=f"n.{at}", session="s1", child="c1", version="loaf_catch.hugged.usual",
              step="catch2.hugged", outcome="alone", source="run")
        for at in range(count)
    )  # fmt: skip


@given(pressed=st.integers(1, 12), wanted=st.integers(0, 20), helped=st.booleans())
def test_tries_pressed_one_by_one_can_be_made_into_any_number(
    pressed: int, wanted: int, helped: bool
) -> None:
    caseload = world(trials=presses(pressed))
    to = ("with_help", "word") if helped else ("alone", "alone")
    if wanted == pressed and not helped:
        return
    ids = iter(range(99))
    rows = corrections_for(
        caseload, session="s1", child="c1", version="loaf_catch.hugged.usual",
        was=("alone", "alone"), to=to, count=wanted, new_id=lambda: f"k{next(ids)}",
    )  # fmt: skip
    standing = standing_trials((*caseload.trials, *rows))
    assert sum(row.count for row in standing) == wanted
    assert {(row.outcome, row.help) for row in standing} <= {to}
    assert all(row.corrects in {one.id for one in caseload.trials} for row in rows)


@given(by=st.text(max_size=120))
def test_whoever_counted_the_key_of_a_sheet_is_a_good_id(by: str) -> None:
    key = sheet_key(a_sheet(by=by))
    assert len(key) <= 60
    Trial(id=f"{key}.12345678", session="s1", child="c1", version="v", step="s", outcome="alone")
    assert take(world(), a_sheet(four_alone(), by=by)).sheets[0].id == key


def test_a_sheet_that_is_no_json_or_has_other_fields_is_told_by_place() -> None:
    with pytest.raises(InputError, match=r"sheet.json is not JSON: .* at line 1"):
        parse_sheet("{", name="sheet.json")
    with pytest.raises(ManyFaults) as caught:
        parse_sheet('{"sheet": "a", "rows": [{"child": "c1", "alon": 3}]}', name="sheet.json")
    assert len(caught.value.faults) == 3  # group and date are missing, alon is unknown


def test_what_was_pressed_and_what_was_typed_are_two_sheets() -> None:
    pressed = world(trials=presses(3))
    typed = take(pressed, a_sheet(four_alone())).caseload
    (found,) = differences_between(typed, "s1")
    assert {(said.by, said.counts) for said in found.counted} == {
        ("run page", (3, 0, 0)),
        ("R. Quay", (4, 0, 0)),
    }
    same = take(pressed, a_sheet(four_alone(alone=3))).caseload
    assert differences_between(same, "s1") == ()
