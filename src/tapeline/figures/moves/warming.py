"""Big easy movement on two feet: grow, shake, small jumps, wheels, apples, walk and stand still."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Frame, Move, Params, Thing
from tapeline.figures.moves.making import LOW, STAND, Three, frame, sides, word
from tapeline.figures.pose import Arm, Leg, Pose

WARM, ABOUT = "warm_up_cool_down", "getting_about"
UP = Arm(lift=164, around=70, bend=22, spin=60, shape="open")


def grow(params: Params) -> Three:
    """Small and low, half way, tall with arms up."""
    del params
    low = STAND.but(
        still=False,
        at=(-0.07, 0),
        crouch=0.19,
        lean=46,
        bend=26,
        nod=6,
        left_leg=Leg(foot=(0, 0.07), heel=16),
        right_leg=Leg(foot=(0, -0.07), heel=16),
        **sides(Arm(lift=58, around=10, bend=62)),
    )
    half = STAND.but(
        still=False,
        at=(-0.05, 0),
        crouch=0.06,
        lean=20,
        bend=10,
        nod=-4,
        **sides(Arm(lift=60, around=40, bend=60)),
    )
    up = (((0.0, 0.42, 0.3), (0.0, 0.44, 0.55), (0.0, 0.42, 0.8)),)
    return frame(low), frame(half, arrows=up), frame(STAND.but(nod=-12, **sides(UP)))


def shake(params: Params) -> Three:
    """Shake arms and legs, shake the other way, stand still."""
    del params
    one = STAND.but(
        over="right",
        left_leg=Leg(lift=34, around=60, bend=50, ankle=10),
        right_leg=Leg(foot=(0, -0.03)),
        side=6,
        mouth="open",
        left_arm=Arm(lift=120, around=80, bend=60, shape="open"),
        right_arm=Arm(lift=60, around=80, bend=70, spin=30, shape="open"),
    )
    two = STAND.but(
        over="left",
        right_leg=Leg(lift=34, around=60, bend=50, ankle=10),
        left_leg=Leg(foot=(0, 0.03)),
        side=-6,
        mouth="open",
        right_arm=Arm(lift=120, around=80, bend=60, shape="open"),
        left_arm=Arm(lift=60, around=80, bend=70, spin=30, shape="open"),
    )
    return frame(one), frame(two), frame(STAND.but(**sides(LOW)))


def small_jump(params: Params) -> Three:
    """Knees bend, a small jump, soft landing; or up on the toes."""
    low = STAND.but(
        crouch=0.06, lean=14, bend=8, nod=-8, **sides(Arm(lift=34, around=130, bend=26))
    )
    if params["way"] == "toes":
        toes = STAND.but(
            left_leg=Leg(foot=(0, 0.06), heel=38), right_leg=Leg(foot=(0, -0.06), heel=38)
        )
        arms = sides(Arm(lift=30, around=70, bend=24))
        return (
            frame(STAND.but(**arms)),
            frame(toes.but(**arms)),
            frame(STAND.but(crouch=0.012, nod=4, **arms)),
        )
    air = Pose(
        hip=0.575,
        lean=4,
        bend=2,
        mouth="open",
        left_leg=Leg(lift=14, around=8, bend=26, ankle=30),
        right_leg=Leg(lift=14, around=8, bend=26, ankle=30),
        **sides(Arm(lift=90, around=40, bend=50, shape="open")),
    )
    high = (((0.36, 0, 0.06), (0.37, 0, 0.16), (0.36, 0, 0.27)),)
    return (
        frame(low),
        frame(air, arrows=high),
        frame(low.but(**sides(Arm(lift=44, around=30, bend=30)))),
    )


def arm_circles(params: Params) -> Three:
    """Arms out, up, and down behind: big wheels."""
    del params

    def arms(lift: float) -> Pose:
        return STAND.but(**sides(Arm(lift=lift, around=86, bend=22, spin=min(lift, 80) * 0.7)))

    wheel = (((0.0, 0.62, 0.62), (0.0, 0.64, 0.82), (0.0, 0.52, 1.02)),)
    return frame(arms(70)), frame(arms(112), arrows=wheel), frame(arms(158))


def pick_apples(params: Params) -> Three:
    """Reach up high to one side, bring it across, put it down at the other."""
    del params
    box = Thing(kind="box", at=(0.16, 0.44, 0), front=True)
    high = STAND.but(
        nod=-16,
        turn=-16,
        side=4,
        right_arm=Arm(lift=154, around=50, bend=22, shape="open"),
        left_arm=LOW,
    )
    over = STAND.but(right_arm=Arm(lift=64, around=4, bend=40, shape="grip"), left_arm=LOW)
    put = STAND.but(
        twist=26,
        turn=14,
        nod=16,
        right_arm=Arm(lift=60, around=-32, bend=20, shape="open"),
        left_arm=Arm(lift=26, around=120, bend=24),
    )
    across = (((0.3, -0.30, 0.70), (0.44, -0.12, 0.56), (0.44, 0.06, 0.50)),)
    return frame(high, box), frame(over, box, arrows=across), frame(put, box)


def walk_freeze(params: Params) -> Three:
    """Walk or run, arms swinging, then stand quite still."""
    is_run = params["way"] == "run"
    lift, bend = (72, 92) if is_run else (54, 70)

    def step(side: str) -> Pose:
        leg = Leg(lift=lift, around=4, bend=bend, ankle=8)
        ahead, back = Arm(lift=44, around=6, bend=64), Arm(lift=40, around=168, bend=50)
        if side == "left":
            return Pose(
                crouch=0.006,
                lean=6,
                left_leg=leg,
                right_leg=Leg(foot=(-0.02, -0.04), heel=16),
                left_arm=back,
                right_arm=ahead,
            )
        return Pose(
            crouch=0.006,
            lean=6,
            right_leg=leg,
            left_leg=Leg(foot=(-0.02, 0.04), heel=16),
            left_arm=ahead,
            right_arm=back,
        )

    still = STAND.but(crouch=0.008, **sides(Arm(lift=26, around=80, bend=24, shape="open")))
    return frame(step("left")), frame(step("right")), frame(still)


def skip(params: Params) -> Three:
    """Step, hop with the other knee up, step on."""
    del params
    step = Pose(
        at=(0.02, 0),
        crouch=0.010,
        lean=5,
        left_leg=Leg(foot=(-0.12, 0.05), heel=30),
        right_leg=Leg(foot=(0.14, -0.05)),
        left_arm=Arm(lift=44, around=6, bend=56),
        right_arm=Arm(lift=34, around=166, bend=40),
    )
    air = Pose(
        at=(0.16, 0),
        hip=0.60,
        lean=4,
        mouth="open",
        left_leg=Leg(lift=80, around=6, bend=88, ankle=8),
        right_leg=Leg(lift=4, around=4, bend=14, ankle=34),
        left_arm=Arm(lift=34, around=166, bend=40),
        right_arm=Arm(lift=70, around=6, bend=56),
    )
    on = Pose(
        at=(0.32, 0),
        crouch=0.010,
        lean=5,
        left_leg=Leg(foot=(0.44, 0.05)),
        right_leg=Leg(foot=(0.18, -0.05), heel=30),
        left_arm=Arm(lift=34, around=166, bend=40),
        right_arm=Arm(lift=44, around=6, bend=56),
    )
    hop = (((0.04, -0.3, 0.02), (0.16, -0.3, 0.08), (0.32, -0.3, 0.02)),)
    return frame(step), frame(air, arrows=hop), frame(on)


def wheel_push(params: Params) -> Three:
    """Hands back on the wheels, push, stop with hands on the wheels; along what is on the floor."""
    on = word(params, "on")
    floor = {
        "line": (Thing(kind="line", at=(-0.30, 0, 0), to=(1.0, 0, 0)),),
        "lane": (
            Thing(kind="line", at=(-0.30, 0.24, 0), to=(1.0, 0.24, 0)),
            Thing(kind="line", at=(-0.30, -0.24, 0), to=(1.0, -0.24, 0)),
        ),
        "mark": (Thing(kind="spot", at=(0.72, 0, 0)),),
        "none": (),
    }[on]
    lap = (Thing(kind="tray", at=(0.16, 0, 0.385)),) if params["load"] == "tray" else ()

    def shot(
        ahead: float, up: float, bend: float, *arrows: tuple[tuple[float, float, float], ...]
    ) -> Frame:
        hands: dict[str, Any] = {
            f"{side}_arm": Arm(to=(ahead, sign * 0.175, up), pole=(-1.0, 0.6, -0.2), shape="grip")
            for side, sign in (("left", 1), ("right", -1))
        }
        return frame(
            Pose(
                bend=bend,
                hip=0.335,
                left_leg=Leg(foot=(0.275, 0.045), up=0.06),
                right_leg=Leg(foot=(0.275, -0.045), up=0.06),
                **hands,
            ),
            *floor,
            *lap,
            arrows=arrows,
        )

    go = ((0.52, -0.3, 0.05), (0.64, -0.3, 0.05), (0.80, -0.3, 0.05))
    return shot(0.055, 0.44, 10), shot(0.15, 0.395, 18, go), shot(0.07, 0.45, 6)


MOVES = (
    Move(name="grow", family="arrival_closing", frames=grow, turn=56, key=2),
    Move(name="shake", seated=True, family=WARM, frames=shake, turn=74, key=0),
    Move(
        name="small_jump",
        family=WARM,
        frames=small_jump,
        turn=30,
        tilt=11,
        key=1,
        adults=("beside", "hand", "hands"),
        defaults={"way": "jump"},
        choices={"way": ("jump", "toes")},
    ),
    Move(name="arm_circles", family=WARM, frames=arm_circles, turn=76, key=1, seated=True),
    Move(
        framed="one",
        name="pick_apples",
        family=WARM,
        frames=pick_apples,
        turn=72,
        tilt=11,
        key=0,
        seated=True,
    ),
    Move(
        name="walk_freeze",
        family=ABOUT,
        frames=walk_freeze,
        turn=34,
        key=0,
        framed="both",
        adults=("beside", "hand"),
        defaults={"way": "walk"},
        choices={"way": ("walk", "run")},
    ),
    Move(name="skip", family=ABOUT, frames=skip, turn=22, key=1, adults=("beside", "hand")),
    Move(
        name="wheel_push",
        family=ABOUT,
        frames=wheel_push,
        turn=20,
        tilt=13,
        key=1,
        seated=True,
        only_on_wheels=True,
        adults=("beside",),
        defaults={"on": "line", "load": "none"},
        choices={"on": ("none", "line", "lane", "mark"), "load": ("none", "tray")},
    ),
)
