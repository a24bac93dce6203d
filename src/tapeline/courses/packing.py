"""Proof that stations cannot all stand in a room, wherever they are put and however turned.

Only what no course can do without is asked: clear spaces inside the box around the room and off
every upright rectangle that stands in it, no footprint in another's clear space, and clear
spaces of throws apart. What has no solution then has none with the other rules either. Whole
centimetres, every turn; a limit in steps of work, so the answer is the same every time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, permutations
from typing import TYPE_CHECKING

from tapeline.courses.rooms import Room, Stand, Station
from tapeline.courses.shapes import Box, Convex
from tapeline.courses.stands import TURNS, Turned, turned

if TYPE_CHECKING:
    from ortools.sat.python.cp_model import CpModel, IntervalVar, LinearExprT

WORK = 2.0
SEED = 1
Rows = tuple["IntervalVar", "IntervalVar"]


@dataclass(frozen=True, kw_only=True)
class _Moving:
    """A station that may move and turn: what it takes up, and what it needs.

    `spots` are the floor on which a child waits before it and comes out, `free` those parts of
    it that are off what stands in the room.
    """

    is_throw: bool
    footprint: Rows
    clear: Rows
    spots: tuple[Rows, ...]
    free: tuple[Rows, ...]


def is_too_much(
    room: Room, stations: Sequence[Station], locked: Mapping[str, Stand], *, work: float = WORK
) -> bool:
    """Whether it is proved that these stations cannot all stand in the room.

    Parameters
    ----------
    work
        Limit of the search in the solver's own units of work, not in seconds; where it is
        reached, nothing is proved.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    moving = [_moving(model, room, one, locked.get(one.id)) for one in stations]
    for one, other in permutations(moving, 2):
        for needed in (other.clear, *other.spots):
            _apart(model, one.footprint, needed)
    for one, other in combinations(moving, 2):
        if one.is_throw or other.is_throw:
            _apart(model, one.clear, other.clear)
    for box in _upright(room):
        there = _standing(model, box)
        for needed in (needed for one in moving for needed in (one.clear, *one.free)):
            _apart(model, needed, there)
    model.add_no_overlap_2d(*zip(*(one.footprint for one in moving), strict=True))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.max_deterministic_time = work
    return bool(solver.solve(model) == cp_model.INFEASIBLE)


def _moving(model: CpModel, room: Room, station: Station, locked: Stand | None) -> _Moving:
    shapes = [turned(station, turn, room.half_width_cm) for turn in TURNS]
    turns = [model.new_bool_var("") for _ in shapes]
    model.add_exactly_one(turns)
    if locked is not None:
        model.add(turns[locked.turn] == 1)
    half = room.half_width_cm
    reach = min(half, station.width_cm // 2) if station.wall else half
    along = []
    for axis, ends in enumerate(((room.box.x0, room.box.x1), (room.box.y0, room.box.y1))):
        at = model.new_int_var(*ends, "")
        if locked is not None:
            model.add(at == (locked.x, locked.y)[axis])
        size, before, after, into, out = (
            sum(is_so * values[axis] for is_so, values in zip(turns, by_turn, strict=True))
            for by_turn in zip(*map(_measures, shapes), strict=True)
        )
        beyond = (ends[0] - half, ends[1] + half)
        along.append(
            [
                _row(model, at, size, ends),
                _row(model, at - before, before + size + after, ends),
                *(_row(model, at + spot - half, 2 * half, beyond) for spot in (into, out)),
                *(_row(model, at + spot - reach, 2 * reach, ends) for spot in (into, out)),
            ]
        )
    footprint, clear, *spots = zip(*along, strict=True)
    return _Moving(
        is_throw=station.is_throw,
        footprint=footprint,
        clear=clear,
        spots=tuple(spots[:2]),
        free=tuple(spots[2:]),
    )


def _measures(shape: Turned) -> tuple[tuple[int, int], ...]:
    """Along x and along y: size, free space before and after it, spot in, spot out."""
    left, below, right, above = shape.free
    return (
        (shape.wide, shape.deep),
        (left, below),
        (right, above),
        shape.spot_in,
        shape.spot_out,
    )


def _row(
    model: CpModel, start: LinearExprT, size: LinearExprT, between: tuple[int, int]
) -> IntervalVar:
    """An interval that stays between two ends."""
    low, high = between
    begins, takes, ends = (
        model.new_int_var(least, most, "")
        for least, most in ((low, high), (0, high - low), (low, high))
    )
    model.add(begins == start)
    model.add(takes == size)
    return model.new_interval_var(begins, takes, ends, "")


def _standing(model: CpModel, box: Box) -> Rows:
    return (
        model.new_fixed_size_interval_var(box.x0, box.x1 - box.x0, ""),
        model.new_fixed_size_interval_var(box.y0, box.y1 - box.y0, ""),
    )


def _apart(model: CpModel, one: Rows, other: Rows) -> None:
    model.add_no_overlap_2d([one[0], other[0]], [one[1], other[1]])


def _upright(room: Room) -> Iterator[Box]:
    """What stands in the room, as far as it is a rectangle with sides along the room's box."""
    for piece in (*room.solid_within, *room.swept):
        box = _as_box(piece)
        if box is not None:
            yield box


def _as_box(piece: Convex) -> Box | None:
    xs, ys = sorted(set(piece[:, 0].tolist())), sorted(set(piece[:, 1].tolist()))
    if len(xs) == len(ys) == 2 and len(piece) == 4:
        return Box(xs[0], ys[0], xs[1], ys[1])
    return None
