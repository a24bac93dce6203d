"""The family summary: one page for one home about its own child, as finished words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import yaml

from tapeline.documents.chart import chart_or_nothing
from tapeline.documents.pictures import marks, tapes
from tapeline.documents.sheets import print_sheet
from tapeline.documents.typesetting import documents_folder
from tapeline.progress.chart import TriesChart


@dataclass(frozen=True, kw_only=True)
class SummaryGoal:
    """One goal as a family reads it.

    `lines` are sentences, `table` the same numbers as the chart (first row: the heads).
    """

    tape: str
    name: str
    lines: tuple[str, ...]
    notice: str
    chart: TriesChart | None
    chart_units: float
    chart_title: str
    chart_words: dict[str, str]
    table_title: str
    table: tuple[tuple[str, ...], ...]

    @property
    def svg(self) -> str:
        """The chart as SVG, or nothing where nothing was counted."""
        return chart_or_nothing(self.chart, self.chart_words, title=self.chart_title)


@dataclass(frozen=True, kw_only=True)
class FamilySummary:
    """All that is on the page, in the language of the home; about one child alone."""

    title: str
    mark: str
    mark_words: str
    language: str
    opening: tuple[str, ...]
    goals: tuple[SummaryGoal, ...]
    notes: tuple[str, ...]
    closing: tuple[str, ...]
    therapist: str
    to_be_read: str
    day: str
    paper: str
    is_invented: bool


@cache
def summary_words() -> dict[str, Any]:
    """What stands on a summary, by language."""
    text = (documents_folder() / "summary_words.yaml").read_text(encoding="utf-8")
    found: dict[str, Any] = yaml.safe_load(text)
    return found


def print_summary(summary: FamilySummary) -> bytes:
    """The page as one tagged PDF.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    drawings = {f"mark-{name}": svg for name, svg in marks().items()}
    drawings |= {f"tape-{name}": svg for name, svg in tapes().items() if name.endswith("-short")}
    for number, goal in enumerate(summary.goals):
        if goal.svg:
            drawings[f"chart-{number}"] = goal.svg
    without_charts = replace(
        summary, goals=tuple(replace(goal, chart=None) for goal in summary.goals)
    )
    return print_sheet(
        "summary.typ", without_charts, drawings, day=summary.day, more={"has": list(drawings)}
    )
