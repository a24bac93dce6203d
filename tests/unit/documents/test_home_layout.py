"""A home's floor from above: to scale, no wall, no words, nothing that does not fit."""

from __future__ import annotations

import re

import pytest

from tapeline.caseload.people import SPACES_CM
from tapeline.courses.stations import BuiltStation
from tapeline.documents.home_layout import home_layout
from tests.unit.courses.test_stations import a_body, at, built


def toss() -> BuiltStation:
    return built("toss_aboard", at("toss_aboard", "half_metre.small_space"), where="home")


def wide() -> BuiltStation:
    return built("cup_wall", at("cup_wall", "one.usual", a_body(7)), where="home")


def polygons(svg: str) -> list[list[tuple[float, ...]]]:
    return [
        [tuple(map(float, pair.split(","))) for pair in found.split()]
        for found in re.findall(r'<polygon points="([^"]+)"', svg)
    ]


@pytest.mark.parametrize("space", sorted(SPACES_CM))
def test_a_floor_of_every_preset_is_drawn_to_scale(space: str) -> None:
    spot = built("wet_paint", at("wet_paint", "free.usual"), where="home")
    found = home_layout(SPACES_CM[space], [(1, spot)])
    assert found is not None
    xs, ys = zip(*polygons(found.svg)[0], strict=True)
    long, short = sorted(SPACES_CM[space], reverse=True)
    assert (round(max(xs) - min(xs)), round(max(ys) - min(ys))) == (long, short)


def test_everything_lies_on_the_floor() -> None:
    found = home_layout((400, 300), [(1, toss())])
    assert found is not None
    floor, *rest = polygons(found.svg)
    (x0, y0), (x1, y1) = (tuple(map(end, zip(*floor, strict=True))) for end in (min, max))
    for shape in rest:
        for x, y in shape:
            assert x0 <= x <= x1
            assert y0 <= y <= y1


def test_what_does_not_fit_is_not_drawn_smaller() -> None:
    assert home_layout((100, 100), [(1, wide())]) is None
    both = home_layout((250, 230), [(1, wide()), (2, toss())])
    assert both is not None
    assert re.findall(r">(\d)</text>", both.svg) == ["2"]


def test_the_picture_holds_numbers_and_no_words() -> None:
    found = home_layout((400, 300), [(1, toss()), (2, toss())])
    assert found is not None
    assert re.findall(r">([^<>]+)</text>", found.svg) == ["1", "2"]


def test_the_adult_s_place_is_shown_where_one_must_be_near() -> None:
    near = built("stream_marks", at("stream_marks", "alone.usual"), where="home")
    found = home_layout((800, 600), [(1, near)])
    assert found is not None
    assert found.shows_adult
    alone = home_layout((400, 300), [(1, toss())])
    assert alone is not None
    assert not alone.shows_adult
