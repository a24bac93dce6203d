"""The chart of tries by week, in ink: pattern with shade, gaps as gaps, no script, no colour."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from tapeline.figures.svg import element, picture, text_at
from tapeline.figures.tokens import EDGE, FONT, INK, SOFT, WHITE
from tapeline.progress.chart import TriesChart, WeekOfTries

COLUMN = 42.0
LEFT = 44.0
TOP = 84.0
TALL = 118.0
BELOW = 50.0
WIDE_BAR = 34.0
NARROW_BAR = 18.0
SHADE = "#d8d3c8"
SIZE = 18.0
LEGEND_ROW = 26.0
FEWEST_COLUMNS = 7
FEWEST_WITH_START = 13
DIAMOND = 9.0


def chart_svg(chart: TriesChart, words: Mapping[str, str], *, title: str) -> str:
    """The chart as a standalone ``<svg>``.

    Parameters
    ----------
    words
        What the legend and the axis say: ``met``, ``helped``, ``not_yet``, ``aim``,
        ``all``, ``none``, ``months`` (twelve short names, with spaces between); where the
        baseline is shown, ``start`` and ``began``.
    title
        Read aloud; the whole chart in words.

    Notes
    -----
    A column is as tall as all tries of its week, whatever their number; the table beside
    says how many. Wide columns are tries at the goal's step or a harder one, narrow ones at
    a step on the way.
    """
    width = units_wide(chart)
    height = TOP + TALL + BELOW
    content = _legend(chart, words) + _axis(width, words)
    for number, week in enumerate(chart.weeks):
        before = chart.weeks[number - 1].monday if number else None
        content += _column(week, _middle(number), words, before)
    content += _aim(chart) + _start(chart)
    return picture(content, width=width, height=height, title=title)


def chart_or_nothing(chart: TriesChart | None, words: Mapping[str, str], *, title: str) -> str:
    """The chart as SVG, or nothing where nothing was counted."""
    return "" if chart is None else chart_svg(chart, words, title=title)


def units_wide(chart: TriesChart) -> float:
    """Breadth of the drawing in its own units."""
    fewest = FEWEST_COLUMNS if chart.start_week is None else FEWEST_WITH_START
    return LEFT + COLUMN * max(len(chart.weeks), fewest) + 8


def _middle(number: int) -> float:
    return LEFT + COLUMN * (number + 0.5)


def _y(share: float) -> float:
    return TOP + TALL * (1 - share)


def _axis(width: float, words: Mapping[str, str]) -> str:
    lines = "".join(
        element(
            "path",
            d=f"M{LEFT} {_y(share)}H{width - 8}",
            stroke=INK if share == 0 else EDGE,
            stroke_width=2 if share == 0 else 1,
            stroke_dasharray=None if share in (0, 1) else "2 4",
        )
        for share in (0, 0.5, 1)
    )
    said = "".join(
        _text(LEFT - 6, _y(share) + 5, words[name], anchor="end")
        for share, name in ((1, "all"), (0, "none"))
    )
    return lines + said


def _column(week: WeekOfTries, x: float, words: Mapping[str, str], before: dt.date | None) -> str:
    months = words["months"].split()
    day = _text(x, TOP + TALL + 20, str(week.monday.day))
    if before is None or before.month != week.monday.month:
        day += _text(x, TOP + TALL + 40, months[week.monday.month - 1], fill=SOFT)
    return (_bar(week, x) if week.gap is None else "") + day


def _bar(week: WeekOfTries, x: float) -> str:
    wide = WIDE_BAR if week.at_aim else NARROW_BAR
    left = x - wide / 2
    shares = [count / week.tries for count in (week.met, week.helped, week.not_yet)]
    met, helped = shares[0], shares[0] + shares[1]
    return (
        _piece(left, wide, 1.0, helped, WHITE)
        + _piece(left, wide, helped, met, SHADE)
        + _hatch(left, wide, helped, met)
        + _piece(left, wide, met, 0.0, INK)
        + _text(x, TOP - 7, f"{week.met}/{week.tries}")
    )


def _piece(left: float, wide: float, upper: float, lower: float, fill: str) -> str:
    if upper <= lower:
        return ""
    return element(
        "rect",
        x=left,
        y=_y(upper),
        width=wide,
        height=_y(lower) - _y(upper),
        fill=fill,
        stroke=INK,
        stroke_width=1.5,
    )


def _hatch(left: float, wide: float, upper: float, lower: float) -> str:
    """Lines across a piece: the pattern that still shows on a black-and-white copy."""
    lines = ""
    y = _y(upper) + 5
    while y < _y(lower) - 1:
        lines += f"M{left:g} {y:g}H{left + wide:g}"
        y += 6
    return element("path", d=lines, stroke=INK, stroke_width=1.5) if lines else ""


def _aim(chart: TriesChart) -> str:
    if chart.aim is None or not chart.weeks:
        return ""
    first = chart.weeks[0].monday
    points = []
    for number in range(len(chart.weeks)):
        day = first + dt.timedelta(days=7 * number)
        if chart.aim.starts <= day + dt.timedelta(days=6):
            points.append((_middle(number), _y(chart.aim.share_on(day))))
    if not points:
        return ""
    path = "M" + "L".join(f"{x:g} {y:g}" for x, y in points)
    rim = element("path", d=path, stroke=WHITE, stroke_width=6, fill="none")
    return rim + element(
        "path", d=path, stroke=SOFT, stroke_width=3, stroke_dasharray="9 6", fill="none"
    )


def _start(chart: TriesChart) -> str:
    """The baseline as a diamond, and a line across after its week: there the work began."""
    at = chart.start_week
    if at is None or chart.start is None:
        return ""
    share = min(1.0, chart.start.k / chart.start.n)
    x, y = _middle(at), _y(share)
    said = f"{chart.start.k}/{chart.start.n}"
    number = _text(x, TOP - 7, said) if chart.weeks[at].gap is not None else ""
    return _began(_middle(at) + COLUMN / 2, TOP - 4, TOP + TALL) + _diamond(x, y) + number


def _began(x: float, top: float, bottom: float) -> str:
    return element("path", d=f"M{x} {top}V{bottom}", stroke=INK, stroke_width=2.5)


def _diamond(x: float, y: float) -> str:
    path = f"M{x} {y - DIAMOND}L{x + DIAMOND} {y}L{x} {y + DIAMOND}L{x - DIAMOND} {y}Z"
    return element("path", d=path, fill=WHITE, stroke=INK, stroke_width=2.5)


def _legend(chart: TriesChart, words: Mapping[str, str]) -> str:
    """Two rows above: what a filled, a hatched, an empty piece and the dashed line mean."""
    swatches = (
        _swatch(0, 0, INK) + _label(0, 0, words["met"]),
        _swatch(1, 0, SHADE) + _label(1, 0, words["helped"]),
        _swatch(0, 1, WHITE) + _label(0, 1, words["not_yet"]),
    )
    said = "".join(swatches) + _legend_of_start(chart, words)
    if chart.aim is None:
        return said
    x, y = _legend_at(1, 1)
    dash = element(
        "path",
        d=f"M{x} {y - 5}H{x + 22}",
        stroke=SOFT,
        stroke_width=3,
        stroke_dasharray="9 4",
    )
    return said + dash + _label(1, 1, words["aim"])


def _legend_of_start(chart: TriesChart, words: Mapping[str, str]) -> str:
    if chart.start_week is None:
        return ""
    (x, y), (x2, y2) = _legend_at(2, 0), _legend_at(2, 1)
    diamond, line = _diamond(x + 11, y - 6), _began(x2 + 11, y2 - 15, y2 + 3)
    return diamond + line + _label(2, 0, words["start"]) + _label(2, 1, words["began"])


def _legend_at(column: int, row: int) -> tuple[float, float]:
    return 4 + 196.0 * column, 18 + LEGEND_ROW * row


def _swatch(column: int, row: int, fill: str) -> str:
    x, y = _legend_at(column, row)
    box = element(
        "rect", x=x, y=y - 13, width=20, height=15, fill=fill, stroke=INK, stroke_width=1.5
    )
    if fill != SHADE:
        return box
    lines = element("path", d=f"M{x} {y - 9}h20M{x} {y - 3}h20", stroke=INK, stroke_width=1.5)
    return box + lines


def _label(column: int, row: int, words: str) -> str:
    x, y = _legend_at(column, row)
    return _text(x + 28, y, words, anchor="start")


def _text(x: float, y: float, words: str, *, anchor: str = "middle", fill: str = INK) -> str:
    return text_at(x, y, words, size=SIZE, fill=fill, font=FONT, anchor=anchor)
