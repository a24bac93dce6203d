"""Words made from the joints say what the pose is, in both languages."""

from __future__ import annotations

import re

import pytest

from tapeline.figures.asking import ask, can_draw
from tapeline.figures.body import body_at
from tapeline.figures.moves import MOVES
from tapeline.figures.placing import pose_body
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.posture import arm_place, posture_of
from tapeline.figures.words import from_pose

CARRIED = {
    "stand": r"\bstands?\b",
    "sit": r"\bsits?\b",
    "lie": r"\blies\b",
}
ON_FOOT = [name for name in MOVES if can_draw(name)]


@pytest.mark.parametrize(
    ("lift", "around", "place"),
    [(160, 60, "up"), (84, 6, "forward"), (84, 88, "out"), (50, 172, "back"), (8, 60, "down")],
)
def test_an_arm_is_said_to_be_where_it_is(lift, around, place):
    child = pose_body(Pose(right_arm=Arm(lift=lift, around=around)), body_at(5.0))
    assert arm_place(child, "right") == place


@pytest.mark.parametrize(
    ("pose", "way", "said"),
    [
        (Pose(), "on_foot", "a child stands"),
        (Pose(left_leg=Leg(lift=60, bend=80)), "on_foot", "a child stands on one foot"),
        (Pose(hip=0.335), "wheelchair", "a child sits in a wheelchair"),
        (Pose(hip=0.06, lean=90), "on_foot", "a child lies on the tummy"),
        (Pose(hip=0.06, lean=-88), "on_foot", "a child lies on the back"),
        (Pose(hip=0.06), "on_foot", "a child sits on the floor"),
    ],
)
def test_what_carries_the_body_is_read_from_the_joints(pose, way, said):
    assert posture_of(pose_body(pose, body_at(5.0)), way)[0] == said


@pytest.mark.parametrize("name", ON_FOOT)
def test_a_written_sentence_does_not_contradict_the_joints(name):
    """Who is said to stand, sit or lie does so by the joints as well."""
    for frame, found in zip((asked := ask(name)).frames, asked.casts(), strict=True):
        joints = from_pose(found, language="en").lower()
        for word, pattern in CARRIED.items():
            said = re.search(rf"\bchild ({word}s|{word[:-1]}ies)\b", frame.english)
            if said and "in the air" not in joints:
                assert re.search(pattern, joints), (frame.english, joints)


@pytest.mark.parametrize("name", ON_FOOT)
def test_words_from_the_joints_are_whole_sentences_in_both_languages(name):
    for found in ask(name).casts():
        english, spanish = (from_pose(found, language=language) for language in ("en", "es"))
        for said in (english, spanish):
            assert said[0].isupper()
            assert said.endswith(".")
            assert "  " not in said
        assert english != spanish
