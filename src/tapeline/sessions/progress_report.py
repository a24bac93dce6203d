"""The progress report for a team: one child, goal by goal, from what is on file."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from tapeline.ability.bands import band_of
from tapeline.ability.words import chance_in_words
from tapeline.activities.models import Skill
from tapeline.caseload.caseload import Caseload, fingerprint
from tapeline.caseload.notes import KeptReport, ReportPart
from tapeline.caseload.people import Child, Goal
from tapeline.documents.progress_report import ProgressReport, ReportGoal, print_progress_report
from tapeline.documents.summary import summary_words
from tapeline.errors import InputError
from tapeline.progress.chart import TriesChart, WeekOfTries, monday_of, tries_chart
from tapeline.progress.measures import GoalMeasures, measure_goal
from tapeline.progress.series import GoalSeries, goal_series
from tapeline.progress.values import progress_values
from tapeline.sessions.child_record import ChildRecord, help_that_counts, record_of
from tapeline.sessions.goals_ahead import goals_ahead
from tapeline.sessions.learn import SkillLearned
from tapeline.sessions.learned import learned_so_far
from tapeline.sessions.minutes import Ledger, ledger_of, span_of
from tapeline.sessions.note import SIDES
from tapeline.sessions.note_results import level_names_of
from tapeline.sessions.progress_words import (
    day_in_words,
    days_in_words,
    figure_sentences,
    limit_sentences,
    result_sentences,
)

AHEAD = "Goal"
NO_STEP = "This goal's step is not in the library any more: choose another step."
NOT_SIGNED = "Draft, not signed."
CHART_WORDS = {"start": "Start", "began": "Work begins"}
GAPS = {
    "away": "away",
    "no_session": "no group",
    "other_games": "other games",
    "not_seen": "not seen",
}


@dataclass(frozen=True, kw_only=True)
class ReportBasis:
    """A child's record and the stretch of time that the report is about."""

    record: ChildRecord
    first: dt.date
    last: dt.date

    @property
    def child(self) -> Child:
        """The child it is about."""
        return self.record.child

    @property
    def caseload(self) -> Caseload:
        """The whole caseload."""
        return self.record.caseload


def progress_report_pdf(
    caseload: Caseload, child: Child, *, last: dt.date, first: dt.date | None = None
) -> bytes:
    """The report as a PDF, a page for each goal."""
    return print_progress_report(progress_report(caseload, child, last=last, first=first))


def progress_report(
    caseload: Caseload, child: Child, *, last: dt.date, first: dt.date | None = None
) -> ProgressReport:
    """What a team reads of a child; no other child is in it in any way.

    Parameters
    ----------
    last
        Results up to this day count, the day included.
    first
        Attendance and minutes count from this day (None = from the start of the term); the
        results of a goal always begin with its baseline.

    Raises
    ------
    InputError
        The first day lies after the last.
    """
    basis = _basis(caseload, child, first, last)
    her = caseload.therapist
    goals = sorted(child.goals, key=lambda goal: -goal.weight)
    return ProgressReport(
        title=f"Progress report: {child.name}",
        name=child.name,
        first=basis.first,
        period=f"{day_in_words(basis.first)} to {day_in_words(basis.last)}",
        came=tuple(_came(basis)),
        goals=tuple(_goal(goal, basis) for goal in goals),
        closing=tuple(_closing(child)),
        therapist=", ".join(text for text in (her.name, her.credential) if text),
        signed=NOT_SIGNED,
        day=basis.last.isoformat(),
        paper=her.paper,
        is_invented=caseload.invented,
    )


def kept_parts(
    draft: ProgressReport, texts: Mapping[str, str], before: KeptReport | None = None
) -> tuple[ReportPart, ...]:
    """Her words for each goal of the draft; goals that are gone since keep what was written."""
    drafted = {goal.id for goal in draft.goals}
    gone = [part for part in (before.parts if before else ()) if part.goal not in drafted]
    written = draft.written(texts)
    parts = (ReportPart(goal=one.id, name=one.name, text=one.text) for one in written.goals)
    return (*parts, *gone)


def as_kept(draft: ProgressReport, kept: KeptReport) -> ProgressReport:
    """The report with the words that were kept; a goal that is gone since has words alone."""
    written = draft.written(kept.texts)
    drafted = {goal.id for goal in written.goals}
    gone = (_words_alone(part) for part in kept.parts if part.goal not in drafted)
    report = replace(written, goals=(*written.goals, *gone))
    if kept.signed_at is None:
        return report
    on = dt.datetime.fromisoformat(kept.signed_at).date()
    said = f"Signed by {kept.signed_by}, {day_in_words(on)}."
    return replace(report, therapist=kept.signed_by, signed=said)


def made_from(draft: ProgressReport) -> str:
    """The fingerprint of a draft: it changes when what was recorded of the child changes.

    What is believed is left out: it moves with everybody's tries.
    """
    return fingerprint(
        [
            (goal.id, goal.aim, goal.table, [one for one in goal.figures if one[0] != AHEAD])
            for goal in draft.goals
        ]
    )


def _words_alone(part: ReportPart) -> ReportGoal:
    return ReportGoal(
        id=part.goal,
        tape="",
        name=part.name,
        aim=(),
        text=part.text,
        figures=(),
        limits=(),
        chart=None,
        chart_title="",
        chart_words={},
        table_title="",
        table=(),
    )


def _basis(caseload: Caseload, child: Child, first: dt.date | None, last: dt.date) -> ReportBasis:
    begins = first or _term_begins(caseload, child, last)
    if begins > last:
        raise InputError(
            f"The report begins on {begins} and ends on {last}.",
            field="first",
            hint="Choose a first day that is not after the last.",
        )
    return ReportBasis(record=record_of(caseload, child, on=last), first=begins, last=last)


def _term_begins(caseload: Caseload, child: Child, on: dt.date) -> dt.date:
    """The start of the term of the child's groups; without a group the day itself."""
    groups = (
        group
        for group in caseload.groups
        if any(member.child == child.id for member in group.members)
    )
    return min((span_of(caseload, group, on)[0] for group in groups), default=on)


def _came(basis: ReportBasis) -> Iterator[str]:
    """Days met, then the minutes of each group."""
    met = sum(basis.first <= day <= basis.last for day in basis.record.met)
    yield f"Took part on {days_in_words(met)}." if met else "Took part on no day in this time."
    for group in basis.caseload.groups:
        if any(member.child == basis.child.id for member in group.members):
            ledger = ledger_of(
                basis.caseload, basis.child, group, first=basis.first, last=basis.last
            )
            if ledger.lines:
                yield _minutes(ledger)


def _minutes(ledger: Ledger) -> str:
    sides = {line.side for line in ledger.lines if line.side is not None}
    missed = [
        f"{ledger.missed(side)} missed ({SIDES.get(side, 'side not said')})"
        for side in sorted(sides)
        if ledger.missed(side)
    ]
    unsettled = [f"{ledger.unsettled} not settled"] if ledger.unsettled else []
    made_up = [f"{ledger.made_up} made up outside the group"] if ledger.made_up else []
    parts = [f"{ledger.planned} planned", f"{ledger.delivered} delivered"]
    return f"Minutes in {ledger.group.name}: {', '.join(parts + missed + unsettled + made_up)}."


def _goal(goal: Goal, basis: ReportBasis) -> ReportGoal:
    record = basis.record
    skill = record.library.skills.get(goal.skill)
    if skill is None or all(step.id != goal.step for step in skill.steps):
        return replace(_words_alone(ReportPart(goal=goal.id, name=goal.name)), aim=(NO_STEP,))
    counts = help_that_counts(goal, basis.caseload)
    chart = tries_chart(
        skill,
        record.trials,
        goal=goal,
        gaps=record.gaps,
        on=basis.last,
        most_weeks=progress_values()["chart_weeks"]["value"],
        help_that_counts=counts,
        shows_start=True,
    )
    series = goal_series(goal, record.trials, on=basis.last, help_that_counts=counts)
    found = measure_goal(goal, series)
    words = _chart_words(goal, basis)
    known = _known(goal, basis)
    is_shown = chart.has_tries or chart.start is not None
    return ReportGoal(
        id=goal.id,
        tape=skill.family,
        name=goal.name,
        aim=tuple(_aim(goal, skill, basis)),
        text=tuple(_text(goal, chart, series, found, known, basis)),
        figures=(*_ahead(goal, known, basis), *figure_sentences(goal, found)),
        limits=tuple(limit_sentences(found)),
        chart=chart if is_shown else None,
        chart_title=_chart_title(goal, chart),
        chart_words=words,
        table_title="Tries by week",
        table=_table(chart, words) if is_shown else (),
    )


def _aim(goal: Goal, skill: Skill, basis: ReportBasis) -> Iterator[str]:
    """The goal in words and the part that counts."""
    pieces = [" ".join(text.split()).rstrip(".") for text in (goal.condition, goal.behaviour)]
    if any(pieces):
        yield ". ".join(piece for piece in pieces if piece) + "."
    sessions = "in one session" if goal.m == 1 else f"in {goal.m} sessions running"
    by = f", by {day_in_words(goal.date)}" if goal.date else ", without a date"
    yield f"Counted: {goal.k} of {goal.n} tries, {_help(goal.help_at_most, basis)}, {sessions}{by}."
    at = skill.index_of(goal.step)
    yield f"Step {at + 1} of {len(skill.steps)}: {skill.steps[at].text.rstrip('.')}."


def _help(level: str, basis: ReportBasis) -> str:
    if level == "alone":
        return "on their own"
    return f"with this help at most: {level_names_of(basis.caseload).get(level, level)}"


def _known(goal: Goal, basis: ReportBasis) -> SkillLearned | None:
    """What is known of a goal's skill; None before any try, and while it is seen less than before.

    Chances have no place in a letter about a skill that is being lost.
    """
    record = basis.record
    learned = learned_so_far(record.caseload, record.library, record.child, on=record.on)
    found = next((one for one in learned if one.skill.id == goal.skill), None)
    is_open = found is not None and found.belief.tries and found.matter is None
    return found if is_open else None


def _ahead(goal: Goal, known: SkillLearned | None, basis: ReportBasis) -> Iterator[tuple[str, str]]:
    """Whether the criterion is met, and by its date; nothing where nothing is known."""
    if known is not None:
        ahead = goals_ahead(basis.caseload, basis.child, (known,), on=basis.last)
        yield AHEAD, ahead[goal.id].says


def _text(
    goal: Goal,
    chart: TriesChart,
    series: GoalSeries,
    found: GoalMeasures,
    known: SkillLearned | None,
    basis: ReportBasis,
) -> Iterator[str]:
    """The draft: results, the way up to the goal's step, what to expect, gaps."""
    yield from result_sentences(goal, series, found)
    if found.trend is None:
        yield "Not enough seen yet to speak of a trend."
    yield from _on_the_way(chart)
    if known is not None:
        said = chance_in_words(known.steps[goal.step], band_of(basis.child))
        yield f"Alone at the goal's step, from all tries: {said[:1].lower()}{said[1:]}"
    if basis.record.gaps:
        yield from _gaps(chart)


def _on_the_way(chart: TriesChart) -> Iterator[str]:
    """Where the work was while it was on easier steps."""
    steps = [(week, week.step) for week in chart.weeks if week.step is not None]
    easier = [step for week, step in steps if not week.at_aim]
    if not easier:
        return
    low, high = min(easier) + 1, max(easier) + 1
    which = f"step {low}" if low == high else f"steps {low} to {high}"
    weeks = f"{len(easier)} week" if len(easier) == 1 else f"{len(easier)} weeks"
    last, step = steps[-1]
    now = "" if last.at_aim else f"; the last week's was step {step + 1} of {chart.steps}"
    yield f"In {weeks} the work was on {which}, before the goal's{now}."


def _gaps(chart: TriesChart) -> Iterator[str]:
    """Weeks of the chart without tries, by reason."""
    reasons = [
        week.gap for week in chart.weeks if week.gap is not None and not _is_start(week, chart)
    ]
    counts = [(GAPS[gap], reasons.count(gap)) for gap in GAPS if gap in reasons]
    if counts:
        told = ", ".join(f"{words} {n}" for words, n in counts)
        yield f"Weeks without tries, of {len(chart.weeks)} shown: {told}."


def _is_start(week: WeekOfTries, chart: TriesChart) -> bool:
    return chart.start is not None and monday_of(chart.start.date) == week.monday


def _closing(child: Child) -> Iterator[str]:
    yield (
        "Columns are tries by week; a narrow one is a step on the way. Ranges hold in about 8 of "
        "10 cases. No child is compared with another."
    )
    yield f"This report is only about {child.name}."


def _chart_words(goal: Goal, basis: ReportBasis) -> dict[str, str]:
    words = {**summary_words()["en"]["chart"], **CHART_WORDS}
    if goal.help_at_most != "alone" and help_that_counts(goal, basis.caseload):
        words["met"] = "As the goal asks"
        words["helped"] = "With more help"
    return words


def _chart_title(goal: Goal, chart: TriesChart) -> str:
    weeks = [
        f"{week.monday:%B} {week.monday.day}: {week.met} of {week.tries}"
        for week in chart.weeks
        if week.gap is None
    ]
    start = [f"start: {chart.start.k} of {chart.start.n}"] if chart.start else []
    return f"Tries by week for the goal {goal.name}. {'; '.join(start + weeks)}."


def _table(chart: TriesChart, words: dict[str, str]) -> tuple[tuple[str, ...], ...]:
    heads = ("Week of", words["met"], words["helped"], words["not_yet"], "Step")
    return (heads, *(_row(week, chart) for week in chart.weeks))


def _row(week: WeekOfTries, chart: TriesChart) -> tuple[str, ...]:
    day = f"{week.monday.day} {week.monday:%b}"
    if week.gap is not None:
        if chart.start is not None and _is_start(week, chart):
            return (day, f"start: {chart.start.k} of {chart.start.n}", "", "", "")
        return (day, GAPS[week.gap], "", "", "")
    counts = (str(count) if count else "–" for count in (week.helped, week.not_yet))
    return (day, f"{week.met} of {week.tries}", *counts, str((week.step or 0) + 1))
