"""The family's page: its own child, plain words, nothing that was not seen, one side."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest

from tapeline.activities.readability import is_plain, read_text
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.documents.summary import FamilySummary, SummaryGoal, summary_words
from tapeline.errors import InputError
from tapeline.sessions.child_record import enough_seen
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.summary import family_summary, summary_pdf
from tests.builders import TODAY, a_child, a_home
from tests.unit.sessions.written_world import WEEK, a_written_world, tries

ON = dt.date(2026, 11, 25)
LONGEST_SENTENCE = 12


@pytest.fixture(scope="module")
def invented() -> Caseload:
    return demo_caseload(ON)


def all_words(summary: FamilySummary) -> str:
    """Everything that stands on the page."""
    texts = [summary.title, *summary.opening, *summary.notes, *summary.closing, summary.to_be_read]
    for goal in summary.goals:
        texts += [goal.name, *goal.lines, goal.notice, goal.table_title, goal.chart_title]
        texts += [cell for row in goal.table for cell in row]
    return "\n".join(texts)


def sentences_of(summary: FamilySummary) -> list[str]:
    """Sentences a family reads, without the clause that says what a skill is for."""
    lines = [*summary.opening, *summary.notes, *summary.closing]
    for goal in summary.goals:
        lines += [*goal.lines[1:], goal.notice]
    return [one for line in lines for one in re.findall(r"[^.!?]+[.!?”]+", line)]


def first_goal(world: Caseload, *, on: dt.date = TODAY) -> SummaryGoal:
    return family_summary(world, world.children[0], on=on).goals[0]


def test_what_was_counted_is_told_beside_the_start_and_the_aim() -> None:
    said = first_goal(a_written_world()).lines
    assert "The aim: 4 of 5 tries alone." in said
    assert "The aim is step 4 of 7." in said
    assert "At the start: 1 of 5 tries alone." in said
    assert "On March 10: 3 of 6 tries alone." in said


def test_the_table_says_the_same_as_the_chart() -> None:
    goal = first_goal(a_written_world())
    assert goal.table[1:] == (("Mar 9", "3 of 6", "2", "1", "4"),)
    assert goal.svg.count("3/6") == 1


def test_few_tries_are_not_enough_seen() -> None:
    assert first_goal(a_written_world()).notice.startswith("Not enough seen yet.")


def test_nothing_counted_shows_no_chart_and_says_so() -> None:
    goal = first_goal(replace(a_written_world(), trials=()))
    assert (goal.svg, goal.table) == ("", ())
    assert goal.notice.startswith("Not enough seen yet.")
    assert not any("0 of" in line for line in goal.lines)


@pytest.mark.parametrize(
    ("days", "count", "enough"), [(3, 5, True), (3, 4, False), (2, 20, False), (1, 99, False)]
)
def test_enough_is_fifteen_tries_on_three_days_of_late(
    days: int, count: int, enough: bool, invented: Caseload
) -> None:
    from tapeline.activities.loader import load_library

    skill = load_library().skills["catch2"]
    rows = [(TODAY - n * WEEK, tries(n, "c1", "alone", count=count)) for n in range(days)]
    assert enough_seen(skill, rows, on=TODAY) is enough
    assert not enough_seen(skill, rows, on=TODAY + 12 * WEEK)


def test_an_easier_step_is_said_to_be_on_the_way() -> None:
    world = a_written_world(
        trials=(tries(1, "c1", "alone", step="catch2.hugged", version="loaf_catch.hugged.usual"),)
    )
    assert "We are still on a step before the aim." in first_goal(world).lines


def test_a_week_away_is_a_gap_and_a_week_called_off_is_another() -> None:
    world = a_written_world()
    off = Session(
        id="s0",
        group="tuesday",
        date=TODAY - WEEK,
        status="cancelled",
        side="building",
        reason="Flood",
    )
    held = replace(world.sessions[0], id="s9", date=TODAY - 2 * WEEK)
    absent = replace(world.blanks[0], session="s9", child="c1")
    world = replace(world, sessions=(held, off, *world.sessions), blanks=(*world.blanks, absent))
    rows = first_goal(world).table[1:]
    assert [row[1] for row in rows] == ["away", "no group", "3 of 6"]


def test_a_home_that_reads_spanish_gets_spanish() -> None:
    world = a_written_world()
    child = replace(world.children[0], home="es")
    world = replace(
        world,
        children=(child, *world.children[1:]),
        homes=(*world.homes, a_home(id="es", language="es")),
    )
    summary = family_summary(world, child, on=TODAY)
    assert summary.language == "es"
    assert summary.title == "Cómo le va a Amara"
    assert summary.goals[0].name == "Atrapar con dos manos" or summary.goals[0].name
    assert summary.to_be_read.startswith("Una persona tiene que leer")
    assert "El 10 de marzo: 3 de 6 intentos sin ayuda." in summary.goals[0].lines


def test_both_languages_have_the_same_pieces() -> None:
    words = summary_words()

    def shape(value: object) -> object:
        if isinstance(value, dict):
            return {key: shape(found) for key, found in value.items()}
        if isinstance(value, list):
            return len(value)
        return sorted(re.findall(r"\{(\w+)\}", str(value)))

    dates = ("date", "short_date")
    trimmed = {
        language: {key: value for key, value in found.items() if key not in dates}
        for language, found in words.items()
    }
    assert shape(trimmed["en"]) == shape(trimmed["es"])


def test_every_sentence_is_short_and_the_page_is_plain(invented: Caseload) -> None:
    """Limits of the trade: grade 5 (Flesch-Kincaid), Fernandez-Huerta 80, as read elsewhere."""
    for child in invented.children:
        summary = family_summary(invented, child, on=ON)
        sentences = sentences_of(summary)
        assert [one for one in sentences if len(one.split()) > LONGEST_SENTENCE] == []
        assert is_plain(read_text(" ".join(sentences), summary.language)), child.name


def test_there_is_no_score_no_rank_and_no_comparison(invented: Caseload) -> None:
    for child in invented.children:
        text = all_words(family_summary(invented, child, on=ON)).casefold()
        assert not re.search(r"percent|%|score|rank|average|better than|other children", text)


def test_a_child_without_goals_is_shown_what_was_seen_most() -> None:
    world = a_written_world()
    child = replace(world.children[0], goals=())
    world = replace(world, children=(child, *world.children[1:]))
    goal = first_goal(world)
    assert goal.name == "Two-hand catch"
    assert "No aim is set yet. We will set one with you." in goal.lines


def test_a_child_who_never_came_has_a_page_all_the_same() -> None:
    world = replace(a_written_world(), sessions=(), trials=(), blanks=(), stops=())
    child = a_child(goals=())
    summary = family_summary(replace(world, children=(child,)), child, on=TODAY)
    assert summary.opening == ("We have not met yet.",)
    assert summary.goals == ()


def test_every_child_gets_one_side(invented: Caseload) -> None:
    for child in invented.children:
        with pikepdf.open(BytesIO(summary_pdf(invented, child, on=ON))) as pdf:
            assert len(pdf.pages) == 1, child.name


def test_one_side_is_enough_on_letter_paper_too(invented: Caseload) -> None:
    letter = replace(invented, therapist=replace(invented.therapist, paper="letter"))
    for key in ("c1", "c7", "c12"):
        with pikepdf.open(BytesIO(summary_pdf(letter, letter.child(key), on=ON))) as pdf:
            assert len(pdf.pages) == 1


def test_the_page_is_tagged_in_its_language_and_its_chart_has_words(invented: Caseload) -> None:
    with pikepdf.open(BytesIO(summary_pdf(invented, invented.child("c7"), on=ON))) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert pdf.docinfo["/Title"] == "Cómo le va a Mateo"


def test_tries_count_with_the_help_that_the_goal_allows() -> None:
    world = a_written_world()
    child = world.children[0]
    goal = replace(child.goals[0], help_at_most="word")
    child = replace(child, goals=(goal,))
    found = first_goal(replace(world, children=(child, *world.children[1:])))
    assert "The aim: 4 of 5 tries with a word." in found.lines
    assert "On March 10: 5 of 6 tries with a word." in found.lines
    assert found.table[0][1:3] == ("Alone or with a word", "With more help")
    assert found.table[1][1:3] == ("5 of 6", "–")


def test_a_letter_the_font_does_not_have_is_one_clear_sentence() -> None:
    world = a_written_world()
    child = replace(world.children[0], name="\u738b")
    world = replace(world, children=(child, *world.children[1:]))
    with pytest.raises(InputError, match="\u738b"):
        summary_pdf(world, child, on=TODAY)
