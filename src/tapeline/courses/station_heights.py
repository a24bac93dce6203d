"""Heights at a station: ceilings and bands from the children's own bodies, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from tapeline.courses.bodies import chair_reach_cm, device_space_cm
from tapeline.courses.station_plans import HeightKind, StationPlan, stations_file
from tapeline.courses.station_values import Player


@dataclass(frozen=True, kw_only=True)
class Height:
    """A height at a station: `at_most_cm` is a ceiling, `at_least_cm` a floor; words say both."""

    what: str
    at_most_cm: int | None = None
    at_least_cm: int | None = None
    words: str


def heights_of(plan: StationPlan, players: Sequence[Player]) -> tuple[Height, ...]:
    """Every height that matters at a station, for these children."""
    found = list(_step(plan, players))
    found += _roll(plan, players)
    for kind in plan.heights:
        found += _KINDS[kind](players)
    return tuple(found)


def step_ceiling_cm(players: Sequence[Player], surface: str = "floor") -> int:
    """The highest step for these children over a surface; never a target.

    The youngest there sets the height on a bare floor, and nothing is higher than what the
    shortest child can lift a foot to.
    """
    values = stations_file()["heights"]
    youngest = min(player.body.age_months for player in players)
    key = "floor_under_5" if surface == "floor" and youngest < 60 else surface
    return min(int(values[key]), min(player.body.highest_lift_cm for player in players))


def _step(plan: StationPlan, players: Sequence[Player]) -> Iterator[Height]:
    using = [player for player in players if player.is_up_at(plan.high_steps)]
    if not using:
        return
    bare, mat = step_ceiling_cm(using), step_ceiling_cm(using, "landing_mat")
    yield Height(
        what="step",
        at_most_cm=bare,
        words=f"Step at most {bare} cm high on a bare floor, at most {mat} cm before a fixed mat that "
        "is sold for landing. A ceiling, not a target: measure your step. Cushions and exercise "
        "mats do not count.",
    )


def _roll(plan: StationPlan, players: Sequence[Player]) -> Iterator[Height]:
    using = [player for player in players if player.is_up_at(plan.roll_steps)]
    if not using:
        return
    values = stations_file()["heights"]
    shin = min(player.body.at_most("tibiale_height") for player in using)
    ceiling = min(int(values["roll"]), int(shin * values["of_shin"]))
    yield Height(
        what="roll",
        at_most_cm=ceiling,
        words=f"Rolls at most {ceiling} cm high. A ceiling, not a target.",
    )


def _wall(players: Sequence[Player]) -> Iterator[Height]:
    """A sheet round the eyes of each child, and nothing that all must reach above the lowest."""
    bands = [_sheet_of(player) for player in players]
    low, high = min(band[0] for band in bands), max(band[1] for band in bands)
    reach = min(_reach_up(player) for player in players)
    yield Height(
        what="sheet",
        at_least_cm=low,
        at_most_cm=reach,
        words=f"Sheet from {low} to {high} cm over the floor. What every child must reach is at "
        f"most {reach} cm high.",
    )


def _sheet_of(player: Player) -> tuple[int, int]:
    """From where to where a child works on a wall; seated, what is reached from a wheelchair."""
    if player.sits:
        return chair_reach_cm(player.body.age_months)
    around = int(stations_file()["heights"]["around_eyes"])
    lowest, highest = player.body.eye_height_cm
    return lowest - around, min(highest + around, _reach_up(player))


def _reach_up(player: Player) -> int:
    if player.sits:
        return chair_reach_cm(player.body.age_months)[1]
    return player.body.at_most("vertical_grip_reach")


def _line(players: Sequence[Player]) -> Iterator[Height]:
    """What is thrown above: as high as the eyes of the lowest child, seated ones lower."""
    standing = [player for player in players if not player.sits]
    if standing:
        eyes = min(player.body.eye_height_cm[0] for player in standing)
        yield Height(
            what="line",
            at_most_cm=eyes,
            words=f"What is aimed at stands {eyes} cm high at most: the eyes of the smallest child.",
        )


def _table(players: Sequence[Player]) -> Iterator[Height]:
    standing = [player.body for player in players if not player.sits]
    if standing:
        elbow = min(body.elbow_height_cm for body in standing)
        yield Height(
            what="table",
            at_most_cm=elbow,
            words=f"A table to stand at is at most {elbow} cm high: the elbows of the smallest child.",
        )
    if any(player.body.gets_about == "wheelchair" for player in players):
        knees = device_space_cm("wheelchair", "knee_height")
        yield Height(
            what="knees",
            at_least_cm=knees,
            words=f"For a wheelchair {knees} cm free below the table, or a tray on the lap.",
        )


_KINDS: dict[HeightKind, Callable[[Sequence[Player]], Iterator[Height]]] = {
    "wall": _wall,
    "line": _line,
    "table": _table,
}
