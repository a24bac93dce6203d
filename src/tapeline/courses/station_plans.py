"""How each activity's station is laid out, as ``practice/stations.yaml`` says it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any, Literal

from pydantic import TypeAdapter

from tapeline.activities.models import Activity, Version
from tapeline.activities.shipped import shipped_yaml
from tapeline.courses.rooms import Side
from tapeline.courses.spacing import Step

MarkKind = Literal[
    "line", "row", "stand", "halfway", "target", "thing", "spot", "across", "ring", "gate"
]
Drawn = Literal["cross", "strip", "box", "roll", "puddle"]
End = Literal["front", "middle", "back"]
HeightKind = Literal["wall", "line", "table"]
Source = Literal["practice", "step", "judgement"]

SENDS = frozenset({"throw", "swing_tool"})
FALLS = frozenset({"height", "climb"})


@dataclass(frozen=True, kw_only=True)
class MarkPlan:
    """One mark or row of marks; the file says what each field means."""

    kind: MarkKind
    what: str = ""
    at: End = "middle"
    size_cm: int = 30
    wide_cm: int | None = None
    apart_cm: int | None = None
    bends: int = 0
    wheels: bool = False
    lying: bool = False
    by: Step | None = None
    count: int = 1
    drawn: Drawn = "cross"
    far_cm: Mapping[str, int] = field(default_factory=dict)
    steps: tuple[str, ...] = ()
    source: Source = "practice"

    def serves(self, version: Version) -> bool:
        """Whether the mark is laid for a version."""
        return not self.steps or step_of(version) in self.steps


@dataclass(frozen=True, kw_only=True)
class StationPlan:
    """How one activity's station is laid out."""

    marks: tuple[MarkPlan, ...] = ()
    sends: bool = False
    returns: bool = False
    runs: bool = False
    lies_down: bool = False
    wall: tuple[Side, ...] = ()
    wall_steps: tuple[str, ...] = ()
    high_steps: tuple[str, ...] = ()
    roll_steps: tuple[str, ...] = ()
    heights: tuple[HeightKind, ...] = ()
    spotter: Side = "right"


def station_plan(activity: Activity) -> StationPlan:
    """How an activity's station is laid out.

    One that the file does not know, such as an activity of her own, is a bare floor of its own
    size; what its versions touch decides whether something flies, runs or is stood on.
    """
    known = station_plans().get(activity.id)
    if known is not None:
        return known
    touched = {word for version in activity.versions for word in version.touches}
    return StationPlan(
        sends=bool(touched & SENDS),
        runs="run" in touched,
        high_steps=tuple(
            step_of(version) for version in activity.versions if FALLS & set(version.touches)
        ),
    )


def step_of(version: Version) -> str:
    """A version's step without its skill, such as ``two_metres``; empty where it has none."""
    return (version.step or "").rpartition(".")[2]


@cache
def station_plans() -> Mapping[str, StationPlan]:
    """The stations that come with the program, by activity."""
    return TypeAdapter(dict[str, StationPlan]).validate_python(stations_file()["stations"])


@cache
def stations_file() -> dict[str, Any]:
    """``practice/stations.yaml`` as it is."""
    content: dict[str, Any] = shipped_yaml("practice/stations.yaml")
    return content
