"""A file that cannot be read gives one sentence: what was found, where, what to do."""

from __future__ import annotations

import json

import pytest

from tapeline.checking import check_files, check_plan
from tapeline.errors import InputError
from tests.unit.checking.small_world import a_caseload, a_plan


def without(content, *path):
    here = content
    for key in path[:-1]:
        here = here[key]
    del here[path[-1]]
    return content


def with_value(content, value, *path):
    here = content
    for key in path[:-1]:
        here = here[key]
    here[path[-1]] = value
    return content


@pytest.mark.parametrize(
    ("plan", "words"),
    [
        ([], "The plan is [], where a record belongs."),
        (without(a_plan(), "parts"), "The plan has no parts."),
        (
            with_value(a_plan(), 2, "format"),
            "The plan is of format 2; this program reads format 1.",
        ),
        (
            with_value(a_plan(), "soon", "request", "date"),
            "The plan, request, date is 'soon', where a date such as 2026-03-31 belongs.",
        ),
        (
            with_value(a_plan(), 20.5, "parts", 1, "seconds"),
            "The plan, parts, 2, seconds is 20.5, where a whole number belongs.",
        ),
        (
            with_value(a_plan(), "yes", "parts", 1, "children", 0, "new"),
            "The plan, parts, 2, children, c1, new is 'yes', where true or false belongs.",
        ),
        (
            with_value(a_plan(), "garden", "parts", 0, "children", 0, "place"),
            "where one of room, home, home_later belongs.",
        ),
        (with_value(a_plan(), {}, "parts"), "The plan, parts is {}, where a list belongs."),
        (
            with_value(a_plan(), "h", "request", "group"),
            "The plan is for group h, which this caseload does not have.",
        ),
    ],
)
def test_a_malformed_plan_says_what_and_where(book, plan, words):
    with pytest.raises(InputError) as caught:
        check_plan(plan, a_caseload(), book=book)
    assert words in caught.value.message
    assert caught.value.hint.endswith(".")


@pytest.mark.parametrize(
    ("caseload", "words"),
    [
        (
            with_value(a_caseload(), "2021-13", "children", 0, "born"),
            "The caseload, children, c1, born is '2021-13', where a month such as 2021-04 belongs.",
        ),
        (
            with_value(a_caseload(), 1, "children", 0, "weight_kg"),
            "The caseload, children, c1 has a field 'weight_kg' that is not known here.",
        ),
        (
            with_value(a_caseload(), "h9", "children", 2, "home"),
            "Child c3 lives in h9, a home this caseload does not have.",
        ),
        (
            with_value(a_caseload(), [{"id": "wave", "uses": ["closing"]}], "own_activities"),
            "own activity 1 has no versions.",
        ),
        (
            with_value(
                a_caseload(),
                [{"id": "w", "uses": [], "skill": "swim", "versions": []}],
                "own_activities",
            ),
            "Own activity w names the skill swim, which the library does not have.",
        ),
    ],
)
def test_a_malformed_caseload_says_what_and_where(book, caseload, words):
    with pytest.raises(InputError) as caught:
        check_plan(a_plan(), caseload, book=book)
    assert words in caught.value.message


def test_a_file_that_is_not_there_is_named(tmp_path):
    with pytest.raises(InputError, match=r"There is no file .*plan\.json"):
        check_files(tmp_path / "plan.json", tmp_path / "caseload.json")


def test_a_file_that_is_no_json_is_named_with_its_line(tmp_path):
    plan = tmp_path / "plan.json"
    plan.write_text('{\n"format": 1,,\n}', encoding="utf-8")
    with pytest.raises(InputError, match=r"plan\.json is not JSON: .* at line 2\."):
        check_files(plan, tmp_path / "caseload.json")


def test_a_file_that_is_no_text_is_named(tmp_path):
    plan = tmp_path / "plan.json"
    plan.write_bytes(b"\xff\xfe\x00\x81")
    with pytest.raises(InputError, match=r"plan\.json cannot be read as text"):
        check_files(plan, tmp_path / "caseload.json")


def test_files_are_checked_with_the_shipped_library(tmp_path):
    """Its activities are not those of the tiny library, so they are faults here."""
    plan, caseload = tmp_path / "plan.json", tmp_path / "caseload.json"
    plan.write_text(json.dumps(a_plan()), encoding="utf-8")
    caseload.write_text(json.dumps(a_caseload()), encoding="utf-8")
    faults = check_files(plan, caseload)
    assert {"use", "stale"} <= {fault.kind for fault in faults}
