"""A plan of an edited caseload is named, with the child and what changed."""

from __future__ import annotations

import datetime as dt

import pytest
from pydantic import TypeAdapter

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.caseload import fingerprint as core_fingerprint
from tapeline.caseload.caseload import fingerprints_of as core_fingerprints_of
from tapeline.checking import check_plan
from tapeline.checking.read import shaped_caseload
from tapeline.checking.stale import fingerprint, fingerprints_of
from tests.unit.checking.small_world import a_caseload, a_plan


def change_precaution(caseload):
    caseload["children"][0]["precautions"] = [{"kind": "heart"}]


def change_age(caseload):
    caseload["children"][0]["born"] = "2021-08"


def change_goal(caseload):
    caseload["children"][0]["goals"][0]["k"] = 5


def change_start(caseload):
    caseload["children"][0]["skills"].append({"skill": "walk", "step": "walk.lane"})


def give_a_home(caseload):
    caseload["children"][0]["home"] = "h3"


def add_a_trial(caseload):
    caseload["trials"].append(dict(caseload["trials"][0], id="t9", child="c1", step="toss.drop"))


def add_an_answer(caseload):
    caseload["family_answers"] = [{"id": "a", "session": "s1", "child": "c1", "days_done": 2}]


@pytest.mark.parametrize(
    ("change", "what"),
    [
        (change_precaution, "precautions"),
        (change_age, "precautions"),
        (change_goal, "goals or starting steps"),
        (change_start, "goals or starting steps"),
        (give_a_home, "home"),
        (add_a_trial, "trials or family answers"),
        (add_an_answer, "trials or family answers"),
    ],
)
def test_the_child_and_what_changed_are_named(book, change, what):
    plan, caseload = a_plan(), a_caseload()
    change(caseload)
    (fault,) = check_plan(plan, caseload, book=book)
    assert (fault.kind, fault.child) == ("stale", "c1")
    assert str(fault) == f"The plan was made before c1's {what} changed: plan again."


@pytest.mark.parametrize(
    "change",
    [
        lambda caseload: caseload["groups"][0].update(minutes=25),
        lambda caseload: caseload["sites"][0]["rooms"][0].update(length_cm=620),
    ],
)
def test_a_changed_group_or_room_is_named(book, change):
    plan, caseload = a_plan(), a_caseload()
    change(caseload)
    (fault,) = check_plan(plan, caseload, book=book)
    assert str(fault) == "The plan was made before group g or its room changed: plan again."


def test_rules_of_another_date_are_named(book):
    plan = a_plan()
    plan["made_from"]["rules"] = "2025-09-01"
    (fault,) = check_plan(plan, a_caseload(), book=book)
    assert str(fault) == (
        "The plan was made by the rules of 2025-09-01; those of 2026-01-02 hold: plan again."
    )


def test_a_child_the_plan_was_made_without_is_named(book):
    plan = a_plan()
    del plan["made_from"]["children"]["c2"]
    (fault,) = check_plan(plan, a_caseload(), book=book)
    assert (fault.kind, fault.child) == ("stale", "c2")


def test_leaving_out_a_field_is_no_change():
    """What a file leaves out means its default, as in the caseload's own file."""
    bare = {"id": "c1", "name": "Ada", "born": "2021-09"}
    full = {**bare, "gets_about": "on_foot", "goals": [], "precautions": [], "home": None}
    one, other = (shaped_caseload({"format": 1, "children": [child]}) for child in (bare, full))
    assert fingerprints_of(one, one["children"][0]) == fingerprints_of(other, other["children"][0])


def test_fingerprints_agree_with_the_caseloads_own():
    """The two versions share no code; what they hash must be the same text."""
    written = a_caseload()
    written["trials"][0].update(measured=12, at="2026-03-03T10:00:00Z")
    written["children"][0]["goals"][0]["baseline"] = {"k": 1, "n": 5, "date": "2026-01-05"}
    written["children"][1]["precautions"][0]["go_aheads"] = [
        {"written_by": "Dr Peña", "date": "2026-01-01", "allows": ["climb"], "ends": "2026-12-01"}
    ]
    core = TypeAdapter(Caseload).validate_python(written)
    own = shaped_caseload(written)
    for child in own["children"]:
        assert fingerprints_of(own, child) == core_fingerprints_of(core, core.child(child["id"]))
    group = core.group("g")
    there = group.members_on(dt.date(2026, 3, 10))
    assert len(there) == 4
    assert fingerprint([own["groups"][0], own["sites"][0]["rooms"][0]]) == core_fingerprint(
        [group, core.room_of(group)]
    )
    assert fingerprint([own["groups"][0], None]) == core_fingerprint([group, None])


def test_a_fingerprint_is_the_beginning_of_a_sha_256():
    """Second implementation: `printf null | sha256sum` of GNU coreutils."""
    assert fingerprint(None) == "74234e98afe7"
