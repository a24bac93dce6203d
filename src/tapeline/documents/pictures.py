"""Figures, tape and marks as pictures with words for who cannot see them."""

from __future__ import annotations

import re
from functools import lru_cache

from tapeline.documents.packet import Drawing, Figure
from tapeline.errors import InputError
from tapeline.figures.body import body_at, stature_at
from tapeline.figures.marks import MARKS, mark_svg
from tapeline.figures.ruler import session_strip_svg
from tapeline.figures.stills import PX_A_CM, can_draw, describe, strip_of_three
from tapeline.figures.tape import tape_svg
from tapeline.figures.tokens import TAPES

CHILD_MM = 31.0
SIZE = re.compile(r'width="([\d.]+)" height="([\d.]+)"')
TAPE_LENGTHS = {"piece": 90.0, "short": 170.0, "long": 700.0}
KEPT_STRIPS = 512


def can_show(figure: Figure) -> bool:
    """Whether there is a picture that is right for this move, its parameters and this child.

    A move, a parameter, an age or a way of getting about that no picture fits is no fault:
    the page does without.
    """
    if not can_draw(figure.move, gets_about=figure.gets_about):
        return False
    try:
        describe(figure.move, params=figure.parameters, language=figure.language)
        body_at(figure.age_years)
    except InputError:
        return False
    return True


def three_pictures(figure: Figure) -> tuple[Drawing, ...]:
    """The move in three pictures, in greys with an ink outline."""
    return _three(
        figure.move,
        tuple(sorted(figure.parameters.items())),
        figure.age_years,
        figure.gets_about,
        figure.seed,
        figure.language,
    )


@lru_cache(maxsize=KEPT_STRIPS)
def _three(
    move: str,
    parameters: tuple[tuple[str, int | str], ...],
    age_years: float,
    gets_about: str,
    seed: int,
    language: str,
) -> tuple[Drawing, ...]:
    strip = strip_of_three(
        move,
        age_years=age_years,
        params=dict(parameters),
        seed=seed,
        ink=True,
        gets_about=gets_about,
        language=language,
    )
    return tuple(Drawing(svg=svg, alt=_title_of(svg)) for svg in strip)


def _title_of(svg: str) -> str:
    return svg.split("<title>", 1)[1].split("</title>", 1)[0]


@lru_cache(maxsize=1)
def tapes() -> dict[str, str]:
    """Every strip in ink, by kind and length, such as ``balance-short``."""
    return {
        f"{kind}-{name}": tape_svg(kind, length=length, ink_only=True)
        for kind in TAPES
        for name, length in TAPE_LENGTHS.items()
    }


@lru_cache(maxsize=1)
def marks() -> dict[str, str]:
    """Every mark in ink, by name."""
    return {name: mark_svg(name) for name in MARKS}


def mark_words(language: str) -> dict[str, str]:
    """What each mark is called."""
    return {
        name: mark.spanish if language == "es" else mark.english for name, mark in MARKS.items()
    }


def session_tape(parts: tuple[tuple[str, int], ...], *, minutes: int) -> str:
    """The whole session as tape over its ruler, in ink."""
    return session_strip_svg(parts, length=700, height=26, minutes=minutes, ink_only=True)


def millimetres(picture: Drawing, figure: Figure) -> dict[str, float]:
    """Width and height on paper at which a child of this figure's age stands 31 mm tall."""
    a_pixel = CHILD_MM / (PX_A_CM * stature_at(figure.age_years))
    found = SIZE.search(picture.svg)
    if found is None:
        raise ValueError("A picture has no width and height.")
    wide, tall = (float(size) for size in found.groups())
    return {"width_mm": wide * a_pixel, "height_mm": tall * a_pixel}
