"""The family summary: one home, its own child, plain words, and nothing that was not seen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from tapeline.activities.models import Skill, Step
from tapeline.activities.shipped import shipped_yaml
from tapeline.activities.spanish import skill_text_in, text_in
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child, Goal, Language
from tapeline.documents.chart import units_wide
from tapeline.documents.pictures import mark_words
from tapeline.documents.summary import FamilySummary, SummaryGoal, print_summary, summary_words
from tapeline.figures.marks import MARKS
from tapeline.progress.chart import TriesChart, WeekOfTries, monday_of, tries_chart
from tapeline.sessions.child_record import (
    ChildRecord,
    enough_seen,
    help_that_counts,
    record_of,
)
from tapeline.sessions.learned import learned_so_far
from tapeline.sessions.note_results import level_names_of


@dataclass(frozen=True, kw_only=True)
class SummaryBasis(ChildRecord):
    """What the page is made from: one child's record, in one language."""

    language: Language
    words: Any

    def day(self, date: dt.date) -> str:
        """A date as the home reads it."""
        month = self.words["months"][date.month - 1]
        return str(self.words["date"].format(day=date.day, month=month))

    def short_day(self, date: dt.date) -> str:
        """The same in few letters, for a table."""
        month = self.words["chart"]["months"].split()[date.month - 1]
        return str(self.words["short_date"].format(day=date.day, month=month))

    def say(self, key: str, **values: object) -> str:
        """One sentence of the page."""
        return str(self.words[key].format(**values))


def summary_pdf(caseload: Caseload, child: Child, *, on: dt.date) -> bytes:
    """The family summary as a PDF of one page."""
    return print_summary(family_summary(caseload, child, on=on))


def family_summary(caseload: Caseload, child: Child, *, on: dt.date) -> FamilySummary:
    """What a home reads of its child, up to a date; no other child is on it in any way.

    Goals that weigh most come first; a child without goals is shown the skill seen most.
    """
    basis = _basis(caseload, child, on)
    goals = tuple(_goal(skill, goal, basis) for skill, goal in _goals_shown(basis))
    her = caseload.therapist
    return FamilySummary(
        title=basis.say("title", name=child.name),
        mark=child.mark if child.mark in MARKS else next(iter(MARKS)),
        mark_words=mark_words(basis.language).get(child.mark, child.mark),
        language=basis.language,
        opening=tuple(_opening(basis)),
        goals=goals,
        notes=tuple(_notes(goals, basis)),
        closing=(
            basis.say("questions", ring=her.ring) if her.ring else basis.say("ask_her"),
            basis.say("tell"),
            basis.say("only", name=child.name),
        ),
        therapist=", ".join(text for text in (her.name, her.credential) if text),
        to_be_read=str(basis.words["to_be_read"]),
        day=on.isoformat(),
        paper=her.paper,
        is_invented=caseload.invented,
    )


def _basis(caseload: Caseload, child: Child, on: dt.date) -> SummaryBasis:
    language = caseload.home_of(child).language
    record = record_of(caseload, child, on=on)
    return SummaryBasis(**vars(record), language=language, words=summary_words()[language])


def _opening(basis: SummaryBasis) -> Iterable[str]:
    if not basis.met:
        yield basis.say("not_met")
        return
    yield basis.say("period", first=basis.day(basis.met[0]), last=basis.day(basis.met[-1]))
    form = "one" if len(basis.met) == 1 else "many"
    yield str(basis.words["met"][form].format(n=len(basis.met)))


def _goals_shown(basis: SummaryBasis) -> Sequence[tuple[Skill, Goal | None]]:
    most = shipped_yaml("practice/summary.yaml")["goals_shown"]["value"]
    goals = sorted(basis.child.goals, key=lambda goal: -goal.weight)[:most]
    found: list[tuple[Skill, Goal | None]] = [
        (basis.library.skills[goal.skill], goal)
        for goal in goals
        if goal.skill in basis.library.skills
    ]
    if found:
        return found
    counts: dict[str, int] = {}
    for _, trial in basis.trials:
        skill = basis.library.skills.get(trial.step.split(".")[0])
        if skill is not None:
            counts[skill.id] = counts.get(skill.id, 0) + trial.count
    best = sorted(counts, key=lambda skill: (-counts[skill], skill))[:1]
    return [(basis.library.skills[skill], None) for skill in best]


def _goal(skill: Skill, goal: Goal | None, basis: SummaryBasis) -> SummaryGoal:
    values = shipped_yaml("practice/summary.yaml")
    chart = tries_chart(
        skill,
        basis.trials,
        goal=goal,
        gaps=basis.gaps,
        on=basis.on,
        most_weeks=values["chart_weeks"]["value"],
        help_that_counts=help_that_counts(goal, basis.caseload),
    )
    text = skill_text_in(basis.language, skill)
    is_enough = enough_seen(skill, basis.trials, on=basis.on)
    notice = "" if is_enough else f"{basis.say('not_enough')} {basis.say('not_enough_why')}"
    return SummaryGoal(
        tape=skill.family,
        name=text.name,
        lines=tuple(_lines(skill, goal, chart, text.so_that, basis)),
        notice=notice,
        chart=chart if chart.has_tries else None,
        chart_units=units_wide(chart),
        chart_title=_chart_title(text.name, chart, basis),
        chart_words=_chart_words(goal, basis),
        table_title=str(basis.words["table"]["title"]),
        table=_table(chart, goal, basis) if chart.has_tries else (),
    )


def _lines(
    skill: Skill, goal: Goal | None, chart: TriesChart, so_that: str, basis: SummaryBasis
) -> Iterable[str]:
    yield basis.say("helps", name=basis.child.name, so_that=so_that)
    if goal is None:
        yield basis.say("no_goal")
    else:
        yield basis.say("aim", k=goal.k, n=goal.n, help=_help(goal.help_at_most, basis))
        yield basis.say("aim_step", k=skill.index_of(goal.step) + 1, n=len(skill.steps))
        if goal.date is not None:
            yield basis.say("aim_by", date=basis.day(goal.date))
        if goal.baseline is not None and goal.baseline.n:
            start = goal.baseline
            yield basis.say("start", k=start.k, n=start.n, help=_help(start.help, basis))
    yield from _what_was_seen(chart, goal, basis)
    following = _next_game(skill, basis)
    if following:
        yield basis.say("next", game=following)


def _what_was_seen(chart: TriesChart, goal: Goal | None, basis: SummaryBasis) -> Iterable[str]:
    """The two last weeks with tries, of the same step; easier steps are said to be on the way."""
    weeks = [week for week in chart.weeks if week.gap is None]
    if not weeks:
        return
    asked = _help(goal.help_at_most if goal is not None else "alone", basis)
    last = weeks[-1]
    yield basis.say("last", date=_week_name(last, basis), k=last.met, n=last.tries, help=asked)
    if len(weeks) > 1 and weeks[-2].step == last.step:
        before = weeks[-2]
        yield basis.say("before", date=_week_name(before, basis), k=before.met, n=before.tries)
    if chart.aim_step is not None and not last.at_aim:
        yield basis.say("on_the_way")


def _week_name(week: WeekOfTries, basis: SummaryBasis) -> str:
    """The day of that week on which the child was there, else its Monday."""
    days = [day for day in basis.met if monday_of(day) == week.monday]
    return basis.day(days[-1] if days else week.monday)


def _help(level: str, basis: SummaryBasis) -> str:
    known = basis.words["with_help"]
    if level in known:
        return str(known[level])
    name = level_names_of(basis.caseload).get(level, level)
    return basis.say("other_help", level=name)


def _next_game(skill: Skill, basis: SummaryBasis) -> str:
    """The name of a game for the step proposed, in the home's language; "" where none is.

    A skill that seems to be lost has none: she talks with the family first.
    """
    learned = learned_so_far(basis.caseload, basis.library, basis.child, on=basis.on)
    found = next((one for one in learned if one.skill.id == skill.id), None)
    if found is None or not found.belief.tries or found.matter is not None:
        return ""
    step = skill.steps[skill.index_of(found.proposal.step)]
    return _game_name(skill, step, basis)


def _game_name(skill: Skill, step: Step, basis: SummaryBasis) -> str:
    played = [trial.version.split(".")[0] for _, trial in reversed(basis.trials)]
    own = [one for one in basis.library.activities.values() if one.skill == skill.id]
    own.sort(key=lambda one: played.index(one.id) if one.id in played else len(played))
    for activity in own:
        for version in activity.versions:
            fits = basis.child.gets_about in version.gets_about
            if version.step == step.id and fits:
                return text_in(basis.language, activity, version).name
    return ""


def _notes(goals: Iterable[SummaryGoal], basis: SummaryBasis) -> Iterable[str]:
    """How the charts are read, once for all of them."""
    charts = [goal.chart for goal in goals if goal.chart is not None]
    if charts:
        yield basis.say("how_to_read")
    aimed = [week for chart in charts if chart.aim_step is not None for week in chart.weeks]
    if any(week.gap is None and not week.at_aim for week in aimed):
        yield basis.say("narrow")


def _chart_title(name: str, chart: TriesChart, basis: SummaryBasis) -> str:
    weeks = (
        basis.say("chart_week", date=basis.day(week.monday), k=week.met, n=week.tries)
        for week in chart.weeks
        if week.gap is None
    )
    return basis.say("chart_title", name=name, weeks="; ".join(weeks))


def _chart_words(goal: Goal | None, basis: SummaryBasis) -> dict[str, str]:
    words = dict(basis.words["chart"])
    if help_that_counts(goal, basis.caseload) and goal is not None:
        words["met"] = basis.say("alone_or", help=_help(goal.help_at_most, basis))
        words["helped"] = str(basis.words["more_help"])
    return words


def _table(
    chart: TriesChart, goal: Goal | None, basis: SummaryBasis
) -> tuple[tuple[str, ...], ...]:
    heads = basis.words["table"] | {
        name: _chart_words(goal, basis)[name] for name in ("met", "helped")
    }
    first = tuple(str(heads[name]) for name in ("week", "met", "helped", "not_yet", "step"))
    return (first, *(_row(week, chart, basis) for week in chart.weeks))


def _row(week: WeekOfTries, chart: TriesChart, basis: SummaryBasis) -> tuple[str, ...]:
    if week.gap is not None:
        return (basis.short_day(week.monday), str(basis.words["gaps"][week.gap]), "", "", "")
    return (
        basis.short_day(week.monday),
        basis.say("of", k=week.met, n=week.tries),
        str(week.helped) if week.helped else "–",
        str(week.not_yet) if week.not_yet else "–",
        str((week.step or 0) + 1),
    )
