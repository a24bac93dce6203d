"""A picture that says something else than the words is worse than none."""

from __future__ import annotations

from importlib.resources import files

import pytest
import yaml

from tapeline.activities.loader import load_library
from tapeline.documents.packet import Figure
from tapeline.documents.pictures import can_show, millimetres, says_the_same, three_pictures
from tapeline.figures.body import stature_at


def listed():
    text = files("tapeline.documents").joinpath("no_picture.yaml").read_text(encoding="utf-8")
    return [name for names in yaml.safe_load(text).values() for name in names]


def test_every_line_of_the_list_is_a_version_that_names_a_move():
    versions = [v for a in load_library().activities.values() for v in a.versions]
    named = {v.id for v in versions if v.move}
    named |= {name.rpartition(".")[0] for name in named}
    assert not [name for name in listed() if name not in named]


def test_no_line_stands_twice():
    assert len(listed()) == len(set(listed()))


def test_a_listed_step_is_meant_in_all_its_variants_and_a_listed_version_alone():
    assert not says_the_same("sock_basket.drop.usual")
    assert says_the_same("sock_basket.half_metre.usual")
    assert not says_the_same("sort_post.sort.seated")
    assert says_the_same("sort_post.sort.usual")


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
