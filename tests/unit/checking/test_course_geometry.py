"""The checker's geometry beside shapely's, and the error of a tape beside its formula.

shapely (GEOS) is the second implementation; it rounds, so shapes that overlap by less than
1e-6 cm² are left out of the comparison.
"""

from __future__ import annotations

import json
import math
import random
from fractions import Fraction
from pathlib import Path

import pytest
from shapely import LineString, Polygon
from shapely import Point as Spot

from tapeline.checking.course import check_course, check_course_files
from tapeline.checking.course_geometry import (
    corners_of,
    hull,
    is_inside,
    lies_in,
    meets,
    runs_through,
    square_gap,
    stays_in,
    swept,
)
from tapeline.checking.course_tape import laid, worst_shift
from tapeline.errors import InputError

HERE = Path(__file__).parent
# An L with a slanted corner, the right way round and the wrong way round.
ROOM = [(0, 0), (80, 0), (80, 30), (60, 50), (40, 50), (40, 70), (0, 70)]


def exact(points):
    return [(Fraction(x), Fraction(y)) for x, y in points]


def some_shape(chance):
    points = exact((chance.randint(-5, 85), chance.randint(-5, 75)) for _ in range(5))
    shape = hull(points)
    return shape if len(shape) > 2 else corners_of((*exact([(0, 0)])[0], *exact([(5, 5)])[0]))


@pytest.mark.parametrize("room", [ROOM, ROOM[::-1]])
@pytest.mark.parametrize("seed", range(40))
def test_shapes_meet_and_lie_in_as_shapely_says(room, seed):
    chance = random.Random(seed)
    shape = some_shape(chance)
    shared = Polygon(shape).intersection(Polygon(room)).area
    assert meets(shape, exact(room)) == (shared > 1e-6)
    assert lies_in(shape, exact(room)) == (Polygon(shape).area - shared < 1e-6)


@pytest.mark.parametrize("seed", range(40))
def test_lines_stay_in_and_run_through_as_shapely_says(seed):
    chance = random.Random(seed)
    ends = [(chance.randint(0, 80), chance.randint(0, 70)) for _ in range(2)]
    if ends[0] == ends[1]:
        ends[1] = (ends[0][0] + 1, ends[0][1])
    inside = LineString(ends).intersection(Polygon(ROOM)).length
    line = tuple(exact(ends))
    assert stays_in(line, exact(ROOM)) == (LineString(ends).length - inside < 1e-9)
    if not Polygon(ROOM).boundary.intersection(LineString(ends)).length:
        assert runs_through(line, exact(ROOM)) == (inside > 1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_the_square_round_a_point_just_touches_the_line(seed):
    chance = random.Random(seed)
    point, *ends = exact((chance.randint(0, 80), chance.randint(0, 70)) for _ in range(3))
    gap = square_gap(point, tuple(ends))
    if gap:
        square = Polygon(swept((point, point), gap))
        assert square.distance(LineString(ends)) < 1e-9
        assert square.intersection(LineString(ends)).length < gap * 2 + 1e-9
        less = Polygon(swept((point, point), gap * Fraction(99, 100)))
        assert less.distance(LineString(ends)) > 0


def test_touching_is_neither_meeting_nor_leaving():
    room, beside = exact(ROOM), exact([(80, 0), (90, 0), (90, 30), (80, 30)])
    assert not meets(beside, room)
    assert lies_in(exact([(0, 0), (40, 0), (40, 70), (0, 70)]), room)
    assert stays_in(tuple(exact([(80, 30), (60, 50)])), room)
    assert not runs_through(tuple(exact([(40, 50), (40, 70)])), room)


def test_the_outline_belongs_to_a_shape_when_asked():
    room = exact(ROOM)
    for point in [(0, 0), (70, 40), (40, 60)]:
        assert is_inside(exact([point])[0], room, edge=True)
        assert not is_inside(exact([point])[0], room, edge=False)
    assert is_inside(exact([(20, 50)])[0], room, edge=False) == Polygon(ROOM).contains(Spot(20, 50))


@pytest.mark.parametrize("degrees", [30, 60, 90, 120, 150])
def test_a_reading_error_shifts_a_mark_as_the_formula_says(degrees):
    """To first order sqrt(2 + 2 |cos|) / sin of the angle between the tapes.

    Two unit errors move along the tapes' normals; the worse of the two sign choices adds up.
    """
    angle = math.radians(degrees)
    at, far = (0.0, 0.0), 1000.0
    a, b = (far, 0.0), (far * math.cos(angle), far * math.sin(angle))
    wanted = math.sqrt(2 + 2 * abs(math.cos(angle))) / math.sin(angle)
    assert worst_shift(at, a, b) == pytest.approx(wanted, rel=0.02)


def test_two_tapes_give_the_corner_of_a_3_4_5_triangle():
    assert sorted(laid((0, 0), (5, 0), 3, 4)) == [
        pytest.approx((1.8, -2.4)),
        pytest.approx((1.8, 2.4)),
    ]
    assert laid((0, 0), (5, 0), 2, 2) == []
    assert laid((0, 0), (0, 0), 2, 2) == []


@pytest.mark.parametrize(
    ("which", "field", "value", "words"),
    [
        ("room", "room", [[0, 0], [9, 9]], "The room file, room is [[0, 0], [9, 9]], where three"),
        ("room", "start", 5, "The room file, start is 5, where a point [x, y] belongs."),
        ("course", "status", "fine", "The course, status is 'fine', where one of placed"),
        ("course", "walk_cm", None, "The course, walk_cm is None, where a number belongs."),
    ],
)
def test_a_file_that_cannot_be_read_says_where(which, field, value, words):
    files = {
        name: json.loads((HERE / f"course_{kept}.json").read_text())
        for name, kept in (("room", "room"), ("course", "good"))
    }
    files[which][field] = value
    with pytest.raises(InputError) as refused:
        check_course(files["room"], files["course"])
    assert refused.value.message.startswith(words)


def test_the_files_are_read_course_first():
    assert check_course_files(HERE / "course_good.json", HERE / "course_room.json") == ()
