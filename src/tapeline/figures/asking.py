"""What was asked for: a move with its parameters, for whom, checked once."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from tapeline.errors import InputError
from tapeline.figures.body import Body, body_at
from tapeline.figures.move import Frame, Move, Params, Value
from tapeline.figures.moves import MOVES
from tapeline.figures.scene import Cast, cast
from tapeline.figures.ways import SITTING, WAYS

LANGUAGES = ("en", "es")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A move in three pictures for one child."""

    move: Move
    frames: tuple[Frame, Frame, Frame]
    body: Body
    way: str
    adult: str
    language: str

    def casts(self, *, whole: bool = False) -> tuple[Cast, ...]:
        """Everybody of each picture, posed."""
        return tuple(self.cast(frame, whole=whole) for frame in self.frames)

    def cast(self, frame: Frame, *, whole: bool = False) -> Cast:
        """Everybody of one picture, posed.

        Who sends or takes the ball in front is left out where the child holds it, so that
        three pictures stay narrow; `whole` keeps everybody, as a film must.
        """
        is_alone = self.adult == "front" and not whole and _holds(frame)
        return cast(
            frame,
            self.body,
            gets_about=self.way,
            framed=self.move.framed,
            adult="" if is_alone else self.adult,
        )


def _holds(frame: Frame) -> bool:
    arms = (frame.pose.left_arm, frame.pose.right_arm)
    return any(arm.on for arm in arms) or any(ball.in_hand for ball in frame.balls)


def has_move(name: str) -> bool:
    """Whether there is a picture good enough to show for this move."""
    return name in MOVES


def can_draw(name: str, *, gets_about: str = "on_foot") -> bool:
    """Whether a move can be drawn for a child who gets about, or sits, in this way."""
    if not has_move(name) or gets_about not in WAYS:
        return False
    move = MOVES[name]
    if move.only_on_wheels:
        return gets_about == "wheelchair"
    if gets_about in SITTING:
        return move.seated
    if gets_about == "walking_frame":
        return bool(move.framed)
    return True


def ask(
    move: str,
    *,
    params: Params | None = None,
    gets_about: str = "on_foot",
    language: str = "en",
    age_years: float = 5.0,
) -> Asked:
    """The move for one child, or a sentence on what cannot be drawn.

    Raises
    ------
    InputError
        The move, a parameter, the age, the way of getting about or the language is not known,
        or the move cannot be drawn for a child who gets about in this way.
    """
    if move not in MOVES:
        raise InputError(f"There is no picture of “{move}”. Use one of: {_known()}.", field="move")
    chosen = MOVES[move]
    _check_way(chosen, gets_about)
    if language not in LANGUAGES:
        raise InputError(
            f"Pictures are described in en or es, not in “{language}”.", field="language"
        )
    body = body_at(age_years)
    values = _with_defaults(chosen, params or {})
    adult = str(values.pop("adult", "none"))
    return Asked(
        move=chosen,
        frames=chosen.frames({**values, "stature_cm": body.stature}),
        body=body,
        way=gets_about,
        adult="" if adult == "none" else adult,
        language=language,
    )


def _check_way(move: Move, way: str) -> None:
    if way not in WAYS:
        raise InputError(
            f"No figure is drawn for “{way}”. Use one of: {', '.join(WAYS)}.", field="gets_about"
        )
    if not can_draw(move.name, gets_about=way):
        where = {"walking_frame": "with a walking frame", "chair": "from a chair"}
        where["wheelchair"] = "from a wheelchair"
        raise InputError(
            f"“{move.name}” is not drawn {where.get(way, 'on foot')}. Leave the picture out.",
            field="gets_about",
        )


@lru_cache(maxsize=1)
def _known() -> str:
    return ", ".join(sorted(MOVES))


def _with_defaults(move: Move, params: Params) -> dict[str, Value]:
    defaults = {"adult": "none", **move.defaults}
    choices = {"adult": ("none", *move.adults), **move.choices}
    for name, value in params.items():
        if name not in defaults:
            known = ", ".join(sorted(defaults))
            raise InputError(
                f"The picture of “{move.name}” has no “{name}”. It has: {known}.", field="params"
            )
        allowed = choices.get(name)
        if allowed and value not in allowed:
            raise InputError(
                f"“{value}” is no {name} of “{move.name}”. Use one of: {', '.join(allowed)}.",
                field="params",
            )
        if not allowed and (isinstance(value, str) or value <= 0):
            raise InputError(
                f"The {name} of “{move.name}” is {value}. Give a number above 0.", field="params"
            )
    return {**defaults, **params}
