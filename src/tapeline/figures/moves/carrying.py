"""Carry: a cup, a tray, a plate or a lamp; alone, and with somebody at the other end."""

from __future__ import annotations

from dataclasses import replace

from tapeline.figures.move import Ball, Frame, Move, Other, Params, Thing
from tapeline.figures.moves.making import (
    FLOOR,
    KNEELING,
    SIT,
    STAND,
    TABLE,
    Three,
    frame,
    in_front,
    pair,
    sides,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.ways import CHAIR

TWO = Arm(lift=22, around=12, bend=74, spin=8, shape="grip")
FLAT = Arm(lift=22, around=10, bend=74, spin=8, shape="flat")
STEP_LEFT = Pose(
    at=(0.04, 0),
    crouch=0.004,
    lean=3,
    nod=8,
    left_leg=Leg(foot=(0.16, 0.04), heel=-14),
    right_leg=Leg(foot=(-0.10, -0.04), heel=30),
)
AHEAD = ((0.50, 0.1, 0.10), (0.60, 0.1, 0.10), (0.72, 0.1, 0.10))
LOADS = {
    "cup": ("cup_held",),
    "tray": ("tray", "sock"),
    "plate": ("plate", "sock"),
    "lamp": ("card", "cup_held"),
}


def carry_thing(params: Params) -> Three:
    """Lift it, walk with it or hold it still, set it down on the table."""
    arms = sides(FLAT if params["object"] == "lamp" else TWO)
    if params["hands"] == "one":
        arms["left_arm"] = Arm(lift=12, around=60, bend=22)
    held = _load(params)
    stand = STAND.but(nod=10, **arms)
    go = STEP_LEFT.but(**arms) if params["way"] == "walk" else stand.but(nod=2)
    down = pair(0.36, 0.10, 0.44, shape="grip")
    set_down = STAND.but(at=(0.06, 0), still=False, lean=16, bend=10, nod=18, **down)
    if params["hands"] == "one":
        set_down = set_down.but(left_arm=arms["left_arm"])
    return (
        frame(stand, *held),
        frame(go, *held, arrows=(AHEAD,) if params["way"] == "walk" else ()),
        frame(set_down, replace(TABLE, at=(0.21, 0, 0)), *held),
    )


def _load(params: Params) -> tuple[Thing, ...]:
    """What lies between the hands, or on the right one."""
    hold = "both" if params["hands"] == "two" else "right"
    kinds = LOADS[word(params, "object")]
    up = {"cup": 0.015, "tray": 0.0, "plate": 0.012, "lamp": 0.016}[word(params, "object")]
    found = [Thing(kind=kinds[0], at=(0.02, 0, up), hold=hold)]
    if len(kinds) > 1:
        high = 0.06 if kinds[1] == "sock" else 0.065
        found.append(Thing(kind=kinds[1], at=(0.02, 0, up + high), hold=hold))
    return tuple(found)


def carry_two(params: Params) -> Three:
    """Two people, one at each end of a towel or a box: take hold, lift, walk or lower."""
    who, kind = word(params, "partner"), word(params, "object")
    is_towel = kind == "towel"
    reach = 0.52 if is_towel else 0.40
    load = (
        ("beanbag",) if params["load"] == "toy" else ("ball",) if params["load"] == "ball" else ()
    )

    def shot(pose: Pose, up: float, partner: Pose, ahead: float, walks: bool) -> Frame:
        arms = pair(ahead + 0.24, 0.115, up, shape="grip")
        tall = 1.0 if who == "child" else 0.66
        back = pair(0.24 * tall, 0.115 * tall, up * tall, shape="grip")
        thing = (
            Thing(kind="towel", at=(0.01, 0, 0), hold="both", to=(reach, 0, 0))
            if is_towel
            else Thing(kind="crate", at=(reach / 2, 0, 0), hold="both")
        )
        rests = 0.02 if is_towel else 0.115
        balls = tuple(
            Ball(
                kind=one,
                anchor="room",
                place=(
                    ahead + 0.24 + reach / 2,
                    0,
                    up + rests + (0.0 if one == "beanbag" else 0.05),
                ),
            )
            for one in load
        )
        return Frame(
            pose=pose.but(**arms),
            things=(thing,),
            balls=balls,
            others=(in_front(partner.but(**back), ahead + 0.48 + reach, who=who),),
            arrows=(
                (
                    (
                        (ahead + 0.3, -0.4, 0.05),
                        (ahead + 0.44, -0.4, 0.05),
                        (ahead + 0.6, -0.4, 0.05),
                    ),
                )
                if walks
                else ()
            ),
        )

    if params["posture"] == "floor":
        low = FLOOR.but(bend=8)
        return (
            shot(low, 0.12, low, 0.0, False),
            shot(low, 0.30, low, 0.0, False),
            shot(low, 0.20, low, 0.0, False),
        )
    if params["posture"] == "sitting":
        frames = (
            shot(SIT, 0.34, SIT, 0.0, False),
            shot(SIT, 0.46, SIT, 0.0, False),
            shot(SIT, 0.38, SIT, 0.0, False),
        )
        return tuple(replace(one, things=(CHAIR, *one.things)) for one in frames)  # type: ignore[return-value]
    stand = STAND.but(still=False, nod=10)
    bent = stand.but(crouch=0.10, lean=22, bend=12, nod=4, at=(-0.05, 0))
    other_bent = bent if who == "child" else stand.but(crouch=0.12, lean=24, bend=14)
    walk = STEP_LEFT.but(at=(0.03, 0))
    back = STEP_LEFT.but(
        left_leg=Leg(foot=(-0.10, 0.04), heel=24), right_leg=Leg(foot=(0.12, -0.04))
    )
    lifted = shot(stand, 0.52, stand, 0.0, False)
    last = (
        shot(walk, 0.50, back, 0.02, True)
        if params["way"] == "walk"
        else shot(bent, 0.40, other_bent, 0.0, False)
    )
    return (shot(bent, 0.34, other_bent, 0.0, False), lifted, last)


def hand_over(params: Params) -> Three:
    """Hold it out, the other hands take hold, let go."""
    kind = word(params, "object")
    hold = pair(0.24, 0.10, 0.58, shape="grip")
    out = pair(0.35, 0.09, 0.60, shape="grip")

    def adult(up: float) -> Other:
        arm = Arm(on=kind, side_of=(0.4, 0.0, up), pole=(-0.4, 0.8, -1), shape="open")
        left = replace(arm, side_of=(0.1, 0.8, up))
        right = replace(arm, side_of=(0.1, -0.8, up))
        return in_front(KNEELING.but(left_arm=left, right_arm=right), 1.02)

    wait = in_front(KNEELING, 1.02)

    def shot(arms: dict[str, Arm], ahead: float, person: Other, up: float = 0.59) -> Frame:
        ball = Ball(kind=kind, anchor="room", place=(ahead, 0.0, up))
        return Frame(pose=STAND.but(still=False, nod=8, **arms), balls=(ball,), others=(person,))

    return (
        shot(hold, 0.25, wait),
        shot(out, 0.37, adult(-0.3)),
        shot(sides(Arm(lift=44, around=12, bend=30, shape="open")), 0.60, adult(-0.3)),
    )


MOVES = (
    Move(
        name="carry_thing",
        family="balance",
        frames=carry_thing,
        turn=26,
        tilt=12,
        key=1,
        seated=True,
        defaults={"object": "tray", "way": "walk", "hands": "two"},
        choices={
            "object": ("cup", "tray", "plate", "lamp"),
            "way": ("walk", "hold"),
            "hands": ("two", "one"),
        },
    ),
    Move(
        name="carry_two",
        family="bilateral_coordination",
        frames=carry_two,
        turn=16,
        tilt=13,
        key=1,
        adults=(),
        defaults={
            "object": "towel",
            "load": "toy",
            "way": "walk",
            "partner": "child",
            "posture": "standing",
        },
        choices={
            "object": ("towel", "crate"),
            "load": ("none", "toy", "ball"),
            "way": ("walk", "lift"),
            "partner": ("child", "adult"),
            "posture": ("standing", "sitting", "floor"),
        },
    ),
    Move(
        name="hand_over",
        family="bilateral_coordination",
        frames=hand_over,
        turn=20,
        key=1,
        seated=True,
        adults=(),
        defaults={"object": "ball"},
        choices={"object": ("ball", "beanbag")},
    ),
)
