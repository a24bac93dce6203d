"""The marks of a station, in its own frame: x from the back, y from the right side.

Each mark says first how much floor it needs, then where it lies once the station's size is
known. Words say the same with distances from the back, so that one person with a tape along the
middle can lay them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tapeline.courses.bodies import device_space_cm
from tapeline.courses.shapes import Point
from tapeline.courses.station_plans import MarkPlan, StationPlan, stations_file, step_of
from tapeline.courses.station_rows import STRIP_CM, laid_plans, lay_rows, rows_across, rows_of
from tapeline.courses.station_values import Frame, Laid, Mark, Player


def floor_of_marks(
    plan: StationPlan, players: Sequence[Player], *, marks: int | None = None
) -> tuple[int, int]:
    """Length and width that the marks need.

    Parameters
    ----------
    marks
        The most marks in a row, where the floor is short; None = all.
    """
    rows = list(rows_of(plan, players, marks=marks))
    lengths = [row.length_cm for row in rows]
    widths = [sum(row.width_cm for row in rows)]
    target = target_of(plan)
    for one in laid_plans(plan, players):
        if one.kind == "stand":
            farthest = max(distances(one, players), default=0)
            lengths.append(farthest + target + stations_file()["standing"])
        if one.kind == "line":
            widths.append(_apart(one, players) + 2 * stations_file()["beside_line"])
        if one.kind == "gate":
            widths.append(gate_cm(players) + 2 * one.size_cm)
        if one.kind in ("thing", "ring", "target"):
            widths.append(one.wide_cm or one.size_cm)
            lengths.append(one.size_cm)
    return max(lengths, default=0), max(widths, default=0)


def lay_marks(
    plan: StationPlan, players: Sequence[Player], frame: Frame, *, marks: int | None = None
) -> Laid:
    """Every mark of a station on a floor, with its words."""
    pieces = [lay_rows(rows, across, frame) for rows, across in rows_across(plan, players, marks)]
    for one in laid_plans(plan, players):
        if one.kind != "row":
            pieces.append(_lay(one, plan, players, frame))
    return Laid(
        marks=tuple(mark for piece in pieces for mark in piece.marks),
        words=tuple(word for piece in pieces for word in piece.words),
        checks=tuple(dict.fromkeys(check for piece in pieces for check in piece.checks)),
    )


def distances(plan: MarkPlan, players: Iterable[Player]) -> tuple[int, ...]:
    """The distances from the target that these children stand at, nearest first."""
    steps = {step_of(player.version) for player in players}
    return tuple(sorted({far for step, far in plan.far_cm.items() if step in steps}))


def target_of(plan: StationPlan) -> int:
    """How deep the target at the front is."""
    return next((one.size_cm for one in plan.marks if one.kind == "target"), 0)


def gate_cm(players: Iterable[Player]) -> int:
    """The opening that the widest of these children goes through."""
    widest = max(player.body.at_least("shoulder_breadth_bideltoid") for player in players)
    return widest + 2 * int(stations_file()["gate_beside"])


def lying_cm(players: Iterable[Player]) -> int:
    """From the feet to the hands of the tallest who lies with long arms."""
    return max(player.body.at_least("vertical_grip_reach") for player in players)


def _lay(one: MarkPlan, plan: StationPlan, players: Sequence[Player], frame: Frame) -> Laid:
    if one.kind == "line":
        return _line(one, players, frame)
    if one.kind in ("stand", "halfway"):
        return _stands(one, plan, players, frame)
    if one.kind == "gate":
        return _gate(one, players, frame)
    at = Point(frame.along("front" if one.kind == "target" else one.at, one.size_cm), frame.middle)
    where = f"its middle {at.x} cm from the back."
    if one.kind in ("thing", "target"):
        box = _box(at, one.size_cm, one.wide_cm or one.size_cm)
        name = one.what[0].upper() + one.what[1:]
        return Laid(marks=(Mark(shape="thing", at=box),), words=(f"{name}: {where}",))
    if one.kind == "ring":
        ring = Mark(shape="ring", at=(at,), size_cm=one.size_cm)
        return Laid(
            marks=(ring,), words=(f"Tape ring {one.size_cm} cm across ({one.what}): {where}",)
        )
    if one.kind == "across":
        strip = Mark(shape="strip", at=(at,), size_cm=STRIP_CM)
        return Laid(marks=(strip,), words=(f"Tape strip across ({one.what}): {where}",))
    spot = Mark(shape="cross", at=(at,), size_cm=20)
    return Laid(marks=(spot,), words=(f"Tape mark ({one.what}): {where}",))


def _box(at: Point, deep: int, wide: int) -> tuple[Point, ...]:
    return tuple(
        Point(at.x + dx * deep // 2, at.y + dy * wide // 2)
        for dx, dy in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )


def _apart(one: MarkPlan, players: Sequence[Player]) -> int:
    beside = 2 * int(stations_file()["beside_line"])
    if one.lying:
        return lying_cm(players) + beside
    if not one.wheels:
        return one.apart_cm or 0
    return beside + max(
        player.body.device.width_cm or device_space_cm(player.body.gets_about, "place_width")
        for player in players
        if player.body.has_device
    )


def _line(one: MarkPlan, players: Sequence[Player], frame: Frame) -> Laid:
    apart = _apart(one, players)
    sides = (-apart // 2, apart - apart // 2) if apart else (0,)
    swing = (frame.width_cm - apart) // 4 if one.bends else 0
    marks = []
    for side in sides:
        points = [
            Point(
                frame.start_cm + round(frame.length_cm * part / (one.bends + 1)),
                frame.middle + side + (swing if part % 2 else -swing),
            )
            for part in range(one.bends + 2)
        ]
        marks.append(Mark(shape="line", at=tuple(points), pattern=1 if one.wheels else 0))
    bends = f" with {one.bends} bends" if one.bends else ""
    whom = " for wheels or a frame" if one.wheels else " for who rolls" if one.lying else ""
    long = f"{frame.length_cm} cm long."
    words = (
        f"Two tape lines {apart} cm apart{bends}{whom}, {long}"
        if apart
        else f"One tape line along the middle{bends}, {long}"
    )
    return Laid(marks=tuple(marks), words=(words,))


def _stands(one: MarkPlan, plan: StationPlan, players: Sequence[Player], frame: Frame) -> Laid:
    """Strips to stand behind, or marks half way, one pattern for each distance."""
    part = 2 if one.kind == "halfway" else 1
    marks, words = [], []
    for place, far in enumerate(distances(one, players)):
        at = Point(frame.end_cm - target_of(plan) - far // part, frame.middle)
        where = f"{at.x} cm from the back."
        if one.kind == "halfway":
            marks.append(Mark(shape="cross", at=(at,), size_cm=20, pattern=place))
            words.append(f"Tape cross ({one.what}): {where}")
        else:
            marks.append(Mark(shape="strip", at=(at,), size_cm=STRIP_CM, pattern=place))
            words.append(f"Tape to stand behind, {far} cm from the target: {where}")
    return Laid(marks=tuple(marks), words=tuple(words))


def _gate(one: MarkPlan, players: Sequence[Player], frame: Frame) -> Laid:
    opening = gate_cm(players)
    x = frame.along("middle", one.size_cm)
    away = opening // 2 + one.size_cm // 2
    marks = tuple(
        Mark(shape="thing", at=_box(Point(x, frame.middle + dy), one.size_cm, one.size_cm))
        for dy in (-away, away)
    )
    words = f"Gate ({one.what}): at least {opening} cm wide, its middle {x} cm from the back."
    return Laid(marks=marks, words=(words,))
