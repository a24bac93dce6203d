"""The shortest order of the stations of a course, each way routed only when it is needed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from math import inf

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
EXACT_UP_TO = 9


def best_order(
    legs: Floats, route: Callable[[int, int], float], *, under: float = inf
) -> tuple[tuple[int, ...], float]:
    """The order in which all stations are passed once on the shortest way, and its length.

    Parameters
    ----------
    legs
        Shape (n + 2, n + 2); lower bounds of the ways from each station's spot out to each
        spot in; row n is the start, column n + 1 the end. Entries that were routed are
        overwritten with what `route` answers.
    route
        The exact way for one entry; infinite where there is none.
    under
        Give up once no order can be shorter than this.

    Notes
    -----
    The best order under the bounds whose ways all turn out exact is the best of all orders, so
    only ways that an order would use are routed. Up to nine stations all orders are weighed at
    once (dynamic programming over sets [1]_); beyond, orders are improved by moving pieces.

    References
    ----------
    .. [1] Held, M. & Karp, R. M. (1962). A dynamic programming approach to sequencing
           problems. J SIAM 10:196-210 (from memory).
    """
    count = len(legs) - 2
    is_exact = np.zeros(legs.shape, dtype=bool)
    find = _over_sets if count <= EXACT_UP_TO else _by_moves
    while True:
        order, length = find(legs)
        if length == inf or length >= under:
            return (), inf
        open_legs = [leg for leg in _legs_of(order, count) if not is_exact[leg]]
        if not open_legs:
            return order, length
        for leg in open_legs:
            legs[leg] = route(*leg)
            is_exact[leg] = True


def _legs_of(order: Sequence[int], count: int) -> list[tuple[int, int]]:
    return list(zip((count, *order), (*order, count + 1), strict=True))


def _over_sets(legs: Floats) -> tuple[tuple[int, ...], float]:
    """All orders at once: the shortest way through each set of stations to each of its last."""
    count = len(legs) - 2
    from_other = legs[:count, :count].T
    bits, layers = _sets(count)
    best = np.full((1 << count, count), inf)
    best[bits, np.arange(count)] = legs[count, :count]
    came = np.zeros((1 << count, count), dtype=np.int64)
    for passed in layers:
        before = passed[:, None] ^ bits
        through = best[before] + from_other
        is_last = (passed[:, None] & bits) > 0
        best[passed] = np.where(is_last, through.min(axis=2), inf)
        came[passed] = through.argmin(axis=2)
    ends = best[-1] + legs[:count, count + 1]
    there, length = int(ends.argmin()), float(ends.min())
    if length == inf:
        return (), inf
    order, passed_all = [], (1 << count) - 1
    while passed_all:
        order.append(there)
        passed_all, there = passed_all & ~(1 << there), int(came[passed_all, there])
    return tuple(reversed(order)), length


@cache
def _sets(count: int) -> tuple[Ints, tuple[Ints, ...]]:
    """Each station's bit, and the sets of two and more stations by their size."""
    every = np.arange(1 << count)
    size = np.array([int(one).bit_count() for one in every])
    return 1 << np.arange(count), tuple(every[size == n] for n in range(2, count + 1))


def _by_moves(legs: Floats) -> tuple[tuple[int, ...], float]:
    """An order that no moving of one to three stations in a row makes shorter."""
    count = len(legs) - 2
    order = _nearest_first(legs)
    length = _length(legs, order)
    while True:
        better = min(((_length(legs, one), one) for one in _moved(order)), default=(inf, order))
        if better[0] >= length:
            return (order, length) if length < inf else ((), inf)
        length, order = better
        if len(order) != count:
            raise ValueError("an order lost a station")


def _nearest_first(legs: Floats) -> tuple[int, ...]:
    count = len(legs) - 2
    order: list[int] = []
    here = count
    while len(order) < count:
        left = [place for place in range(count) if place not in order]
        here = min(left, key=lambda place: (legs[here, place], place))
        order.append(here)
    return tuple(order)


def _moved(order: tuple[int, ...]) -> list[tuple[int, ...]]:
    found = []
    for size in (1, 2, 3):
        for place in range(len(order) - size + 1):
            piece = order[place : place + size]
            rest = order[:place] + order[place + size :]
            for at in range(len(rest) + 1):
                found.append(rest[:at] + piece + rest[at:])
                found.append(rest[:at] + piece[::-1] + rest[at:])
    return [one for one in dict.fromkeys(found) if one != order]


def _length(legs: Floats, order: Sequence[int]) -> float:
    return float(sum(legs[leg] for leg in _legs_of(order, len(legs) - 2)))
