"""Step over something low and step up on it, hands free, on a wall or round a pillow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tapeline.figures.move import Frame, Move, Params, Thing
from tapeline.figures.pose import Arm, Leg, Pose

SPREAD = {
    "left_arm": Arm(lift=48, around=70, bend=20),
    "right_arm": Arm(lift=48, around=70, bend=20),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Beside:
    """What the hands do while the feet climb: free, one on a wall, or round a pillow."""

    hands: str

    @property
    def things(self) -> tuple[Thing, ...]:
        if self.hands == "wall":
            return (Thing(kind="side_wall", at=(-0.36, 0.36, 0), to=(0.92, 0.36, 0)),)
        if self.hands == "pillow":
            return (Thing(kind="pillow", hold="both", at=(0.0, 0.0, -0.04)),)
        return ()

    def arms(self, ahead: float, *, up: float = 0.60) -> dict[str, Any]:
        if self.hands == "wall":
            flat = Arm(to=(ahead + 0.10, 0.335, up), pole=(-0.6, 0.6, -1), shape="flat")
            return {"left_arm": flat}
        if self.hands == "pillow":
            hug = Arm(lift=26, around=8, bend=78, spin=10, shape="flat")
            return {"left_arm": hug, "right_arm": hug}
        return {}


def _beside(params: Params) -> _Beside:
    return _Beside(hands=str(params["hands"]))


def step_over(params: Params) -> tuple[Frame, Frame, Frame]:
    """Before the thing, one leg over, both over."""
    kind = str(params["object"])
    high = {"cushion": 0.16, "rope": 0.09, "line": 0.07}[kind]
    deep = 0.20 if kind == "cushion" else 0.0
    if kind == "cushion":
        thing = Thing(kind="cushion", at=(0.12, 0, 0))
    else:
        thing = Thing(kind=kind, at=(0.22, -0.30, 0), to=(0.22, 0.30, 0))
    ahead = 0.34 + deep
    beside = _beside(params)
    return (
        Frame(
            pose=Pose(
                still=True,
                nod=16,
                left_leg=Leg(foot=(0.0, 0.05)),
                right_leg=Leg(foot=(0.0, -0.05)),
                **beside.arms(0.0),
            ),
            things=(thing, *beside.things),
            english="A child stands before a low thing on the floor.",
            spanish="Una niña de pie ante algo bajo en el suelo.",
        ),
        Frame(
            pose=Pose(
                still=True,
                over="left",
                crouch=0.004,
                nod=12,
                left_leg=Leg(foot=(0.0, 0.04)),
                right_leg=Leg(foot=(0.22 + deep * 0.5, -0.05), up=high, heel=-4),
                **{**SPREAD, **beside.arms(0.02)},
            ),
            things=(thing, *beside.things),
            arrows=(
                (
                    (0.42 + deep, 0.0, high + 0.08),
                    (0.48 + deep, 0.0, high + 0.05),
                    (0.50 + deep, 0.0, 0.05),
                ),
            ),
            english="One foot lifts high and passes over it.",
            spanish="Un pie sube y pasa por encima.",
        ),
        Frame(
            pose=Pose(
                at=(ahead * 0.8, 0),
                crouch=0.008,
                lean=6,
                nod=6,
                left_leg=Leg(foot=(0.20 + deep * 0.5, 0.05), up=high, heel=42 + 140 * deep),
                right_leg=Leg(foot=(ahead, -0.05)),
                **{**SPREAD, **beside.arms(ahead * 0.8)},
            ),
            things=(thing, *beside.things),
            english="That foot stands and the other follows over.",
            spanish="Ese pie se apoya y el otro lo sigue por encima.",
        ),
    )


def step_up(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand before a low step, one foot on, both feet on."""
    high = 12.0 / float(params["stature_cm"])
    beside = _beside(params)
    step = (Thing(kind=str(params["object"]), at=(0.12, 0, 0)), *beside.things)
    return (
        Frame(
            pose=Pose(
                still=True,
                nod=14,
                left_leg=Leg(foot=(-0.04, 0.05)),
                right_leg=Leg(foot=(-0.04, -0.05)),
                **beside.arms(-0.04),
            ),
            things=step,
            english="A child stands before a low step.",
            spanish="Un niño de pie ante un escalón bajo.",
        ),
        Frame(
            pose=Pose(
                at=(0.06, 0),
                crouch=0.002,
                lean=12,
                bend=6,
                nod=2,
                left_leg=Leg(foot=(-0.04, 0.05), heel=18),
                right_leg=Leg(foot=(0.24, -0.05), up=high),
                **{
                    "left_arm": Arm(lift=40, around=20, bend=40),
                    "right_arm": Arm(lift=30, around=150, bend=30),
                    **beside.arms(0.06),
                },
            ),
            things=step,
            arrows=(((-0.20, -0.2, 0.12), (-0.20, -0.2, 0.24), (-0.14, -0.2, 0.34)),),
            english="One whole foot stands on the step; the body leans over it.",
            spanish="Un pie entero sobre el escalón; el cuerpo se inclina.",
        ),
        Frame(
            pose=Pose(
                still=True,
                surface=12.0,
                left_leg=Leg(foot=(0.24, 0.05)),
                right_leg=Leg(foot=(0.24, -0.05)),
                **beside.arms(0.24, up=0.68),
            ),
            things=step,
            english="Both feet stand on the step.",
            spanish="Los dos pies están sobre el escalón.",
        ),
    )


MOVES = (
    Move(
        name="step_over",
        adults=("beside", "behind", "hand"),
        family="climbing_crawling_rolling",
        frames=step_over,
        turn=20,
        tilt=13,
        key=1,
        defaults={"hands": "free", "object": "rope"},
        choices={"hands": ("free", "wall", "pillow"), "object": ("rope", "line", "cushion")},
    ),
    Move(
        name="step_up",
        defaults={"hands": "free", "object": "step"},
        choices={"hands": ("free", "wall", "pillow"), "object": ("step", "cushion")},
        adults=("beside", "behind", "hand"),
        family="climbing_crawling_rolling",
        frames=step_up,
        turn=20,
        tilt=11,
        key=1,
    ),
)
