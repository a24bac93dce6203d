"""A picture that says something else than the words is worse than none."""

from __future__ import annotations

import re

import pytest

from tapeline.activities.loader import load_library
from tapeline.documents.packet import Figure
from tapeline.documents.pictures import can_show, millimetres, three_pictures
from tapeline.figures.body import stature_at

# Words that a drawn move contradicts: whoever reads both would do something else.
NOT_AS_DRAWN = {
    "throw_under": r"\bdrop\b",
    "throw_over": r"\bdrop\b",
    "one_leg": r"\b(wall|hips|pillow|hand in)\b",
    "hop": r"\b(wall|my hand|on the spot)\b",
    "run_stop": r"\b(walk|march|on the spot)\b",
    "step_over": r"\b(wall|hand on|carry)\b",
    "log_roll": r"\bfolded arms\b",
    "walk_line": r"\b(spoon|plate of)\b",
    "draw_wall": r"\b(wipe|wash)\b",
    "march": r"\bother (knee|hand)\b",
}


@pytest.mark.parametrize("move", NOT_AS_DRAWN)
def test_no_version_names_a_move_that_contradicts_what_it_says_to_do(move):
    versions = [v for a in load_library().activities.values() for v in a.versions]
    named = [version for version in versions if version.move == move]
    assert named
    assert not [v.id for v in named if re.search(NOT_AS_DRAWN[move], v.do.lower())]


@pytest.mark.parametrize(
    "wrong",
    [
        {"move": "no_such_move"},
        {"parameters": {"no_such_parameter": 1}},
        {"age_years": 1.0},
        {"move": "kick_ball", "gets_about": "wheelchair"},
    ],
)
def test_what_cannot_be_drawn_is_left_out_without_a_fault(wrong):
    assert can_show(Figure(move="throw_under"))
    assert not can_show(Figure(**{"move": "throw_under", **wrong}))


def test_a_child_stands_three_centimetres_tall_on_paper_at_every_age():
    """At least 3 cm is our own rule for grey copies; 31 mm leaves room for the outline."""
    for age in (3.0, 5.0, 8.0):
        figure = Figure(move="throw_under", age_years=age)
        standing = three_pictures(figure)[0]
        tall = millimetres(standing, figure)["height_mm"]
        assert 31 <= tall <= 31 * 1.35
        assert stature_at(age) > 90
