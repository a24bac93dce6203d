"""The tape measure: ticks for minutes, and a session as tape over its ruler."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from tapeline.errors import InputError
from tapeline.figures.svg import element, group, number, picture, text_at
from tapeline.figures.tape import tape_group
from tapeline.figures.tokens import FONT, INK
from tapeline.units import SECONDS_A_MINUTE

TICK, TICK_FIVE, TICK_TEN = 7.0, 10.0, 14.0
NUMBER_SIZE = 14.0
DIGIT = 8.6
RULER_HEIGHT = 34.0
RULER_WIDTH_UPRIGHT = 40.0
SMALLEST_TICK_GAP = 2.5


def ruler_svg(minutes: int, *, length: float, upright: bool = False, title: str = "") -> str:
    """A ruler of `minutes` as a standalone ``<svg>``: one tick a minute.

    Ticks are longer at 5 and longest at 10 minutes, with numbers at every 10 and at the end.
    Ticks closer than 2.5 px leave only those at 5 and 10.

    Raises
    ------
    InputError
        `minutes` or `length` is not above 0.
    """
    content = ruler_group(minutes, length=length, upright=upright, x=1, y=1)
    wide, tall = length + 2, RULER_HEIGHT
    if upright:
        content = ruler_group(minutes, length=length, upright=True, x=0, y=NUMBER_SIZE / 2)
        wide, tall = RULER_WIDTH_UPRIGHT, length + NUMBER_SIZE
    return picture(content, width=wide, height=tall, title=title)


def ruler_group(
    minutes: int, *, length: float, upright: bool = False, x: float = 0.0, y: float = 0.0
) -> str:
    """The same ruler as a ``<g>``; minute 0 stands at (`x`, `y`), upright at the right edge.

    Raises
    ------
    InputError
        `minutes` or `length` is not above 0.
    """
    _check(minutes, length)
    a_minute = length / minutes
    if upright:
        content = _upright_ticks(minutes, a_minute) + _upright_numbers(minutes, a_minute)
    else:
        content = _level_ticks(minutes, a_minute) + _level_numbers(minutes, a_minute)
    return group(content, transform=f"translate({number(x)} {number(y)})")


def session_strip_svg(
    parts: Sequence[tuple[str, int]],
    *,
    length: float = 520.0,
    height: float = 24.0,
    minutes: int | None = None,
    ink_only: bool = False,
    upright: bool = False,
    title: str = "",
) -> str:
    """A session as tape over its ruler.

    Parameters
    ----------
    parts
        (kind of strip, seconds), in order; a course gives one piece per station.
    length
        In px of the whole ruler; `height` is that of the tape.
    minutes
        Length of the ruler; the parts' own total, rounded up, when not given.
    ink_only, upright, title
        As for `tape_svg`.

    Raises
    ------
    InputError
        There is no part, one lasts 0 seconds or less, or they are longer than the ruler.
    """
    whole = _ruler_minutes(parts, minutes)
    pieces = _pieces(parts, length / (whole * SECONDS_A_MINUTE))
    if upright:
        return _upright_session(pieces, whole, length, height, ink_only, title)
    tapes = "".join(
        tape_group(kind, length=size, height=height, ink_only=ink_only, x=1 + at)
        for kind, at, size in pieces
    )
    ruler = ruler_group(whole, length=length, x=1, y=height + 4)
    return picture(tapes + ruler, width=length + 2, height=height + 4 + RULER_HEIGHT, title=title)


def _upright_session(
    pieces: list[tuple[str, float, float]],
    minutes: int,
    length: float,
    height: float,
    ink_only: bool,
    title: str,
) -> str:
    top = NUMBER_SIZE / 2
    left = RULER_WIDTH_UPRIGHT + 4
    tapes = "".join(
        tape_group(
            kind, length=size, height=height, ink_only=ink_only, upright=True, x=left, y=top + at
        )
        for kind, at, size in pieces
    )
    ruler = ruler_group(minutes, length=length, upright=True, y=top)
    return picture(tapes + ruler, width=left + height, height=length + 2 * top, title=title)


def _pieces(parts: Sequence[tuple[str, int]], a_second: float) -> list[tuple[str, float, float]]:
    """Kind, start and length in px; pieces stand 2 px apart where there is room."""
    placed, at = [], 0.0
    for kind, seconds in parts:
        size = seconds * a_second
        gap = min(2.0, size / 4)
        placed.append((kind, at + gap / 2, size - gap))
        at += size
    return placed


def _ruler_minutes(parts: Sequence[tuple[str, int]], minutes: int | None) -> int:
    if not parts:
        raise InputError("The session has no part. Give at least one part.", field="parts")
    for kind, seconds in parts:
        if seconds <= 0:
            raise InputError(
                f"The part “{kind}” lasts {seconds} seconds. Give it more than 0 seconds.",
                field="parts",
            )
    total = ceil(sum(seconds for _, seconds in parts) / SECONDS_A_MINUTE)
    if minutes is not None and minutes < total:
        raise InputError(
            f"The parts last {total} minutes and the ruler shows {minutes}. Make it longer.",
            field="minutes",
        )
    return minutes or total


def _check(minutes: int, length: float) -> None:
    if minutes <= 0:
        raise InputError(
            f"The ruler has {minutes} minutes. Give it 1 minute or more.", field="minutes"
        )
    if not length > 0:
        raise InputError(
            f"The ruler is {length} px long. Give it a length above 0 px.", field="length"
        )


def _tick(minute: int) -> float:
    if minute % 10 == 0:
        return TICK_TEN
    return TICK_FIVE if minute % 5 == 0 else TICK


def _shown_ticks(minutes: int, a_minute: float) -> list[int]:
    step = 1 if a_minute >= SMALLEST_TICK_GAP else 5
    shown = list(range(0, minutes + 1, step))
    return shown if shown[-1] == minutes else [*shown, minutes]


def _numbered(minutes: int, clearance: int) -> list[int]:
    """Every tenth minute that leaves the last number free, and the last."""
    return [minute for minute in range(0, minutes, 10) if minutes - minute > clearance] + [minutes]


def _level_ticks(minutes: int, a_minute: float) -> str:
    ticks = "".join(
        f"M{number(minute * a_minute)} 0V{number(_end_tick(minute, minutes))}"
        for minute in _shown_ticks(minutes, a_minute)
    )
    return _ink_line(f"M0 0H{number(minutes * a_minute)}{ticks}")


def _upright_ticks(minutes: int, a_minute: float) -> str:
    edge = RULER_WIDTH_UPRIGHT - 1
    ticks = "".join(
        f"M{number(edge)} {number(minute * a_minute)}h-{number(_end_tick(minute, minutes))}"
        for minute in _shown_ticks(minutes, a_minute)
    )
    return _ink_line(f"M{number(edge)} 0V{number(minutes * a_minute)}{ticks}")


def _end_tick(minute: int, minutes: int) -> float:
    return TICK_TEN if minute == minutes else _tick(minute)


def _ink_line(path: str) -> str:
    return element("path", d=path, fill="none", stroke=INK, stroke_width=2, stroke_linecap="square")


def _level_numbers(minutes: int, a_minute: float) -> str:
    last = f"{minutes} min"
    clearance = int((len(last) + 2) * DIGIT / a_minute)
    *others, _ = _numbered(minutes, clearance)
    base = TICK_TEN + NUMBER_SIZE + 1
    written = [_level_number(minute, minute * a_minute, base) for minute in others]
    end = text_at(
        minutes * a_minute, base, last, size=NUMBER_SIZE, fill=INK, font=FONT, anchor="end"
    )
    return "".join(written) + end


def _level_number(minute: int, x: float, base: float) -> str:
    anchor = "start" if minute == 0 else "middle"
    return text_at(x, base, str(minute), size=NUMBER_SIZE, fill=INK, font=FONT, anchor=anchor)


def _upright_numbers(minutes: int, a_minute: float) -> str:
    clearance = int(NUMBER_SIZE * 1.2 / a_minute)
    right = RULER_WIDTH_UPRIGHT - TICK_TEN - 5
    return "".join(
        text_at(
            right,
            minute * a_minute + NUMBER_SIZE * 0.35,
            str(minute),
            size=NUMBER_SIZE,
            fill=INK,
            font=FONT,
            anchor="end",
        )
        for minute in _numbered(minutes, clearance)
    )
