"""The shortest way between two points around convex shapes, and what an adult sees.

A way may touch a shape and never passes through its inside. The shortest way around a few of
the shapes that turns out to pass through none is the shortest around all of them, so shapes
join only when a way runs into them.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import inf

import numpy as np
from numpy.typing import NDArray

from tapeline.courses.shapes import Convex, Ints, Point, apart, length_of

Bools = NDArray[np.bool_]
Floats = NDArray[np.float64]
TOUCHES = 1e-9


@dataclass(frozen=True)
class Way:
    """A way from one point to another; `length_cm` is infinite where there is none."""

    points: tuple[Point, ...]
    length_cm: float


NO_WAY = Way((), inf)


class Pieces:
    """Convex shapes side by side, so that many lines are held against all of them at once."""

    def __init__(self, shapes: Sequence[Convex]) -> None:
        self.shapes = tuple(shapes)
        most = max((len(shape) for shape in shapes), default=1)
        corners = np.array([[*shape, *([shape[-1]] * (most - len(shape)))] for shape in shapes])
        corners = corners.reshape(len(self.shapes), most, 2)
        along = np.concatenate([corners[:, 1:], corners[:, :1]], axis=1) - corners
        self._inward = np.stack([-along[..., 1], along[..., 0]], axis=2).astype(np.float64)
        self._edge = (self._inward * corners).sum(axis=2)
        self._edge[(along == 0).all(axis=2)] = -1.0  # an edge of no length holds for every line

    def passed(self, starts: Ints, ends: Ints) -> Bools:
        """Which straight lines pass through which shape's inside, shape (n_lines, n_shapes)."""
        inside = np.einsum("nc,kvc->nkv", starts, self._inward) - self._edge
        slope = np.einsum("nc,kvc->nkv", ends - starts, self._inward)
        with np.errstate(divide="ignore", invalid="ignore"):
            meets = -inside / slope
        enters = np.where(slope > 0, meets, 0.0).max(axis=2, initial=0.0)
        leaves = np.where(slope < 0, meets, 1.0).min(axis=2, initial=1.0)
        beside = ((slope == 0) & (inside <= 0)).any(axis=2)
        return np.asarray(~beside & (leaves - enters > TOUCHES))

    def hold(self, points: Ints) -> Bools:
        """Which points lie inside which shape, shape (n_points, n_shapes)."""
        inside = np.einsum("nc,kvc->nkv", points, self._inward) - self._edge
        return np.asarray((inside > 0).all(axis=2))

    def with_more(self, shapes: Sequence[Convex]) -> Pieces:
        """These shapes and more."""
        return Pieces((*self.shapes, *shapes)) if shapes else self

    def of(self, which: Sequence[int]) -> Pieces:
        """Some of the shapes."""
        found = Pieces(())
        found.shapes = tuple(self.shapes[place] for place in which)
        found._inward, found._edge = self._inward[list(which)], self._edge[list(which)]
        return found


def seen_from(point: Point, targets: Ints, pieces: Pieces) -> Bools:
    """Which targets, shape (n, 2), are in a straight line with the point, no shape between."""
    here = np.broadcast_to(np.array(point), targets.shape)
    return np.asarray(~pieces.passed(here, targets).any(axis=1))


def shortest_way(start: Point, end: Point, pieces: Pieces) -> Way:
    """The shortest way that passes through no shape, or `NO_WAY`."""
    if start == end:
        return Way((start,), 0.0)
    around: list[int] = []
    while True:
        way = _around(pieces.of(around), start, end)
        if way is None:
            return NO_WAY
        hit = pieces.passed(np.array(way[:-1]), np.array(way[1:])).any(axis=0)
        fresh = [place for place in np.flatnonzero(hit).tolist() if place not in around]
        if not fresh:
            return Way(way, length_of(way))
        around += fresh


def _around(pieces: Pieces, start: Point, end: Point) -> tuple[Point, ...] | None:
    """The shortest way around these shapes over their corners [1]_.

    References
    ----------
    .. [1] Lozano-Pérez, T. & Wesley, M. A. (1979). An algorithm for planning collision-free
           paths among polyhedral obstacles. Commun ACM 22:560-570 (from memory).
    """
    if not pieces.shapes:
        return (start, end)
    corners = np.concatenate(pieces.shapes)
    free = corners[~pieces.hold(corners).any(axis=1)]
    nodes = list(dict.fromkeys((start, end, *(Point(x, y) for x, y in free.tolist()))))
    reach = _reachable(nodes, pieces)
    best = {0: 0.0}
    came: dict[int, int] = {}
    waiting = [(apart(start, end), 0)]
    closed: set[int] = set()
    while waiting:
        _, here = heapq.heappop(waiting)
        if here == 1:
            return _traced(came, nodes)
        if here in closed:
            continue
        closed.add(here)
        for there in np.flatnonzero(reach[here]).tolist():
            cost = best[here] + apart(nodes[here], nodes[there])
            if cost < best.get(there, inf) - TOUCHES:
                best[there], came[there] = cost, here
                heapq.heappush(waiting, (cost + apart(nodes[there], end), there))
    return None


def _reachable(nodes: Sequence[Point], pieces: Pieces) -> Bools:
    """Which nodes see each other, shape (n, n)."""
    at = np.array(nodes)
    one, other = _pairs(len(at))
    found = np.zeros((len(at), len(at)), dtype=bool)
    found[one, other] = ~pieces.passed(at[one], at[other]).any(axis=1)
    return np.asarray(found | found.T)


@lru_cache(maxsize=256)
def _pairs(count: int) -> tuple[Ints, Ints]:
    one, other = np.triu_indices(count, 1)
    return one, other


def _traced(came: dict[int, int], nodes: Sequence[Point]) -> tuple[Point, ...]:
    places = [1]
    while places[-1] in came:
        places.append(came[places[-1]])
    return tuple(nodes[place] for place in reversed(places))
