"""How often, how soon and how short courses are laid out in invented rooms, and whether they hold.

python -m bench.rooms [--rooms 200] [--first-seed 1000] [--best-of 20] [--json]

Rooms come from seeds (`invented_rooms.py`), from a corner of 4 m² to a hall of 185 m²; each has a
course by construction, and that course (stations in strips, to and fro) is the baseline for the
walk. Every course is read again by `tapeline.checking`. In `--best-of` of the rooms six more seeds
are laid out for the best of seven long runs; the same number of rooms gets a station too many, is
laid out twice, and loses one station after the other.
"""

from __future__ import annotations

import argparse
import json
import math
import statistics
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from bench.invented_rooms import Room, area_m2, room_and_course
from tapeline.checking.course import check_course
from tapeline.courses.course import lay_out_course
from tapeline.courses.course_file import course_json, read_course_file

SEEDS_BESIDE = 6
NEAR_THE_BEST = 1.1
LIMIT_S = 10.0
Figure = dict[str, Any]


@dataclass(frozen=True, kw_only=True)
class LaidOut:
    """One room: its course, and how long it took."""

    seed: int
    room: Room
    strips_cm: int
    course: Room
    first_s: float | None
    whole_s: float

    @property
    def is_placed(self) -> bool:
        """Whether a course was found."""
        return bool(self.course["status"] == "placed")


def main() -> None:
    """Print every figure beside its aim."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rooms", type=int, default=200, help="how many; else 200")
    parser.add_argument("--first-seed", type=int, default=1000, help="seed of the first; else 1000")
    parser.add_argument(
        "--best-of", type=int, default=20, help="rooms laid out seven times; else 20"
    )
    parser.add_argument("--json", action="store_true", help="print JSON")
    asked = parser.parse_args()
    laid = [measured(seed) for seed in range(asked.first_seed, asked.first_seed + asked.rooms)]
    some = laid[: asked.best_of]
    figures = [*figures_of_all(laid), *figures_of_some(some)]
    about = {"rooms": kinds_of_room(laid), "not_placed": [a.seed for a in laid if not a.is_placed]}
    if asked.json:
        print(json.dumps({**about, "figures": figures}, indent=2))
        return
    for name, value in (about["rooms"] | {"not placed": about["not_placed"]}).items():  # type: ignore[operator]
        print(f"{name:<44} {value}")
    for figure in figures:
        print(told(figure))


def measured(seed: int) -> LaidOut:
    """One room laid out with a clock."""
    room, strips = room_and_course(seed)
    course, first_s, whole_s = timed(room)
    return LaidOut(
        seed=seed,
        room=room,
        strips_cm=strips["walk_cm"],
        course=course,
        first_s=first_s,
        whole_s=whole_s,
    )


def timed(room: Room, *, seed: int | None = None) -> tuple[Room, float | None, float]:
    """The course, seconds to the first that was shown, and seconds in all."""
    asked = read_course_file(json.dumps(room))
    shown: list[float] = []
    began = time.perf_counter()
    course = lay_out_course(
        asked.room,
        asked.stations,
        locked=asked.locked,
        seed=asked.seed if seed is None else seed,
        watch=lambda _: shown.append(time.perf_counter() - began),
    )
    whole_s = time.perf_counter() - began
    return json.loads(course_json(course)), shown[0] if shown else None, whole_s


def kinds_of_room(laid: Sequence[LaidOut]) -> dict[str, Any]:
    """What the rooms are like."""
    areas = [area_m2(one.room) for one in laid]
    stations = [len(one.room["stations"]) for one in laid]
    return {
        "rooms": len(laid),
        "square metres": f"{min(areas):.0f} to {max(areas):.0f}, half under "
        f"{statistics.median(areas):.0f}",
        "not rectangular": sum(not _is_rectangle(one.room) for one in laid),
        "stations": f"{min(stations)} to {max(stations)}, {statistics.mean(stations):.1f} on average",
    }


def figures_of_all(laid: Sequence[LaidOut]) -> Iterator[Figure]:
    """Figures over every room."""
    faults = [fault for one in laid for fault in check_course(one.room, one.course)]
    placed = [one for one in laid if one.is_placed]
    firsts = [one.first_s for one in placed if one.first_s is not None]
    rows = [row for one in placed for row in one.course["tape"]]
    corners = sum(4 * len(one.room["stations"]) for one in placed)
    in_reach = sum(max(row["cm_a"], row["cm_b"]) <= 1000 for row in rows)
    ratios = [one.course["walk_cm"] / max(one.strips_cm, 1) for one in placed]
    yield figure("checker errors", len(faults), at_most=0)
    yield figure("placed within 10 s, share", _soon(laid), at_least=0.95)
    yield figure("first layout, median s", _rank(firsts, 0.5), at_most=0.3)
    yield figure("first layout, 95 % s", _rank(firsts, 0.95), at_most=2)
    yield figure("whole search, median s", _rank([one.whole_s for one in laid], 0.5))
    yield figure(
        "whole search, 95 % s", _rank([one.whole_s for one in laid], 0.95), at_most=LIMIT_S
    )
    yield figure("marks reached, share", in_reach / max(corners, 1), at_least=1)
    yield figure("off_by_cm, 95 %", _rank([row["off_by_cm"] for row in rows], 0.95), at_most=2.5)
    yield figure("walk / stations in strips, median", _rank(ratios, 0.5))
    yield figure("at most 1 % longer than in strips, share", _share(r <= 1.01 for r in ratios))
    bounds = [one.course["bound_cm"] / max(one.course["walk_cm"], 1) for one in placed]
    yield figure("bound / walk, median", _rank(bounds, 0.5))
    yield figure("proved shortest, share", _share(bound == 1 for bound in bounds))


def figures_of_some(some: Sequence[LaidOut]) -> Iterator[Figure]:
    """Figures that take many layouts of one room."""
    placed = [one for one in some if one.is_placed]
    near = [one.course["walk_cm"] <= NEAR_THE_BEST * best_of_seven(one) for one in placed]
    yield figure("within 10 % of the best of seven, share", _share(near), at_least=0.9)
    verdicts = [misfit(one.room) for one in some]
    yield figure("misfit verdict, slowest s", max(s for s, _ in verdicts), at_most=LIMIT_S)
    yield figure("misfits with a reason, share", _share(told for _, told in verdicts), at_least=1)
    again = [timed(one.room)[0] == one.course for one in some]
    yield figure("same seed, same course, share", _share(again), at_least=1)
    fewer = [found for one in placed for found in without_each(one.room)]
    yield figure("still placed with one station less, share", _share(fewer), at_least=1)


def best_of_seven(one: LaidOut) -> int:
    """The shortest walk of this seed and six others."""
    others = [timed(one.room, seed=one.seed + 7919 * k)[0] for k in range(1, SEEDS_BESIDE + 1)]
    walks = [int(course["walk_cm"]) for course in others if course["status"] == "placed"]
    return min([int(one.course["walk_cm"]), *walks])


def misfit(room: Room) -> tuple[float, bool]:
    """Seconds to the verdict where one station is too many, and whether it says why."""
    xs, ys = zip(*room["room"], strict=True)
    raft = {
        **room["stations"][0],
        "id": "raft",
        "length": (max(xs) - min(xs)) * 9 // 10,
        "width": (max(ys) - min(ys)) * 9 // 10,
        "wall": None,
        "sight": None,
    }
    course, _, whole_s = timed({**room, "stations": [*room["stations"][:7], raft]})
    return whole_s, course["status"] != "placed" and bool(course["reasons"])


def without_each(room: Room) -> Iterator[bool]:
    """Whether the room is still placed without each of its stations."""
    for left_out in room["stations"] if len(room["stations"]) > 1 else ():
        kept = [row for row in room["stations"] if row is not left_out]
        yield timed({**room, "stations": kept})[0]["status"] == "placed"


def figure(
    name: str, value: float, *, at_most: float | None = None, at_least: float | None = None
) -> Figure:
    """One figure with its aim, and whether it is met; None where no aim is set."""
    aim = at_most if at_most is not None else at_least
    met = None if aim is None else value <= aim if at_most is not None else value >= aim
    side = "" if aim is None else "at most" if at_most is not None else "at least"
    return {
        "name": name,
        "value": round(value, 3),
        "aim": f"{side} {aim}" if side else "",
        "met": met,
    }


def told(row: Figure) -> str:
    """A figure as one line."""
    met = {None: "", True: "met", False: "NOT MET"}[row["met"]]
    return f"{row['name']:<44} {row['value']:>9g}   {row['aim']:<14} {met}".rstrip()


def _soon(laid: Sequence[LaidOut]) -> float:
    return _share(one.is_placed and (one.first_s or 0) <= LIMIT_S for one in laid)


def _share(values: Iterable[bool]) -> float:
    some = list(values)
    return sum(some) / len(some) if some else math.nan


def _rank(values: Sequence[float], share: float) -> float:
    """The nearest rank: with 20 values and .95, the 19th smallest."""
    return sorted(values)[max(0, math.ceil(share * len(values)) - 1)] if values else math.nan


def _is_rectangle(room: Room) -> bool:
    corners = room["room"]
    return len(corners) == 4 and len({x for x, _ in corners}) == len({y for _, y in corners}) == 2


if __name__ == "__main__":
    main()
