"""The shortest way around shapes, by hand and against every way over their corners."""

from __future__ import annotations

from math import hypot, inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.courses.order import best_order
from tapeline.courses.shapes import Box, Point
from tapeline.courses.walk import Pieces, seen_from, shortest_way

A_BOX = Box(10, 0, 20, 30).convex


def test_a_way_goes_round_the_nearer_corner() -> None:
    way = shortest_way(Point(0, 20), Point(30, 20), Pieces([A_BOX]))
    assert way.points == ((0, 20), (10, 30), (20, 30), (30, 20))
    assert way.length_cm == pytest.approx(2 * hypot(10, 10) + 10)


def test_a_way_may_touch() -> None:
    assert shortest_way(Point(0, 30), Point(30, 30), Pieces([A_BOX])).length_cm == 30
    assert shortest_way(Point(10, 0), Point(10, 30), Pieces([A_BOX])).length_cm == 30


def test_from_inside_a_shape_there_is_no_way() -> None:
    assert shortest_way(Point(15, 15), Point(0, 0), Pieces([A_BOX])).length_cm == inf


def test_shapes_that_touch_leave_no_gap_and_shapes_apart_do() -> None:
    wall = [Box(10, -100, 20, 5).convex, Box(10, 5, 20, 100).convex]
    along = shortest_way(Point(0, 5), Point(30, 5), Pieces(wall))
    assert along.length_cm == 30  # between two that touch only a line is left
    gap = [Box(10, -100, 20, 4).convex, Box(10, 6, 20, 100).convex]
    assert shortest_way(Point(0, 5), Point(30, 5), Pieces(gap)).length_cm == 30


def test_what_stands_between_hides() -> None:
    targets = np.array([(30, 20), (30, 60), (5, 5)])
    assert seen_from(Point(0, 20), targets, Pieces([A_BOX])).tolist() == [False, True, True]


boxes = st.builds(
    lambda x, y, w, h: Box(x, y, x + w, y + h),
    st.integers(0, 20), st.integers(0, 20), st.integers(1, 8), st.integers(1, 8),
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.lists(boxes, min_size=1, max_size=5))
def test_thinking_of_shapes_only_when_met_gives_the_same_length(some) -> None:
    """Against all corners of all shapes at once, every pair, shortest by repeated relaxing."""
    start, end = Point(-2, 10), Point(31, 11)
    pieces = Pieces([box.convex for box in some])
    nodes = [start, end, *(corner for box in some for corner in box.corners)]
    at = np.array(nodes)
    far = np.full(len(nodes), inf)
    far[0] = 0.0
    reach = np.array([~pieces.passed(np.broadcast_to(one, at.shape), at).any(axis=1) for one in at])
    apart = np.hypot(*(at[:, None] - at).transpose(2, 0, 1))
    for _ in nodes:
        far = np.minimum(far, np.where(reach, far[:, None] + apart, inf).min(axis=0))
    assert shortest_way(start, end, pieces).length_cm == pytest.approx(far[1])


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 5), st.integers(0, 10_000))
def test_the_best_order_is_the_best_of_all_orders_whatever_was_routed(count, seed) -> None:
    from itertools import pairwise, permutations

    dice = np.random.default_rng(seed)
    real = dice.random((count + 2, count + 2)) + 1
    real[dice.random(real.shape) < 0.15] = inf
    bounds = np.where(np.isinf(real), 1.0, real * dice.random(real.shape))
    asked = []

    def route(one: int, other: int) -> float:
        asked.append((one, other))
        return float(real[one, other])

    order, length = best_order(bounds, route)
    best = min(
        sum(real[leg] for leg in pairwise((count, *one, count + 1)))
        for one in permutations(range(count))
    )
    assert length == pytest.approx(best)
    assert len(asked) == len(set(asked))
    assert (order == ()) == (best == inf)
