"""What a move is: three pictures, each a pose with the things in it and what moves."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from tapeline.figures.pose import Place, Pose

Value = str | int | float | bool
Params = Mapping[str, Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """A thing thrown, caught or carried.

    Attributes
    ----------
    kind
        ``ball``, ``large_ball``, ``small_ball``, ``light_ball`` or ``beanbag``.
    place
        In statures, from the breastbone notch (`anchor` ``chest``) or in the room (``room``).
    in_hand
        ``left`` or ``right``: it lies in that hand instead, on the side `place` points to.
    """

    kind: str
    place: Place = (0.0, 0.0, 0.0)
    anchor: str = "chest"
    in_hand: str = ""
    behind: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """A prop in the room: its kind, its place in statures and its own numbers.

    Attributes
    ----------
    hold
        ``left``, ``right`` or ``both``: `at` then counts from that palm, or from the middle
        between the palms.
    note
        A word of its own, such as the shape drawn on a paper.
    """

    kind: str
    at: Place = (0.0, 0.0, 0.0)
    to: Place = (0.0, 0.0, 0.0)
    front: bool = False
    hold: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """A second person in the picture.

    Attributes
    ----------
    who
        ``adult`` or ``child``.
    pose
        In the other person's own statures, standing at the origin and looking ahead. An arm's
        `on` may name a ball of the picture or ``child_left_hand``, ``child_right_hand``,
        ``child_left_waist``, ``child_right_waist`` or ``child_back``.
    place, facing
        Where they stand in the child's statures (ahead, left), and degrees turned to the left.
    """

    pose: Pose
    place: tuple[float, float]
    who: str = "adult"
    facing: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """One picture.

    Attributes
    ----------
    others
        Who else is in the picture.
    arrows, flight
        Paths in the room, in statures: an arrow for what moves, dots for what flies.
    english, spanish
        What a reader who cannot see the picture is told; from the pose when empty.
    from_chair
        The same in both languages when the child uses a wheelchair, where the words differ.
    """

    pose: Pose
    english: str = ""
    spanish: str = ""
    from_chair: tuple[str, str] = ("", "")
    balls: tuple[Ball, ...] = ()
    things: tuple[Thing, ...] = ()
    arrows: tuple[tuple[Place, ...], ...] = ()
    flight: tuple[Place, ...] = ()
    others: tuple[Other, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A move in three pictures.

    Attributes
    ----------
    family
        Kind of strip that is its floor.
    turn, tilt
        The camera: degrees from a side view towards the front, degrees from above.
    key
        Which picture stands for the move alone (0, 1 or 2).
    seated
        Whether a child who uses a wheelchair does it from the chair in the same way.
    framed
        What a child with a walking frame does with the hands: ``both`` hold it, ``one`` (the
        left) holds it, or the move is not drawn with a frame (empty).
    only_on_wheels
        Whether it is what wheels do, and is drawn for nobody on foot.
    lens
        Which hand a square beside the child shows larger: ``hands``, ``right``, ``left``, or none.
    adults
        Where a grown-up may be drawn; see `adults`.
    travel
        How far the child comes, in statures, from picture 1 to picture 2 and at each change
        between 2 and 3 after that; for moves whose pictures stand on the spot.
    defaults
        Its parameters with their usual values; the type of a value is the type allowed.
    choices
        Allowed values of a parameter that is one of a few words.
    """

    name: str
    family: str
    frames: Callable[[Params], tuple[Frame, Frame, Frame]]
    turn: float = 20.0
    tilt: float = 9.0
    key: int = 1
    seated: bool = False
    framed: str = ""
    only_on_wheels: bool = False
    lens: str = ""
    adults: tuple[str, ...] = ("beside",)
    travel: tuple[float, float] = (0.0, 0.0)
    defaults: Params = field(default_factory=dict)
    choices: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
