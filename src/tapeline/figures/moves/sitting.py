"""Games on a chair or the floor: drums, rowing, reaching for the other knee, pressing, rocking."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import (
    AT_TABLE,
    CROSSED,
    FLOOR,
    LOW,
    OUT,
    SIT,
    STAND,
    TABLE,
    Three,
    frame,
    pair,
    sides,
    to,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.ways import CHAIR

BOTH, HELLO = "bilateral_coordination", "arrival_closing"


def beat(params: Params) -> Three:
    """Both hands up and down together, one and then the other, or each on the far side."""
    kind, way = word(params, "object"), word(params, "way")
    top = {"drum": 0.36, "legs": 0.315, "table": 0.425}[kind]
    ahead, aside = {"drum": (0.34, 0.16), "legs": (0.16, 0.08), "table": (0.32, 0.12)}[kind]
    things = [CHAIR]
    if kind == "drum":
        things += [Thing(kind="drum", at=(0.36, side * 0.17, 0.34)) for side in (1, -1)]
    if kind == "table":
        things.append(TABLE)
    base = AT_TABLE.but(nod=14) if kind == "table" else SIT
    cross = -0.4 if way == "across" else 1.0

    def shot(left: bool, right: bool) -> Frame:
        def hand(side: int, is_down: bool) -> Arm:
            high = top + (0.015 if is_down else 0.17)
            where = to(ahead - (0.0 if is_down else 0.05), side * cross * aside, high, shape="flat")
            return replace(where, pole=(-0.4, 0.7, -1.0)) if cross > 0 else where

        pose = base.but(left_arm=hand(1, left), right_arm=hand(-1, right))
        return frame(pose, *things)

    if way == "together":
        rest = shot(False, False)
        high = base.but(nod=2, **pair(max(ahead - 0.08, 0.17), aside, top + 0.24))
        return rest, shot(True, True), replace(rest, pose=high)
    return shot(False, True), shot(True, False), shot(False, False)


def tap_knee(params: Params) -> Three:
    """A hand goes to the other knee, then the other hand to its other knee."""
    if params["posture"] == "standing":
        return _march_across()
    reach = to(0.23, 0.085, 0.33, shape="flat")
    over = to(0.23, -0.085, 0.33, shape="flat")
    return (
        frame(SIT.but(**sides(Arm(lift=30, around=30, bend=40))), CHAIR),
        frame(SIT.but(twist=10, bend=10, right_arm=reach, left_arm=LOW), CHAIR),
        frame(SIT.but(twist=-10, bend=10, left_arm=over, right_arm=LOW), CHAIR),
    )


def _march_across() -> Three:
    def up(side: str) -> Pose:
        sign = 1 if side == "left" else -1
        leg = Leg(lift=88, around=8, bend=92, ankle=6)
        over = to(0.235, sign * 0.05, 0.545, shape="flat")
        back = Arm(lift=30, around=110, bend=36)
        if side == "left":
            return STAND.but(
                over="right",
                left_leg=leg,
                right_leg=Leg(foot=(0, -0.03)),
                twist=10,
                right_arm=over,
                left_arm=back,
            )
        return STAND.but(
            over="left",
            right_leg=leg,
            left_leg=Leg(foot=(0, 0.03)),
            twist=-10,
            left_arm=over,
            right_arm=back,
        )

    return frame(up("left")), frame(STAND.but(**sides(LOW))), frame(up("right"))


def row(params: Params) -> Three:
    """Reach out, pull to the tummy, push out again; or dip one end and the other."""
    base = FLOOR if params["posture"] == "floor" else SIT
    seat = () if params["posture"] == "floor" else (CHAIR,)
    up = 0.22 if params["posture"] == "floor" else 0.46
    has_bar = params["tool"] == "bar"

    def shot(ahead: float, bend: float, dip: float) -> Frame:
        bar = (Thing(kind="bar", hold="both", to=(0.0, 1.0, dip * 2.4)),) if has_bar else ()
        pose = base.but(
            bend=bend,
            left_arm=to(ahead, 0.11, up + dip * 0.13, shape="grip"),
            right_arm=to(ahead, -0.11, up - dip * 0.13, shape="grip"),
        )
        return frame(pose, *seat, *bar)

    if params["way"] == "dip":
        return shot(0.24, 6, 0.0), shot(0.24, 8, 0.45), shot(0.24, 8, -0.45)
    again = shot(0.34, 20, 0.0)
    return (
        shot(0.34, 22, 0.0),
        shot(0.17, -4, 0.0),
        replace(again, pose=again.pose.but(nod=-6, bend=18)),
    )


def tap_feet(params: Params) -> Three:
    """Toes up, down, heels up."""
    del params
    base = SIT.but(nod=18, **pair(0.16, 0.09, 0.32))

    def feet(heel: float) -> Pose:
        return base.but(
            left_leg=Leg(foot=(0.27, 0.07), heel=heel), right_leg=Leg(foot=(0.27, -0.07), heel=heel)
        )

    return frame(feet(-22), CHAIR), frame(feet(0), CHAIR), frame(feet(34), CHAIR)


def turn_look(params: Params) -> Three:
    """Sit tall, turn shoulders and head to look behind, and to the other side."""
    del params
    arms = pair(0.16, 0.09, 0.32)
    crossed = sides(Arm(lift=30, around=8, bend=80))
    return (
        frame(SIT.but(nod=0, **arms), CHAIR),
        frame(SIT.but(nod=0, twist=34, turn=52, **crossed), CHAIR),
        frame(SIT.but(nod=0, twist=-34, turn=-52, **crossed), CHAIR),
    )


def sit_lift(params: Params) -> Three:
    """Sit tall, let go, lift one foot; or one arm."""
    hold = pair(0.03, 0.15, 0.275, shape="grip")
    free: dict[str, Any] = {
        "out": sides(OUT),
        "hips": sides(Arm(lift=34, around=100, bend=104, spin=-40)),
        "seat": hold,
        "hands": pair(0.24, 0.10, 0.47),
    }[word(params, "arms")]
    ball = (Ball(kind="small_ball", in_hand="right", place=(0, 0.3, 1)),)
    balls = ball if params["arms"] == "hands" else ()
    lifted = SIT.but(nod=2, **free)
    if params["lift"] == "arm":
        lifted = lifted.but(left_arm=Arm(lift=150, around=60, bend=22, shape="open"))
    else:
        lifted = lifted.but(left_leg=Leg(foot=(0.30, 0.07), up=0.11, heel=-6))
    return (
        frame(SIT.but(nod=2, **hold), CHAIR),
        frame(SIT.but(nod=2, **free), CHAIR, balls=balls),
        frame(
            lifted,
            CHAIR,
            balls=balls,
            arrows=(((0.46, 0.1, 0.04), (0.48, 0.1, 0.12), (0.47, 0.1, 0.20)),)
            if params["lift"] == "foot"
            else (),
        ),
    )


def land_hands(params: Params) -> Three:
    """Hands up high, land both softly on the knees, stay."""
    del params
    up = sides(Arm(lift=150, around=30, bend=24, shape="open"))
    low = pair(0.20, 0.08, 0.325)
    down = (((0.36, 0.0, 0.66), (0.38, 0.0, 0.54), (0.36, 0.0, 0.42)),)
    return (
        frame(SIT.but(nod=-6, **up), CHAIR),
        frame(SIT.but(nod=10, bend=10, **low), CHAIR, arrows=down),
        frame(SIT.but(nod=2, **low), CHAIR),
    )


def point_at(params: Params) -> Three:
    """Look round, point, hand down."""
    base = STAND if params["posture"] == "standing" else SIT
    seat = () if params["posture"] == "standing" else (CHAIR,)
    arm = Arm(lift=84, around=10, bend=20, shape="point")
    far = Arm(lift=84, around=64, bend=20, shape="point")
    rest = LOW if params["posture"] == "standing" else to(0.16, 0.09, 0.32, shape="flat")
    return (
        frame(base.but(turn=-34, left_arm=rest, right_arm=far), *seat),
        frame(base.but(turn=0, left_arm=rest, right_arm=arm), *seat),
        frame(base.but(nod=6, left_arm=rest, right_arm=LOW), *seat),
    )


def find_spot(params: Params) -> Three:
    """Walk to the mark, sit down on it, sit still."""
    del params
    spot = Thing(kind="spot", at=(0.12, 0, 0))
    walk = Pose(
        at=(-0.22, 0),
        crouch=0.004,
        lean=3,
        nod=14,
        left_leg=Leg(foot=(-0.10, 0.04), heel=-12),
        right_leg=Leg(foot=(-0.36, -0.04), heel=30),
    )
    down = Pose(
        at=(0.05, 0),
        crouch=0.16,
        lean=36,
        bend=14,
        nod=-10,
        left_leg=Leg(foot=(0.14, 0.07)),
        right_leg=Leg(foot=(0.12, -0.07)),
        **sides(Arm(lift=60, around=20, bend=24)),
    )
    sit = CROSSED.but(at=(0.10, 0), **pair(0.30, 0.14, 0.13))
    return frame(walk, spot), frame(down, spot), frame(sit, spot)


MOVES = (
    Move(
        name="beat",
        family=BOTH,
        frames=beat,
        turn=40,
        tilt=14,
        key=0,
        seated=True,
        defaults={"object": "drum", "way": "in_turn"},
        choices={"object": ("drum", "legs", "table"), "way": ("together", "in_turn", "across")},
    ),
    Move(
        seated=True,
        name="tap_knee",
        family=BOTH,
        frames=tap_knee,
        turn=58,
        tilt=11,
        key=1,
        defaults={"posture": "sitting"},
        choices={"posture": ("sitting", "standing")},
    ),
    Move(
        name="row",
        family=BOTH,
        frames=row,
        turn=38,
        tilt=13,
        key=0,
        defaults={"posture": "floor", "tool": "bar", "way": "pull"},
        choices={"posture": ("floor", "sitting"), "tool": ("bar", "none"), "way": ("pull", "dip")},
    ),
    Move(name="tap_feet", family=HELLO, frames=tap_feet, turn=26, tilt=11, key=0),
    Move(
        name="turn_look",
        family="climbing_crawling_rolling",
        frames=turn_look,
        turn=60,
        tilt=12,
        key=1,
        seated=True,
    ),
    Move(
        seated=True,
        name="sit_lift",
        family="balance",
        frames=sit_lift,
        turn=44,
        tilt=11,
        key=2,
        defaults={"arms": "out", "lift": "foot"},
        choices={"arms": ("out", "hips", "seat", "hands"), "lift": ("foot", "arm")},
    ),
    Move(
        seated=True,
        name="land_hands",
        family="getting_about",
        frames=land_hands,
        turn=34,
        tilt=11,
        key=1,
    ),
    Move(
        seated=True,
        framed="one",
        name="point_at",
        family=HELLO,
        frames=point_at,
        turn=40,
        key=1,
        defaults={"posture": "standing"},
        choices={"posture": ("standing", "sitting")},
    ),
    Move(name="find_spot", family=HELLO, frames=find_spot, turn=30, tilt=13, key=2),
)
