"""Every activity has a picture, and a picture never says something else than the words."""

from __future__ import annotations

import re

import pytest

from tapeline.activities.loader import load_library
from tapeline.figures.asking import ask
from tapeline.figures.moves import MOVES
from tapeline.sessions.pictures import picture_of, way_to_draw
from tests.unit.figures.measure import joint_angles
from tests.unit.figures.test_poses import limits_of

VERSIONS = [v for a in load_library().activities.values() for v in a.versions]
WAYS = ("on_foot", "splints", "wheelchair", "walking_frame")
# Words that a drawn move contradicts: whoever reads both would do something else.
NOT_AS_DRAWN = {
    "throw_under": r"\bdrop\b",
    "throw_over": r"\bdrop\b",
    "hop": r"\bwall\b",
    "run_stop": r"\b(walk fast|march|on the spot)\b",
    "log_roll": r"^(?!.*fold your arms).*\bfolded arms\b",
    "draw_wall": r"\b(wipe|wash)\b",
    "march": r"\bother (knee|hand)\b",
    "prone_lift": r"\belbows?\b",
    "walk_line": r"\bwheel\b",
}


def test_every_activity_has_a_picture():
    without = {
        activity.id
        for activity in load_library().activities.values()
        if not any(picture_of(version) for version in activity.versions)
    }
    assert without == set()


def test_nearly_every_version_has_a_picture():
    """Where the words ask for what no drawing shows, none is better; that is one in fifty."""
    without = [version.id for version in VERSIONS if picture_of(version) is None]
    assert len(without) <= len(VERSIONS) / 50


def test_at_least_forty_moves_are_in_use():
    used = {found.move for version in VERSIONS if (found := picture_of(version))}
    assert len(used) >= 40
    assert used <= set(MOVES)


@pytest.mark.parametrize("way", WAYS)
def test_every_picture_can_be_drawn_for_every_way_it_is_said_to_be(way):
    wanted = {
        (found, drawn_as)
        for version in VERSIONS
        if (found := picture_of(version)) and (drawn_as := way_to_draw(found, gets_about=way))
    }
    for found, drawn_as in wanted:
        asked = ask(found.move, params=dict(found.parameters), gets_about=drawn_as)
        assert len(asked.frames) == 3


def test_a_version_done_from_a_seat_is_drawn_from_a_seat():
    """All but the one that begins with the walk to the mark one sits on."""
    sitting = [v for v in VERSIONS if v.position == "sitting" and v.activity != "arrive_spot"]
    standing = []
    for version in sitting:
        found = picture_of(version)
        if found is None:
            continue
        way = way_to_draw(found, gets_about="on_foot")
        asked = ask(found.move, params=dict(found.parameters), gets_about=str(way))
        if any(one.frame.pose.hip is None for one in asked.casts()):
            standing.append((version.id, found.move))
    assert standing == []


@pytest.mark.parametrize("move", NOT_AS_DRAWN)
def test_no_picture_contradicts_what_the_version_says_to_do(move):
    shown = [v for v in VERSIONS if (found := picture_of(v)) and found.move == move]
    assert shown
    assert not [v.id for v in shown if re.search(NOT_AS_DRAWN[move], v.do.lower())]


@pytest.mark.parametrize("way", WAYS)
def test_every_picture_in_use_shows_what_a_body_can_do(way):
    """Hands reach what they hold within 1.5 cm; no joint goes 3 degrees beyond the ranges."""
    wanted = {
        (found.move, found.parameters, drawn_as)
        for version in VERSIONS
        if (found := picture_of(version)) and (drawn_as := way_to_draw(found, gets_about=way))
    }
    faults = []
    for move, parameters, drawn_as in wanted:
        for age in (3.5, 8.0):
            asked = ask(move, params=dict(parameters), gets_about=drawn_as, age_years=age)
            for child in (one.child for one in asked.casts()):
                missed = max(limb.missed for limb in child.limbs().values())
                bent = [
                    joint
                    for joint, value in joint_angles(child).items()
                    if not limits_of(joint)[0] - 3 <= value <= limits_of(joint)[1] + 3
                ]
                if missed > 1.5 or bent:
                    faults.append((move, parameters, drawn_as, age, round(missed, 1), bent))
    assert faults == []
