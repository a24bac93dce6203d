"""Which field answers which record duty, and that one child's papers are about that child alone.

The duties: AOTA, Guidelines for Documentation of Occupational Therapy, 2018, Am J Occup Ther
72(Suppl 2) (its outline from memory); IDEA Part B, 34 CFR Part 300; FERPA, 34 CFR Part 99.
How far each was read stands beside it in ``data/record_duties.csv``. No legal advice; state
law and the district's forms come first.
"""

from __future__ import annotations

import csv
import datetime as dt
import re
import shutil
import subprocess
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from importlib import import_module
from pathlib import Path

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.figures.marks import MARKS
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.note import draft_note
from tapeline.sessions.summary import family_summary, summary_pdf

TABLE = Path(__file__).parent / "data" / "record_duties.csv"
MARKED = {"read", "second-hand", "memory", "common practice"}
NOT_ANSWERED = {
    "signature of a second person over an assistant's entry",
    "when periodic reports will be provided",
    "record of disclosures to others",
}
ON = dt.date(2026, 11, 25)


@dataclass(frozen=True, kw_only=True)
class Duty:
    """One row of the table."""

    duty: str
    source: str
    mark: str
    field: str
    note: str


@cache
def duties() -> tuple[Duty, ...]:
    """All rows, without the lines that explain the table."""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    return tuple(Duty(**row) for row in rows)


@pytest.fixture(scope="module")
def invented() -> Caseload:
    return demo_caseload(ON)


@pytest.mark.parametrize(
    "duty", [one for one in duties() if one.field], ids=lambda one: f"{one.duty}: {one.field}"
)
def test_the_field_that_answers_a_duty_is_there(duty: Duty) -> None:
    module_name, _, path = duty.field.partition(":")
    found: object = import_module(f"tapeline.{module_name}")
    for name in path.split("."):
        is_field = is_dataclass(found) and name in {one.name for one in fields(found)}
        assert is_field or hasattr(found, name), f"{duty.field} has no {name}"
        found = getattr(found, name, None)


def test_every_duty_names_its_source_and_how_far_it_was_read() -> None:
    assert duties()
    for duty in duties():
        assert duty.source
        assert duty.mark in MARKED


def test_duties_that_are_not_answered_are_known_and_say_why() -> None:
    open_ones = {duty.duty: duty.note for duty in duties() if not duty.field}
    assert set(open_ones) == NOT_ANSWERED
    assert all(open_ones.values())


def words_of_summary(caseload: Caseload, child_id: str) -> str:
    """The words of the printed page, as poppler reads them."""
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext was not found. Install poppler-utils.")
    made = summary_pdf(caseload, caseload.child(child_id), on=ON)
    said = subprocess.run(["pdftotext", "-", "-"], input=made, check=True, capture_output=True)
    return said.stdout.decode()


@pytest.mark.parametrize("child_id", ["c1", "c3", "c7", "c11", "c15"])
def test_a_familys_page_is_about_its_own_child_alone(invented: Caseload, child_id: str) -> None:
    """FERPA, 34 CFR 99.12 (content from memory): only their own child's information."""
    child = invented.child(child_id)
    said = words_of_summary(invented, child_id)
    assert child.name in said
    for other in invented.children:
        if other.id != child_id:
            assert not re.search(rf"\b({other.name}|{other.id})\b", said), other.name
            assert not any(goal.id in said for goal in other.goals)


def test_no_other_childs_mark_is_on_the_page(invented: Caseload) -> None:
    for child in invented.children:
        summary = family_summary(invented, child, on=ON)
        assert summary.mark == child.mark
        charts = "".join(goal.svg for goal in summary.goals)
        others = [MARKS[one.mark].outline for one in invented.children if one.id != child.id]
        assert not any(outline in charts for outline in others)


def test_nothing_another_child_did_changes_the_page(invented: Caseload) -> None:
    """The page would be the same had nothing been recorded about anybody else."""
    from dataclasses import replace

    for child_id in ("c1", "c7", "c12"):
        alone = replace(
            invented,
            trials=tuple(one for one in invented.trials if one.child == child_id),
            blanks=tuple(one for one in invented.blanks if one.child == child_id),
            family_answers=tuple(one for one in invented.family_answers if one.child == child_id),
        )
        child = invented.child(child_id)
        assert family_summary(alone, child, on=ON) == family_summary(invented, child, on=ON)


def test_a_note_names_no_other_child(invented: Caseload) -> None:
    for session in invented.sessions:
        for member in invented.group(session.group).members:
            child = invented.child(member.child)
            said = " ".join(one.text for one in draft_note(invented, session, child))
            others = [one.name for one in invented.children if one.id != child.id]
            assert not any(re.search(rf"\b{name}\b", said) for name in others), session.id


def test_a_note_rests_on_rows_of_its_own_child_alone(invented: Caseload) -> None:
    trials = {one.id: one.child for one in invented.trials}
    for session in invented.sessions[:8]:
        for member in invented.group(session.group).members:
            child = invented.child(member.child)
            for sentence in draft_note(invented, session, child):
                rows = [one for one in sentence.rests_on if one.startswith("trial:")]
                assert {trials[one.partition(":")[2]] for one in rows} <= {child.id}
