"""A progress report for a team: one page for each goal, as finished words and a chart."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace

from tapeline.documents.chart import chart_or_nothing, units_wide
from tapeline.documents.pictures import tapes
from tapeline.documents.sheets import print_sheet
from tapeline.progress.chart import TriesChart


@dataclass(frozen=True, kw_only=True)
class ReportGoal:
    """One goal as a team reads it.

    `text` are the report's own sentences, which she may change; `figures` say what was
    computed, each with a word in front of it; `limits` what these figures cannot say. `table`
    holds the same numbers as the chart (first row: the heads).
    """

    id: str
    tape: str
    name: str
    aim: tuple[str, ...]
    text: tuple[str, ...]
    figures: tuple[tuple[str, str], ...]
    limits: tuple[str, ...]
    chart: TriesChart | None
    chart_title: str
    chart_words: dict[str, str]
    table_title: str
    table: tuple[tuple[str, ...], ...]

    @property
    def svg(self) -> str:
        """The chart as SVG, or nothing where nothing was counted."""
        return chart_or_nothing(self.chart, self.chart_words, title=self.chart_title)

    @property
    def text_lines(self) -> str:
        """The sentences, one a line."""
        return "\n".join(self.text)

    def written(self, text: str) -> ReportGoal:
        """The same goal with what she wrote, one sentence a line."""
        lines = (" ".join(line.split()) for line in text.splitlines())
        return replace(self, text=tuple(line for line in lines if line))


@dataclass(frozen=True, kw_only=True)
class ProgressReport:
    """All that is in the report; about one child alone. `signed` says by whom, or by nobody."""

    title: str
    name: str
    first: dt.date
    period: str
    came: tuple[str, ...]
    goals: tuple[ReportGoal, ...]
    closing: tuple[str, ...]
    therapist: str
    signed: str
    day: str
    paper: str
    is_invented: bool

    def written(self, texts: Mapping[str, str]) -> ProgressReport:
        """The same report with her own text for some goals, by id."""
        goals = (goal.written(texts[goal.id]) if goal.id in texts else goal for goal in self.goals)
        return replace(self, goals=tuple(goals))


def print_progress_report(report: ProgressReport) -> bytes:
    """The report as one tagged PDF, a page for each goal.

    Raises
    ------
    MissingComponent
        typst is not installed.
    InputError
        A name or a text holds a letter that the paper's font does not have.
    """
    drawings = {f"tape-{name}": svg for name, svg in tapes().items() if name.endswith("-short")}
    drawings |= {f"chart-{at}": goal.svg for at, goal in enumerate(report.goals) if goal.svg}
    units = [units_wide(goal.chart) if goal.chart else 0 for goal in report.goals]
    without_charts = replace(
        report, goals=tuple(replace(goal, chart=None) for goal in report.goals)
    )
    more = {"has": list(drawings), "chart_units": units, "first": report.first.isoformat()}
    return print_sheet("progress.typ", without_charts, drawings, day=report.day, more=more)
