"""Shapes on whole centimetres: what touches does not overlap."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from tapeline.courses.boxes import boxes_meet_convex
from tapeline.courses.shapes import (
    Box,
    Point,
    box_around,
    convex_pieces,
    cross,
    crosses_itself,
    double_area,
    grown_convex,
    is_in,
    outside_pieces,
)

AN_L = tuple(Point(*at) for at in ((0, 0), (6, 0), (6, 3), (3, 3), (3, 5), (0, 5)))
points = st.builds(Point, st.integers(-40, 40), st.integers(-40, 40))
boxes = st.builds(
    lambda x, y, w, h: Box(x, y, x + w, y + h),
    st.integers(-40, 40), st.integers(-40, 40), st.integers(1, 30), st.integers(1, 30),
)  # fmt: skip
triangles = st.tuples(points, points, points).filter(lambda three: cross(*three) != 0)


def test_boxes_that_share_an_edge_do_not_meet() -> None:
    assert not Box(0, 0, 2, 2).meets_inside(Box(2, 0, 4, 2))
    assert Box(0, 0, 2, 2).meets_inside(Box(1, 1, 4, 4))
    assert not Box(0, 0, 2, 2).holds_inside(Point(2, 1))


@given(triangles, boxes)
def test_a_box_meets_a_triangle_when_their_common_area_is_above_nothing(three, box) -> None:
    """Held against shapely 2 (GEOS), whose area of whole-number shapes this small is exact enough."""
    (piece,) = convex_pieces(three)
    common = shapely.Polygon(three).intersection(shapely.box(box.x0, box.y0, box.x1, box.y1)).area
    found = boxes_meet_convex(box.row, piece)[0]
    assert found == (common > 1e-9)


@given(triangles, st.integers(0, 9))
def test_a_grown_shape_is_what_a_square_reaches_from_its_inside(three, by) -> None:
    (piece,) = convex_pieces(three)
    grown = shapely.Polygon(grown_convex(piece, by))
    corners = [(x + dx, y + dy) for x, y in piece for dx in (-by, by) for dy in (-by, by)]
    hull = shapely.convex_hull(shapely.MultiPoint(corners))
    assert grown.equals(hull)


@pytest.mark.parametrize("polygon", [AN_L, tuple(reversed(AN_L))])
def test_pieces_fill_a_polygon_and_what_is_around_it(polygon) -> None:
    inside = sum(shapely.Polygon(piece).area for piece in convex_pieces(polygon))
    assert inside == abs(double_area(polygon)) / 2 == 24
    around = sum(shapely.Polygon(piece).area for piece in outside_pieces(polygon, 10))
    assert around == 26 * 25 - 24


@given(points)
def test_a_point_on_the_edge_is_in(point) -> None:
    shape = shapely.Polygon(AN_L)
    assert is_in(AN_L, point) == shape.covers(shapely.Point(point))


@pytest.mark.parametrize(
    ("corners", "crosses"),
    [
        (AN_L, False),
        (((0, 0), (4, 4), (4, 0), (0, 4)), True),
        (((0, 0), (4, 0), (2, 0), (2, 4)), True),
        (((0, 0), (4, 0), (4, 4), (2, 0), (0, 4)), True),
    ],
)
def test_walls_that_cross_touch_or_fold_back_are_found(corners, crosses) -> None:
    assert crosses_itself([Point(*at) for at in corners]) is crosses


def test_the_box_around_points_holds_them_all() -> None:
    assert box_around(AN_L) == Box(0, 0, 6, 5)
