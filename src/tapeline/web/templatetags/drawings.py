"""Tape, rulers, marks and step scales, drawn straight into a page."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from tapeline.figures.marks import MARKS, mark_svg
from tapeline.figures.ruler import session_strip_svg
from tapeline.figures.tape import tape_group, tape_svg
from tapeline.figures.tokens import EDGE, INK, TAPES
from tapeline.web.selectors.drawn import Drawn

register = template.Library()
COLOURS = tuple(tape.mark for tape in TAPES.values())
WORD_MARK_WIDTH = 104
SCALE_GAP = 12
PICTURE_GAP = 12.0
SIZE = re.compile(r'width="([\d.]+)" height="([\d.]+)"')
CLOCK_TAPE = (640, 40)
PHONE_LENGTH = 252  # fits beside the tape corners of this week at 320 px


@register.simple_tag
@cache
def tape(kind: str, length: int, height: int = 24, title: str = "") -> SafeString:
    """A strip of tape for a skill family or a part without a skill."""
    return mark_safe(tape_svg(kind, length=length, height=height, title=title))


@register.simple_tag
@cache
def tape_upright(kind: str, length: int, height: int = 20) -> SafeString:
    """The same strip running down the page."""
    return mark_safe(tape_svg(kind, length=length, height=height, upright=True))


@register.simple_tag
def session_tape(
    parts: Sequence[tuple[str, int]], minutes: int, length: int = 640, title: str = ""
) -> SafeString:
    """A session as tape over its ruler, drawn for a desk and again for a phone.

    A drawing that shrinks with the page would shrink its numbers too, so each width has its own
    and the style sheet shows one of them.
    """
    sizes = (("for-desk", length), ("for-phone", PHONE_LENGTH))
    return mark_safe(
        "".join(
            f'<div class="{shown}">'
            f"{session_strip_svg(parts, length=size, minutes=minutes, title=title)}</div>"
            for shown, size in sizes
        )
    )


@register.simple_tag
@cache
def mark(name: str, size: int = 34, title: str = "") -> SafeString:
    """A child's mark in its own colour; nothing for a child without one."""
    if name not in MARKS:
        return mark_safe("")
    colour = COLOURS[list(MARKS).index(name) % len(COLOURS)]
    return mark_safe(mark_svg(name, size=size, colour=colour, title=title))


@register.simple_tag
@cache
def step_scale(place: int, count: int, title: str) -> SafeString:
    """A short scale of a skill's steps; the thick tick is this one (`place` from 0)."""
    width = SCALE_GAP * (count - 1) + 8
    ticks = "".join(_tick(4 + SCALE_GAP * at, at == place) for at in range(count))
    return mark_safe(
        f'<svg class="step-scale" xmlns="http://www.w3.org/2000/svg" width="{width}" height="24"'
        f' viewBox="0 0 {width} 24" role="img"><title>{escape(title)}</title>'
        f'<path d="M2 20H{width - 2}" stroke="{INK}" stroke-width="2"/>{ticks}</svg>'
    )


def _tick(x: int, is_here: bool) -> str:
    if is_here:
        return f'<rect x="{x - 3.5}" y="2" width="7" height="18" fill="{INK}"/>'
    return f'<path d="M{x} 12V20" stroke="{INK}" stroke-width="2"/>'


@register.simple_tag
@cache
def strip(drawn: Drawn) -> SafeString:
    """Three pictures of a move as its words say it, or nothing where none is good enough."""
    from tapeline.figures.stills import has_move, strip_of_three

    move, parameters, way = drawn
    if not has_move(move):
        return mark_safe("")
    return mark_safe(_side_by_side(strip_of_three(move, params=dict(parameters), gets_about=way)))


def _side_by_side(pictures: Sequence[str]) -> str:
    """Pictures on one floor at one scale, so that a child is as tall in each."""
    sizes = [(float(wide), float(tall)) for wide, tall in map(_size_of, pictures)]
    height = max(tall for _, tall in sizes)
    placed, x = [], 0.0
    for picture, (wide, tall) in zip(pictures, sizes, strict=True):
        placed.append(picture.replace("<svg ", f'<svg x="{x:.1f}" y="{height - tall:.1f}" ', 1))
        x += wide + PICTURE_GAP
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {x - PICTURE_GAP:.1f} {height:.1f}"'
        f' width="{(x - PICTURE_GAP) / 2:.0f}" height="{height / 2:.0f}">{"".join(placed)}</svg>'
    )


def _size_of(picture: str) -> tuple[str, str]:
    found = SIZE.search(picture)
    if found is None:
        raise ValueError("A picture without a size.")
    return found[1], found[2]


@register.simple_tag
@cache
def still(drawn: Drawn) -> SafeString:
    """One picture of a move as its words say it, or nothing where none is good enough."""
    from tapeline.figures.stills import has_move, still_svg

    move, parameters, way = drawn
    if not has_move(move):
        return mark_safe("")
    return mark_safe(still_svg(move, params=dict(parameters), gets_about=way, floor=False))


@register.simple_tag
def loop_address(drawn: Drawn) -> str:
    """Where the moving picture of a move is found."""
    from tapeline.web.pages.moving import loop_address as address

    return address(drawn)


@register.simple_tag
@cache
def clock_tape(kind: str, minutes: int) -> SafeString:
    """A part's tape on its dashed bed over a ruler; a script shortens the inner ``<svg>``."""
    length, height = CLOCK_TAPE
    bed = (
        f'<rect x="1" y="1" width="{length - 2}" height="{height - 2}" fill="none"'
        f' stroke="{EDGE}" stroke-width="1.5" stroke-dasharray="3 6"/>'
    )
    return mark_safe(
        f'<svg class="clock-tape" xmlns="http://www.w3.org/2000/svg" aria-hidden="true"'
        f' preserveAspectRatio="xMinYMin"'
        f' viewBox="0 0 {length} {height + 18}" width="{length}" height="{height + 18}">{bed}'
        f'<svg class="tape-left" width="{length}" height="{height}">'
        f"{tape_group(kind, length=length, height=height)}</svg>"
        f'<path d="M1 {height + 4}H{length - 1}{_minute_ticks(minutes, length, height + 4)}"'
        f' stroke="{INK}" stroke-width="2"/></svg>'
    )


def _minute_ticks(minutes: int, length: int, top: int) -> str:
    """One tick a minute, longer at 5 and at 10, as on every ruler."""
    return "".join(
        f"M{1 + (length - 2) * at / minutes:.1f} {top}v{14 if at % 10 == 0 else 10 if at % 5 == 0 else 7}"
        for at in range(minutes + 1)
    )


@register.simple_tag
@cache
def word_mark() -> SafeString:
    """The name on a short ruler."""
    ticks = "".join(
        f'<path d="M{1 + at * 10.2:.1f} 30V{40 if at % 5 == 0 else 36}" stroke="{INK}"'
        ' stroke-width="1.8"/>'
        for at in range(11)
    )
    return mark_safe(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WORD_MARK_WIDTH}" height="42"'
        f' viewBox="0 0 {WORD_MARK_WIDTH} 42" role="img"><title>tapeline</title>'
        f'<text x="0" y="23" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="27"'
        f' font-weight="700" fill="{INK}">tapeline</text>'
        f'<path d="M0 31H{WORD_MARK_WIDTH}" stroke="{INK}" stroke-width="2"/>{ticks}</svg>'
    )
