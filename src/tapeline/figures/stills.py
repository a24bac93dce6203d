"""Pictures of moves: one still, or a strip of three, as standalone ``<svg>`` text."""

from __future__ import annotations

from functools import lru_cache

from tapeline.errors import InputError
from tapeline.figures.body import body_at
from tapeline.figures.look import look_of
from tapeline.figures.move import Frame, Move, Params, Value
from tapeline.figures.moves import MOVES
from tapeline.figures.scene import draw_frame
from tapeline.figures.shapes import ink_line
from tapeline.figures.svg import element, group, picture
from tapeline.figures.tape import tape_group
from tapeline.figures.tokens import INK
from tapeline.figures.view import Camera, Drawing

PX_A_CM = 2.0
MARGIN = 0.025
TAPE_HEIGHT = 0.075
NUMBER_RADIUS = 0.075
GETS_ABOUT = ("on_foot", "splints", "wheelchair")
LANGUAGES = ("en", "es")
NUMERALS = {
    1: [[(-0.22, -0.28), (0.06, -0.5), (0.06, 0.5)]],
    2: [
        [
            (-0.3, -0.24),
            (-0.2, -0.44),
            (0.0, -0.5),
            (0.22, -0.42),
            (0.28, -0.2),
            (0.16, 0.04),
            (-0.3, 0.5),
            (0.32, 0.5),
        ]
    ],
    3: [
        [
            (-0.28, -0.4),
            (0.0, -0.5),
            (0.24, -0.38),
            (0.24, -0.14),
            (0.04, -0.02),
            (0.28, 0.12),
            (0.28, 0.36),
            (0.02, 0.5),
            (-0.3, 0.4),
        ]
    ],
}


def has_move(name: str) -> bool:
    """Whether there is a picture good enough to show for this move."""
    return name in MOVES


def can_draw(name: str, *, gets_about: str = "on_foot") -> bool:
    """Whether a move can be drawn for a child who gets about in this way."""
    return has_move(name) and (
        gets_about in ("on_foot", "splints") or (gets_about == "wheelchair" and MOVES[name].seated)
    )


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
        Parameters of the move in place of its usual ones.
    seed
        Decides skin, hair, clothes and glasses, and nothing else.
    ink
        Greys by what a thing is and an ink outline, to read at 3 cm on paper.
    gets_about
        ``on_foot``, ``splints`` or ``wheelchair``.
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
    chosen = _chosen(move, params, gets_about, language, age_years)
    frame = chosen[1][chosen[0].key]
    return _picture(chosen[0], frame, age_years, seed, ink, gets_about, language, title, floor, 0)


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
    chosen, frames = _chosen(move, params, gets_about, language, age_years)
    drawn = [_drawn(chosen, frame, age_years, seed, ink, gets_about) for frame in frames]
    top = min(min(y for _, y in drawing.corners) for drawing in drawn)
    first, second, third = (
        _framed(
            drawing,
            chosen,
            age_years,
            ink,
            _description(frame, language, None, gets_about),
            floor,
            number,
            top,
        )
        for number, (drawing, frame) in enumerate(zip(drawn, frames, strict=True), start=1)
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
    _, frames = _chosen(move, params, gets_about, language, 5.0)
    return tuple(_description(frame, language, None, gets_about) for frame in frames)


def _picture(
    move: Move,
    frame: Frame,
    age_years: float,
    seed: int,
    ink: bool,
    gets_about: str,
    language: str,
    title: str | None,
    floor: bool,
    number: int,
) -> str:
    drawing = _drawn(move, frame, age_years, seed, ink, gets_about)
    words = _description(frame, language, title, gets_about)
    top = min(y for _, y in drawing.corners)
    return _framed(drawing, move, age_years, ink, words, floor, number, top)


def _drawn(
    move: Move, frame: Frame, age_years: float, seed: int, ink: bool, gets_about: str
) -> Drawing:
    camera = Camera(turn=move.turn, tilt=move.tilt)
    look = look_of(seed, ink=ink, splints=gets_about == "splints")
    drawing, _ = draw_frame(frame, body_at(age_years), look, camera, ink=ink, gets_about=gets_about)
    return drawing


def _framed(
    drawing: Drawing,
    move: Move,
    age_years: float,
    ink: bool,
    title: str,
    floor: bool,
    number: int,
    top: float,
) -> str:
    """The drawing with its floor and number, cut to what it holds."""
    stature = body_at(age_years).stature
    margin = MARGIN * stature
    xs = [x for x, _ in drawing.corners]
    left, right = min(xs) - margin, max(xs) + margin
    bottom = max(max(y for _, y in drawing.corners), 0.0) + margin
    content = drawing.markup()
    if number:
        radius = NUMBER_RADIUS * stature
        left -= radius * (1.2 if _is_free(drawing, left, top, radius) else 2.4)
        content += _number(number, left + radius, top, radius)
        top -= radius
    top -= margin
    if floor:
        content += tape_group(
            move.family,
            length=right - left,
            height=TAPE_HEIGHT * stature,
            ink_only=ink,
            x=left,
            y=bottom,
        )
        bottom += TAPE_HEIGHT * stature
    width, height = right - left, bottom - top
    return picture(
        content,
        width=width * PX_A_CM,
        height=height * PX_A_CM,
        title=title,
        view_box=(left, top, width, height),
    )


def _is_free(drawing: Drawing, left: float, top: float, radius: float) -> bool:
    """Whether a number near the top left corner would lie over nothing."""
    return not any(x < left + radius * 1.2 and y < top + radius * 1.4 for x, y in drawing.corners)


def _number(number: int, x: float, y: float, radius: float) -> str:
    """A disc with its numeral drawn as a line, so that no font is needed."""
    disc = element("circle", cx=x, cy=y, r=radius, fill=INK)
    strokes = "".join(
        ink_line(
            [(x + px * radius, y + py * radius) for px, py in line],
            radius * 0.2,
            colour="#ffffff",
        )
        for line in NUMERALS[number]
    )
    return group(disc + strokes)


def _description(frame: Frame, language: str, title: str | None, gets_about: str) -> str:
    if title is not None:
        return title
    if gets_about == "wheelchair" and frame.from_chair[0]:
        return frame.from_chair[LANGUAGES.index(language)]
    return frame.spanish if language == "es" else frame.english


@lru_cache(maxsize=1)
def _known() -> str:
    return ", ".join(sorted(MOVES))


def _chosen(
    move: str, params: Params | None, gets_about: str, language: str, age_years: float
) -> tuple[Move, tuple[Frame, Frame, Frame]]:
    if move not in MOVES:
        raise InputError(f"There is no picture of “{move}”. Use one of: {_known()}.", field="move")
    chosen = MOVES[move]
    if gets_about not in GETS_ABOUT:
        raise InputError(
            f"No figure is drawn for “{gets_about}”. Use one of: {', '.join(GETS_ABOUT)}.",
            field="gets_about",
        )
    if gets_about == "wheelchair" and not chosen.seated:
        raise InputError(
            f"“{move}” is not drawn from a wheelchair. Leave the picture out.", field="gets_about"
        )
    if language not in LANGUAGES:
        raise InputError(
            f"Pictures are described in en or es, not in “{language}”.", field="language"
        )
    values = {**_with_defaults(chosen, params or {}), "stature_cm": body_at(age_years).stature}
    return chosen, chosen.frames(values)


def _with_defaults(move: Move, params: Params) -> dict[str, Value]:
    for name, value in params.items():
        if name not in move.defaults:
            known = ", ".join(sorted(move.defaults)) or "none"
            raise InputError(
                f"The picture of “{move.name}” has no “{name}”. It has: {known}.", field="params"
            )
        allowed = move.choices.get(name)
        if allowed and value not in allowed:
            raise InputError(
                f"“{value}” is no {name} of “{move.name}”. Use one of: {', '.join(allowed)}.",
                field="params",
            )
        if not allowed and (isinstance(value, str) or value <= 0):
            raise InputError(
                f"The {name} of “{move.name}” is {value}. Give a number above 0.", field="params"
            )
    return {**move.defaults, **params}
