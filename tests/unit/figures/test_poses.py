"""Every picture of every move, at three ages: bodies that could be real and do not float."""

import csv
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from tapeline.figures.asking import ask, can_draw
from tapeline.figures.body import body_at
from tapeline.figures.move import Frame
from tapeline.figures.moves import MOVES
from tapeline.figures.placing import palm_thickness, pose_body
from tapeline.figures.pose import Pose
from tapeline.figures.scene import ball_centre, ball_radius
from tapeline.figures.skeleton import Skeleton
from tapeline.figures.ways import WAYS
from tapeline.figures.weight import centre_of_mass, support_points
from tests.unit.figures.measure import inside_hull, joint_angles, segment_lengths

RANGES = Path(__file__).parents[2] / "reference" / "data" / "child_joint_ranges.csv"
AGES = (3.5, 5.0, 8.0)


@dataclass(frozen=True, kw_only=True)
class Picture:
    """One frame posed on one body."""

    where: str
    frame: Frame
    skeleton: Skeleton
    way: str
    others: tuple[Skeleton, ...]


@cache
def pictures_of(name: str) -> list[Picture]:
    """Every frame of a move with every choice of its parameters, posed once."""
    move = MOVES[name]
    wishes = [{key: word} for key, words in move.choices.items() for word in words]
    wishes += [{"adult": role} for role in move.adults]
    ways = [way for way in WAYS if way != "splints" and can_draw(name, gets_about=way)]
    found = []
    wanted = [({}, age, way) for age in AGES for way in ways]
    wanted += [(wish, age, ways[0]) for wish in wishes for age in (AGES[0], AGES[-1])]
    for wish, age, way in wanted:
        asked = ask(name, params=wish, gets_about=way, age_years=age)
        for number, one in enumerate(asked.casts(), start=1):
            where = f"picture {number}, {age:g} years, {way} {wish or ''}"
            found.append(
                Picture(
                    where=where, frame=one.frame, skeleton=one.child, way=way, others=one.others
                )
            )
    return found


def faults(name: str, find: Callable[[Picture], object]) -> dict[str, object]:
    """What a check finds wrong, by picture."""
    found = {picture.where: find(picture) for picture in pictures_of(name)}
    return {where: fault for where, fault in found.items() if fault}


EVERY = pytest.mark.parametrize("name", MOVES)


def ends_of_range() -> dict[tuple[str, str], float]:
    """The widest mean of either sex by joint and motion, in degrees."""
    lines = [line for line in RANGES.read_text("utf-8").splitlines() if line[:1] != "#"]
    found: dict[tuple[str, str], float] = {}
    for row in csv.DictReader(lines):
        key = (row["joint"], row["motion"].split(",")[0])
        found[key] = max(found.get(key, 0.0), float(row["mean_deg"]))
    return found


ENDS = ends_of_range()
# Sources of the ranges: Soucie 2011 (hip, knee, ankle, shoulder, elbow), Lynch-Caris 2008 and the
# 2013 study of 0-5 years (neck), Sawale 2015 (lumbar spine), Boone & Azen 1979 (wrist, shoulder
# behind): `child_joint_ranges.csv`, with what was opened and what is from memory in each row.
LIMITS = {
    "hip": (-ENDS["hip", "extension"], ENDS["hip", "flexion"]),
    "knee": (-ENDS["knee", "extension beyond straight"], ENDS["knee", "flexion"]),
    "ankle": (-ENDS["ankle", "plantarflexion"], ENDS["ankle", "dorsiflexion"]),
    "shoulder": (-ENDS["shoulder", "extension (arm behind)"], ENDS["shoulder", "flexion"]),
    "elbow": (-ENDS["elbow", "extension beyond straight"], ENDS["elbow", "flexion"]),
    "wrist": (-ENDS["wrist", "extension"], ENDS["wrist", "extension"]),
    "lumbar spine bow": (-ENDS["lumbar spine", "extension"], ENDS["lumbar spine", "flexion"]),
    "lumbar spine side": (
        -ENDS["lumbar spine", "side bending left"],
        ENDS["lumbar spine", "side bending right"],
    ),
    "neck bow": (-ENDS["neck", "extension"], ENDS["neck", "flexion"]),
    "neck side": (-ENDS["neck", "side bending"], ENDS["neck", "side bending"]),
    "neck rotation": (-ENDS["neck", "rotation"], ENDS["neck", "rotation"]),
    # No range of trunk rotation could be read: 45 degrees is our judgement.
    "lumbar spine rotation": (-45.0, 45.0),
}


def limits_of(name: str) -> tuple[float, float]:
    """The range of a measured angle."""
    return LIMITS[name] if name in LIMITS else LIMITS[name.split()[0]]


@EVERY
def test_joints_stay_inside_what_children_can_do(name):
    def outside(picture: Picture) -> dict[str, float]:
        return {
            joint: round(value, 1)
            for joint, value in joint_angles(picture.skeleton).items()
            if not limits_of(joint)[0] <= value <= limits_of(joint)[1]
        }

    assert faults(name, outside) == {}


@EVERY
def test_segments_keep_their_length(name):
    def stretched(picture: Picture) -> bool:
        standing = pose_body(Pose(), picture.skeleton.body)
        gaps = np.subtract(segment_lengths(picture.skeleton), segment_lengths(standing))
        return bool(np.abs(gaps).max() > 0.01)

    assert faults(name, stretched) == {}


@EVERY
def test_feet_and_hands_reach_their_places(name):
    def missed(picture: Picture) -> dict[str, float]:
        limbs = picture.skeleton.limbs()
        return {part: limb.missed for part, limb in limbs.items() if limb.missed > 0.5}

    assert faults(name, missed) == {}


@EVERY
def test_nothing_sinks_into_the_floor(name):
    def sunk(picture: Picture) -> bool:
        return any(
            float(place[2]) < -1.0
            for limb in picture.skeleton.limbs().values()
            for place in (limb.middle, limb.end, limb.tip, limb.heel, limb.palm)
        )

    assert faults(name, sunk) == {}


@EVERY
def test_hands_that_hold_touch_the_ball(name):
    def apart(picture: Picture) -> bool:
        skeleton, frame = picture.skeleton, picture.frame
        for side in ("left", "right"):
            arm = getattr(frame.pose, f"{side}_arm")
            palm = skeleton.limbs()[f"{side}_arm"].palm
            for ball in frame.balls:
                if ball.in_hand == side or arm.on == ball.kind:
                    gap = float(np.linalg.norm(palm - ball_centre(ball, skeleton)))
                    skin = ball_radius(ball.kind) + palm_thickness(skeleton.body)
                    if abs(gap - skin) > 0.5:
                        return True
        return False

    assert faults(name, apart) == {}


@EVERY
def test_the_grown_up_reaches_what_the_hands_hold(name):
    """The grown-up is drawn for a child of 3½ to 8 years; 2 cm is less than half a hand's breadth."""

    def missed(picture: Picture) -> dict[str, float]:
        return {
            part: round(limb.missed, 1)
            for other in picture.others
            for part, limb in other.limbs().items()
            if limb.missed > 2.0
        }

    assert faults(name, missed) == {}


HELD_POSES = [name for name in MOVES if any(p.frame.pose.still for p in pictures_of(name))]


@pytest.mark.parametrize("name", HELD_POSES)
def test_a_held_pose_carries_its_weight_over_its_support(name):
    def tips_over(picture: Picture) -> bool:
        if not picture.frame.pose.still or picture.way != "on_foot":
            return False
        corners = np.array([point[:2] for point in support_points(picture.skeleton)])
        return inside_hull(centre_of_mass(picture.skeleton)[:2], corners) <= 0.5

    assert faults(name, tips_over) == {}


def test_a_pose_that_leans_out_would_be_found():
    leaning = pose_body(Pose(lean=65), body_at(5.0))
    corners = np.array([point[:2] for point in support_points(leaning)])
    assert inside_hull(centre_of_mass(leaning)[:2], corners) < 0.0
