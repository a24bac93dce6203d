"""One picture as a child does it who gets about, or sits, in another way."""

from __future__ import annotations

from dataclasses import replace

from tapeline.figures.move import Frame, Thing
from tapeline.figures.pose import Arm, Leg, Place, Pose
from tapeline.figures.walker import holding_frame
from tapeline.figures.wheelchair import SEAT_HIP, seated_in_chair

WAYS = ("on_foot", "splints", "wheelchair", "walking_frame", "chair")
SITTING = ("wheelchair", "chair")
CHAIR_HIP = 0.268
CHAIR = Thing(kind="chair", at=(-0.02, 0.0, 0.0))
TABLE_UP = 0.40
RAISED = SEAT_HIP - CHAIR_HIP
ON_TABLES = (
    "paper",
    "cloth",
    "cup",
    "table",
    "block",
    "bowl",
    "peg_box",
    "tray",
    "card",
    "string",
    "coat",
    "shoe",
    "post",
    "pom",
    "boat",
    "towel_roll",
    "slotted",
    "strip",
)


def done_by(frame: Frame, way: str, *, framed: str, at: tuple[float, float] = (0.0, 0.0)) -> Frame:
    """The frame for one of `WAYS`.

    Parameters
    ----------
    framed
        What the move says of hands on a walking frame: ``both``, ``one`` or nothing.
    at
        Where the child's hips are, in statures; the walking frame stands round them.
    """
    if way == "wheelchair":
        return _in_wheelchair(frame)
    if way == "chair":
        return _on_chair(frame)
    if way == "walking_frame":
        return replace(frame, pose=holding_frame(frame.pose.but(at=at), framed))
    return frame


def _in_wheelchair(frame: Frame) -> Frame:
    things = tuple(thing for thing in frame.things if thing.kind != "chair")
    pose = seated_in_chair(frame.pose)
    if any(thing.kind == "wall" for thing in things):
        return _at_wall(replace(frame, pose=pose, things=things), away=0.08, lower=0.13)
    if frame.pose.hip is None or abs(frame.pose.hip - CHAIR_HIP) > 0.01:
        return replace(frame, pose=pose, things=things)
    arms = {f"{side}_arm": _raised(pose.arm(side)) for side in ("left", "right")}
    return replace(
        frame,
        pose=pose.but(lean=3.0, bend=frame.pose.bend, **arms),
        things=tuple(_raised_thing(thing) for thing in things),
    )


def _raised(arm: Arm) -> Arm:
    """An arm that works on a table, for a table raised to the wheelchair."""
    if arm.to is None:
        return arm
    x, y, z = arm.to
    return replace(arm, to=(x, y, z + RAISED))


def _raised_thing(thing: Thing) -> Thing:
    if thing.kind not in ON_TABLES:
        return thing
    x, y, z = thing.at
    high = (z or TABLE_UP) + RAISED
    return replace(thing, at=(x, y, high))


def _on_chair(frame: Frame) -> Frame:
    pose = frame.pose
    if pose.hip is not None and abs(pose.hip - CHAIR_HIP) < 0.01:
        return frame
    seated = replace(frame, pose=seated_on_chair(pose), things=(*frame.things, CHAIR))
    if any(thing.kind == "wall" for thing in frame.things):
        return _at_wall(seated, away=0.04, lower=0.22)
    return seated


def _at_wall(frame: Frame, *, away: float, lower: float) -> Frame:
    """A picture at a wall for who sits: lower, and far enough for the knees."""

    def moved(place: Place, low: float) -> Place:
        return (place[0] + away, place[1], place[2] - low)

    arms = {
        f"{side}_arm": replace(arm, to=moved(arm.to, lower)) if arm.to else arm
        for side, arm in (("left", frame.pose.left_arm), ("right", frame.pose.right_arm))
    }
    things = tuple(
        replace(thing, at=moved(thing.at, 0.0 if thing.kind == "wall" else lower))
        if thing.kind.startswith("wall")
        else thing
        for thing in frame.things
    )
    pose = frame.pose.but(lean=8.0, bend=10.0, **arms)
    return replace(frame, pose=pose, things=things)


def seated_on_chair(pose: Pose) -> Pose:
    """The pose with the feet flat before a chair; trunk, head and arms keep what they do."""
    return replace(
        pose,
        at=(0.0, 0.0),
        hip=CHAIR_HIP,
        surface=0.0,
        heading=0.0,
        lean=1.0,
        roll=0.0,
        axial=0.0,
        bend=min(max(pose.bend, 2.0), 16.0),
        left_leg=Leg(foot=(0.21, 0.075)),
        right_leg=Leg(foot=(0.21, -0.075)),
        still=False,
    )
