"""The report for a team: a page a goal, what is on file alone, and limits beside figures."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from io import BytesIO
from typing import Any
from xml.etree import ElementTree

import pikepdf
import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Blank
from tapeline.caseload.own_library import library_in_force
from tapeline.caseload.people import Baseline
from tapeline.documents.progress_report import ProgressReport, ReportGoal, print_progress_report
from tapeline.errors import InputError
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.goals_ahead import goals_ahead
from tapeline.sessions.learned import learned_so_far
from tapeline.sessions.progress_report import made_from, progress_report, progress_report_pdf
from tests.builders import TODAY, a_goal
from tests.unit.sessions.progress_world import BEFORE, a_progress_world
from tests.unit.sessions.written_world import WEEK

ON = dt.date(2026, 11, 25)


@pytest.fixture(scope="module")
def invented() -> Caseload:
    return demo_caseload(ON)


def report_of(world: Caseload, *, child: str = "c1", **dates: Any) -> ProgressReport:
    return progress_report(world, world.child(child), **{"last": TODAY, **dates})


def goal_of(world: Caseload) -> ReportGoal:
    return report_of(world).goals[0]


def figure(goal: ReportGoal, name: str) -> str:
    return dict(goal.figures)[name]


def all_words(report: ProgressReport) -> str:
    texts = [report.title, report.period, *report.came, *report.closing]
    for goal in report.goals:
        texts += [goal.name, goal.chart_title, goal.table_title, *goal.aim, *goal.text]
        texts += [*goal.limits, *(part for pair in goal.figures for part in pair)]
        texts += [cell for row in goal.table for cell in row]
    return "\n".join(texts)


WORLDS = {
    "rising": a_progress_world(),
    "flat": a_progress_world(((4, 8),) * 4, ((4, 8),) * 8),
    "never": a_progress_world(((0, 8),) * 4, ((0, 8),) * 8),
    "always": a_progress_world(((8, 8),) * 4, ((8, 8),) * 8),
    "falling": a_progress_world(
        ((4, 8), (5, 8), (4, 8)), tuple((k, 8) for k in (3, 2, 2, 1, 0, 0))
    ),
    "one day": a_progress_world((), ((4, 8),)),
    "one before": a_progress_world(((1, 8),), ((4, 8),)),
    "only before": a_progress_world(BEFORE, ()),
    "nothing": a_progress_world((), ()),
}


@pytest.mark.parametrize("name", WORLDS)
def test_whatever_is_on_file_there_is_a_page_without_a_nan(name: str) -> None:
    report = report_of(WORLDS[name])
    words = all_words(report)
    assert not re.search(r"\b(nan|inf|None)\b", words)
    assert not re.search(r"\d\.\d\d", words.replace("1.5 m", "")), "two decimals on a page"
    with pikepdf.open(BytesIO(print_progress_report(report))) as pdf:
        assert len(pdf.pages) == 1


def test_start_later_days_and_trend_are_told_first() -> None:
    assert goal_of(WORLDS["rising"]).text[:3] == (
        "Before the work began, up to 30 December 2025: 4 days, from 1 to 2 in 10 tries, in the "
        "middle 2 in 10.",
        "Since then 10 days at the goal's step: in the middle 6 in 10 tries, last 7 of 8 on "
        "10 March 2026.",
        "Over four weeks about +2 in 10 tries (likely between +2 and +3).",
    )


def test_the_goal_stands_with_condition_count_date_and_step() -> None:
    assert goal_of(WORLDS["rising"]).aim == (
        "A large light ball with one bounce from 1.5 m. Amara scoops it up with both arms.",
        "Counted: 4 of 5 tries, on their own, in one session, by 21 April 2026.",
        "Step 4 of 7: Stands and scoops up a large light ball sent with one bounce from 1.5 m.",
    )


def test_comparisons_are_in_words_with_their_limits() -> None:
    goal = goal_of(WORLDS["rising"])
    assert "(NAP; likely between" in figure(goal, "Start and since")
    assert "(Tau; likely between" in figure(goal, "Better less worse")
    assert "baseline-corrected Tau" in figure(goal, "Better less worse")
    assert figure(goal, "Of the way") == (
        "About 70 % of the way from the start to the criterion (likely between 55 and 85 %)."
    )
    assert "By luck alone" in figure(goal, "Aim line")
    assert any("nothing of how much" in line for line in goal.limits)


def test_few_days_are_not_enough_seen() -> None:
    goal = goal_of(WORLDS["one before"])
    assert figure(goal, "Trend") == (
        "Not enough seen yet: a trend needs 5 days at the goal's step, 2 on file."
    )
    assert figure(goal, "Start and since").startswith("Not enough seen yet: comparing needs 3 days")
    assert figure(goal, "Day to day").startswith("Not enough seen yet")
    assert "Of the way" not in dict(goal.figures)
    assert "Not enough seen yet to speak of a trend." in goal.text


def test_alike_days_have_no_range_and_no_swing() -> None:
    goal = goal_of(WORLDS["flat"])
    assert figure(goal, "Trend") == "Over four weeks level; days too alike for a range."
    assert figure(goal, "Of the way") == "About 0 %; all days were too alike for a range."
    assert figure(goal, "Day to day").startswith("All days were alike")


def test_a_fall_is_told_as_a_fall() -> None:
    goal = goal_of(WORLDS["falling"])
    assert "about −" in figure(goal, "Trend")
    assert figure(goal, "Of the way").startswith("Later days lie further from the criterion")


def test_days_that_resemble_each_other_bring_a_warning() -> None:
    waves = tuple((k, 8) for k in (1, 1, 1, 6, 6, 6, 1, 1, 1, 6, 6, 6, 1, 1, 1))
    limits = goal_of(a_progress_world(BEFORE, waves)).limits
    assert limits[0].startswith("Warning: one day resembles the next")


def test_without_a_baseline_nothing_is_compared() -> None:
    goal = goal_of(WORLDS["one day"])
    assert goal.text[0] == "No baseline is on file, so nothing is compared with a start."
    assert goal.text[1] == "So far 1 day at the goal's step: 4 of 8 on 10 March 2026."


def test_a_baseline_with_other_help_is_not_compared() -> None:
    aimed = a_goal(baseline=Baseline(k=1, n=5, date=TODAY - 20 * WEEK, help="word"))
    assert goal_of(a_progress_world(goal=aimed)).text[0].startswith("The baseline was counted with")


def test_weeks_without_tries_are_gaps_by_their_reason() -> None:
    world = a_progress_world()
    away = "p8"
    world = replace(
        world,
        trials=tuple(one for one in world.trials if one.session != away),
        blanks=(Blank(session=away, child="c1", kind="absent"),),
    )
    goal = goal_of(world)
    assert "Weeks without tries, of 14 shown: away 1." in goal.text
    assert ("2 Feb", "away", "", "", "") in goal.table


def test_attendance_and_minutes_are_those_of_the_stretch_of_time() -> None:
    report = report_of(WORLDS["rising"], first=TODAY - 3 * WEEK)
    assert report.period == "17 February 2026 to 10 March 2026"
    assert report.came == (
        "Took part on 4 days.",
        "Minutes in Tuesday group: 180 planned, 180 delivered.",
    )


def test_results_after_the_last_day_do_not_count() -> None:
    goal = report_of(WORLDS["rising"], last=TODAY - 5 * WEEK).goals[0]
    assert "last 4 of 8 on 3 February 2026" in goal.text[1]


def test_a_stretch_that_ends_before_it_begins_is_refused() -> None:
    with pytest.raises(InputError, match="begins on"):
        report_of(WORLDS["rising"], first=TODAY, last=TODAY - WEEK)


def test_no_other_child_is_in_it_in_any_way(invented: Caseload) -> None:
    for child in invented.children:
        words = all_words(report_of(invented, child=child.id, last=ON))
        for other in invented.children:
            if other.id != child.id:
                assert not re.search(rf"\b{other.name}\b", words)


def test_every_invented_child_has_a_page_for_each_goal(invented: Caseload) -> None:
    for child in invented.children[:4]:
        pdf = progress_report_pdf(invented, child, last=ON)
        with pikepdf.open(BytesIO(pdf)) as opened:
            assert len(opened.pages) == len(child.goals)


def test_the_same_report_is_the_same_file() -> None:
    report = report_of(WORLDS["rising"])
    assert print_progress_report(report) == print_progress_report(report)


def test_a_child_without_goals_has_one_page_that_says_so() -> None:
    world = a_progress_world()
    bare = replace(world, children=(replace(world.children[0], goals=()), *world.children[1:]))
    assert report_of(bare).goals == ()
    with pikepdf.open(BytesIO(progress_report_pdf(bare, bare.child("c1"), last=TODAY))) as pdf:
        assert len(pdf.pages) == 1


def test_her_own_words_take_the_place_of_the_draft() -> None:
    report = report_of(WORLDS["rising"]).written({"g1": "One.\n\n  Two  words. "})
    assert report.goals[0].text == ("One.", "Two words.")
    assert report.goals[0].figures == goal_of(WORLDS["rising"]).figures


def test_the_chart_shows_the_start_as_a_mark_and_where_the_work_began() -> None:
    goal = goal_of(WORLDS["rising"])
    svg = ElementTree.fromstring(goal.svg)
    said = [one.text for one in svg.iter("{http://www.w3.org/2000/svg}text")]
    for words in ("Start", "Work begins", "The aim", "2/8", "7/8"):
        assert words in said
    assert "start: 2 of 8" in goal.chart_title
    assert ("29 Dec", "start: 2 of 8", "", "", "") in goal.table


def test_the_chart_is_ink_alone() -> None:
    """Readable in grey: every colour has three parts that lie within 25 of each other."""
    for colour in set(re.findall(r"#([0-9a-f]{6})", goal_of(WORLDS["rising"]).svg)):
        parts = [int(colour[at : at + 2], 16) for at in (0, 2, 4)]
        assert max(parts) - min(parts) <= 25


def test_a_skill_that_is_being_lost_has_no_chances_in_its_letter() -> None:
    falling = ((7, 8), (8, 8), (7, 8)), tuple((k, 8) for k in (8, 7, 7, 1, 0, 1, 0, 0, 0))
    goal = goal_of(a_progress_world(*falling))
    assert "Goal" not in dict(goal.figures)
    assert not any("from all tries" in line for line in goal.text)
    assert "Trend" in dict(goal.figures)


def test_what_is_believed_of_the_goal_stands_first_among_the_figures() -> None:
    world = WORLDS["rising"]
    child, library = world.child("c1"), library_in_force(world)
    learned = learned_so_far(world, library, child, on=TODAY)
    ahead = goals_ahead(world, child, learned, on=TODAY)["g1"]
    assert ahead.forecast is not None
    assert goal_of(world).figures[0] == ("Goal", ahead.says)


def test_a_goal_whose_step_is_gone_from_the_library_says_so() -> None:
    world = a_progress_world(goal=a_goal(step="catch2.nowhere"))
    goal = goal_of(world)
    assert goal.aim == ("This goal's step is not in the library any more: choose another step.",)
    assert goal.figures == ()
    with pikepdf.open(BytesIO(progress_report_pdf(world, world.child("c1"), last=TODAY))) as pdf:
        assert len(pdf.pages) == 1


def test_what_others_do_is_no_change_of_a_kept_report() -> None:
    world = a_progress_world()
    one = report_of(world)
    others = (*world.trials, replace(world.trials[0], id="x1", child="c2", count=7))
    two = report_of(replace(world, trials=others))
    assert made_from(one) == made_from(two)
    corrected = (replace(world.trials[-1], count=2), *world.trials[:-1])
    assert made_from(report_of(replace(world, trials=corrected))) != made_from(one)
