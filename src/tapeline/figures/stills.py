"""Pictures of moves: one still, or a strip of three, as standalone ``<svg>`` text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tapeline.figures.asking import Asked, ask, can_draw, has_move
from tapeline.figures.lens import LENS_CAMERA, draw_lens
from tapeline.figures.look import look_of
from tapeline.figures.move import Params
from tapeline.figures.numerals import number_disc
from tapeline.figures.scene import Cast, draw_cast, draw_close
from tapeline.figures.shapes import Point
from tapeline.figures.svg import picture
from tapeline.figures.tape import tape_group
from tapeline.figures.view import Camera, Drawing
from tapeline.figures.words import words_of

__all__ = ["PX_A_CM", "can_draw", "describe", "has_move", "still_svg", "strip_of_three"]

PX_A_CM = 2.0
MARGIN = 0.025
TAPE_HEIGHT = 0.075
NUMBER_RADIUS = 0.075


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How pictures look: whose look, in greys or not, with the tape as floor or not."""

    seed: int
    ink: bool
    floor: bool


def still_svg(
    move: str,
    *,
    age_years: float = 5.0,
    params: Params | None = None,
    seed: int = 0,
    ink: bool = False,
    gets_about: str = "on_foot",
    language: str = "en",
    title: str | None = None,
    floor: bool = True,
) -> str:
    """The picture that stands for a move.

    Parameters
    ----------
    move
        A name of `MOVES`.
    age_years
        Body proportions and height; 1 cm of the child is 2 px at every age.
    params
        Parameters of the move in place of its usual ones. Every move has ``adult``: where a
        grown-up is drawn, a name of `adults.ROLES` or ``none``.
    seed
        Decides skin, hair, clothes and glasses, and nothing else.
    ink
        Greys by what a thing is and an ink outline, to read at 3 cm on paper.
    gets_about
        ``on_foot``, ``splints``, ``wheelchair``, ``walking_frame``, or ``chair`` for who does
        it sitting on a chair.
    language, title
        Language of the picture's own description, or another description.
    floor
        Whether the family's tape is drawn as the floor.

    Raises
    ------
    InputError
        The move, a parameter, the age, the way of getting about or the language is not known,
        or the move cannot be drawn for a child who gets about in this way.
    """
    asked = ask(move, params=params, gets_about=gets_about, language=language, age_years=age_years)
    shown = Shown(seed=seed, ink=ink, floor=floor)
    found = asked.cast(asked.frames[asked.move.key])
    drawing = _with_lens(asked, found, shown)
    words = title if title is not None else words_of(asked, found, asked.frames[asked.move.key])
    return framed(drawing, asked, shown, words)


def strip_of_three(
    move: str,
    *,
    age_years: float = 5.0,
    params: Params | None = None,
    seed: int = 0,
    ink: bool = False,
    gets_about: str = "on_foot",
    language: str = "en",
    floor: bool = True,
) -> tuple[str, str, str]:
    """A move in three numbered pictures of one height, the same child in each.

    Parameters and errors are those of `still_svg`.
    """
    asked = ask(move, params=params, gets_about=gets_about, language=language, age_years=age_years)
    shown = Shown(seed=seed, ink=ink, floor=floor)
    casts = asked.casts()
    drawn = [_with_lens(asked, found, shown) for found in casts]
    top = min(min(y for _, y in drawing.corners) for drawing in drawn)
    first, second, third = (
        framed(drawing, asked, shown, words_of(asked, found, frame), number=number, top=top)
        for number, (drawing, found, frame) in enumerate(
            zip(drawn, casts, asked.frames, strict=True), start=1
        )
    )
    return first, second, third


def describe(
    move: str,
    *,
    params: Params | None = None,
    gets_about: str = "on_foot",
    language: str = "en",
) -> tuple[str, ...]:
    """What each of the three pictures shows, for a reader who cannot see them.

    Raises
    ------
    InputError
        As for `still_svg`.
    """
    asked = ask(move, params=params, gets_about=gets_about, language=language)
    return tuple(words_of(asked, asked.cast(frame), frame) for frame in asked.frames)


def drawing_of(asked: Asked, found: Cast, shown: Shown, *, still: bool = True) -> Drawing:
    """Everybody of one picture, not yet cut to its edges and without a closer view."""
    camera = Camera(turn=asked.move.turn, tilt=asked.move.tilt)
    look = look_of(shown.seed, ink=shown.ink, splints=asked.way == "splints")
    return draw_cast(found, look, camera, ink=shown.ink, seed=shown.seed, still=still)


def add_lens(
    drawing: Drawing,
    asked: Asked,
    found: Cast,
    shown: Shown,
    *,
    beside: Iterable[Point] | None = None,
) -> None:
    """The closer view of the hands, where the move has one; `beside` as for `draw_lens`."""
    if asked.move.lens:
        closer = draw_close(found, look_of(shown.seed, ink=shown.ink), LENS_CAMERA, ink=shown.ink)
        draw_lens(drawing, closer, asked.move.lens, found.child, beside=beside)


def _with_lens(asked: Asked, found: Cast, shown: Shown) -> Drawing:
    drawing = drawing_of(asked, found, shown)
    add_lens(drawing, asked, found, shown)
    return drawing


def framed(
    drawing: Drawing,
    asked: Asked,
    shown: Shown,
    title: str,
    *,
    number: int = 0,
    top: float | None = None,
) -> str:
    """The drawing with its floor and number, cut to what it holds."""
    stature = asked.body.stature
    margin = MARGIN * stature
    xs = [x for x, _ in drawing.corners]
    left, right = min(xs) - margin, max(xs) + margin
    bottom = max(max(y for _, y in drawing.corners), 0.0) + margin
    high = min(y for _, y in drawing.corners) if top is None else top
    content = drawing.markup()
    if number:
        radius = NUMBER_RADIUS * stature
        left -= radius * (1.2 if _is_free(drawing, left, high, radius) else 2.4)
        content += number_disc(number, left + radius, high, radius)
        high -= radius
    high -= margin
    if shown.floor:
        content += tape_group(
            asked.move.family,
            length=right - left,
            height=TAPE_HEIGHT * stature,
            ink_only=shown.ink,
            x=left,
            y=bottom,
        )
        bottom += TAPE_HEIGHT * stature
    width, height = right - left, bottom - high
    return picture(
        content,
        width=width * PX_A_CM,
        height=height * PX_A_CM,
        title=title,
        view_box=(left, high, width, height),
    )


def _is_free(drawing: Drawing, left: float, top: float, radius: float) -> bool:
    """Whether a number near the top left corner would lie over nothing."""
    return not any(x < left + radius * 1.2 and y < top + radius * 1.4 for x, y in drawing.corners)
