"""The drawn chart: pattern with shade, gaps empty, and the whole in words."""

from __future__ import annotations

import datetime as dt
import re
from xml.etree import ElementTree

import pytest

from tapeline.documents.chart import COLUMN, TALL, TOP, chart_svg
from tapeline.documents.summary import summary_words
from tapeline.progress.chart import AimLine, TriesChart, WeekOfTries

MONDAY = dt.date(2026, 3, 2)
SVG = "{http://www.w3.org/2000/svg}"
WORDS = summary_words()["en"]["chart"]


def drawn(*weeks: WeekOfTries, aim: AimLine | None = None) -> ElementTree.Element:
    chart = TriesChart(weeks=weeks, aim=aim, aim_step=3, steps=7)
    return ElementTree.fromstring(chart_svg(chart, WORDS, title="6 of 8 & more"))


def a_week(number: int = 0, **fields: int) -> WeekOfTries:
    values = {"met": 4, "helped": 3, "not_yet": 1, "step": 3, "at_aim": True, **fields}
    return WeekOfTries(monday=MONDAY + dt.timedelta(weeks=number), **values)


def bars(svg: ElementTree.Element) -> list[ElementTree.Element]:
    """Pieces of columns; those of the legend stand above them."""
    return [one for one in svg.iter(f"{SVG}rect") if float(one.get("y")) >= TOP]


def texts(svg: ElementTree.Element) -> list[str]:
    return [one.text for one in svg.iter(f"{SVG}text")]


def test_a_column_is_as_tall_as_all_its_tries_in_their_shares() -> None:
    heights = [float(one.get("height")) for one in bars(drawn(a_week()))]
    assert sum(heights) == pytest.approx(TALL, abs=0.02)
    assert heights == pytest.approx([TALL / 8, TALL * 3 / 8, TALL / 2], abs=0.02)


def test_how_a_try_went_is_told_by_pattern_and_not_by_shade_alone() -> None:
    svg = drawn(a_week())
    hatch = [one for one in svg.iter(f"{SVG}path") if len(re.findall("H", one.get("d"))) > 3]
    assert len(hatch) == 1
    assert len({one.get("fill") for one in bars(svg)}) == 3


def test_a_gap_draws_nothing_but_keeps_its_place() -> None:
    gap = WeekOfTries(monday=MONDAY + dt.timedelta(weeks=1), gap="away")
    svg = drawn(a_week(0), gap, a_week(2))
    lefts = sorted({float(one.get("x")) for one in bars(svg)})
    assert lefts[1] - lefts[0] == pytest.approx(2 * COLUMN)
    assert "0/0" not in texts(svg)


def test_a_step_on_the_way_is_a_thinner_column() -> None:
    svg = drawn(a_week(0), a_week(1, at_aim=False, step=1))
    assert len({one.get("width") for one in bars(svg)}) == 2


def test_the_number_of_tries_stands_over_each_column() -> None:
    assert "4/8" in texts(drawn(a_week()))


def test_the_aim_is_drawn_and_explained_only_where_there_is_one() -> None:
    aim = AimLine(
        starts=MONDAY, share_at_start=0.2, ends=MONDAY + dt.timedelta(weeks=9), share_aimed_at=0.8
    )
    assert WORDS["aim"] in texts(drawn(a_week(0), a_week(1), aim=aim))
    assert WORDS["aim"] not in texts(drawn(a_week(0), a_week(1)))


def test_the_aim_does_not_begin_before_the_baseline() -> None:
    aim = AimLine(
        starts=MONDAY + dt.timedelta(weeks=50),
        share_at_start=0.2,
        ends=MONDAY + dt.timedelta(weeks=60),
        share_aimed_at=0.8,
    )
    dashed = [one for one in drawn(a_week(), aim=aim).iter(f"{SVG}path") if "L" in one.get("d")]
    assert dashed == []


def test_the_chart_is_told_in_words_and_has_no_style_or_script() -> None:
    svg = drawn(a_week())
    assert svg.find(f"{SVG}title").text == "6 of 8 & more"
    assert svg.get("role") == "img"
    text = ElementTree.tostring(svg, encoding="unicode")
    assert not re.search(r"style|script|class=|id=", text)


def test_no_column_is_wider_than_its_place() -> None:
    assert all(float(one.get("width")) < COLUMN for one in bars(drawn(a_week())))
