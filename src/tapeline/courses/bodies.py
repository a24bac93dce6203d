"""A child as far as a station is built for it: stature, reaches, footsteps, jumps, a device.

Own measures come first. Without them stature is a range, lowest and highest of both tables, and
nothing is built for one average child. Fractions of stature are read off a straight line
between the middles of whole years of age (our choice).
"""

from __future__ import annotations

import datetime as dt
from bisect import bisect_right
from dataclasses import dataclass
from functools import cache
from math import ceil, floor
from typing import Literal

from tapeline.activities.models import GetsAbout
from tapeline.activities.shipped import shipped_rows
from tapeline.caseload.people import Child
from tapeline.courses.growth import stature_limits_cm

Measure = Literal[
    "eye_height_seated",
    "foot_length",
    "shoulder_breadth_bideltoid",
    "shoulder_elbow_length",
    "sitting_height",
    "step_height_max",
    "suprasternale_height",
    "tibiale_height",
    "vertical_grip_reach",
    "waist_height",
]
DEVICES: tuple[GetsAbout, ...] = ("wheelchair", "walking_frame")
YOUNGEST_MONTHS, OLDEST_MONTHS = 24, 240
LOW_TAIL = 1.645  # standard deviations from the mean to the 5th percentile
ROOM_BESIDE_A_DEVICE_CM = 15


@dataclass(frozen=True, kw_only=True)
class DeviceSize:
    """Her own measure of a child's wheelchair or frame: its width and turning circle."""

    width_cm: int | None = None
    turning_cm: int | None = None


@dataclass(frozen=True, kw_only=True)
class Body:
    """What is known of a child's size on a date; lengths in whole centimetres.

    `shortest_cm` and `tallest_cm` are equal where the child was measured.
    """

    id: str
    name: str
    age_months: int
    gets_about: GetsAbout
    shortest_cm: int
    tallest_cm: int
    own_jump_cm: int | None = None
    own_hop_cm: int | None = None
    own_footstep_cm: int | None = None
    device: DeviceSize = DeviceSize()

    @property
    def is_measured(self) -> bool:
        """Whether the height is the child's own."""
        return self.shortest_cm == self.tallest_cm

    @property
    def has_device(self) -> bool:
        """Whether the child comes with a wheelchair or a walking frame."""
        return self.gets_about in DEVICES

    @property
    def lane_cm(self) -> int:
        """The width that the child's wheelchair or frame needs to pass; 0 on foot."""
        if not self.has_device:
            return 0
        if self.device.width_cm:
            return self.device.width_cm + 2 * ROOM_BESIDE_A_DEVICE_CM
        return device_space_cm(self.gets_about, "lane")

    @property
    def turning_cm(self) -> int:
        """The circle in which the child's wheelchair or frame turns round; 0 on foot."""
        if not self.has_device:
            return 0
        return self.device.turning_cm or device_space_cm(self.gets_about, "turning")

    @property
    def place_cm(self) -> int:
        """The length of floor that the child's wheelchair or frame stands on; 0 on foot."""
        return device_space_cm(self.gets_about, "place_length") if self.has_device else 0

    def at_most(self, measure: Measure) -> int:
        """A dimension of the shortest child this may be: what a reach is built by."""
        return floor(self.shortest_cm * self._share(measure))

    def at_least(self, measure: Measure) -> int:
        """A dimension of the tallest child this may be: what an opening is built by."""
        return ceil(self.tallest_cm * self._share(measure))

    @property
    def eye_height_cm(self) -> tuple[int, int]:
        """Eyes over the floor, standing, lowest and highest.

        The survey measured eyes seated only: stature less what of the sitting height lies
        above the eyes.
        """
        share = 1 - self._share("sitting_height") + self._share("eye_height_seated")
        return floor(self.shortest_cm * share), ceil(self.tallest_cm * share)

    @property
    def elbow_height_cm(self) -> int:
        """Elbows over the floor, standing, at the lowest.

        The survey has no such height: the breastbone notch less the upper arm.
        """
        share = self._share("suprasternale_height") - self._share("shoulder_elbow_length")
        return floor(self.shortest_cm * share)

    @property
    def highest_lift_cm(self) -> int:
        """What nineteen of twenty children so tall can lift a foot to: a ceiling, never a target."""
        ratio, spread = _ratio("step_height_max", self.age_months / 12)
        return floor(self.shortest_cm * (ratio - LOW_TAIL * spread))

    def _share(self, measure: Measure) -> float:
        return _ratio(measure, self.age_months / 12)[0]


def body_of(child: Child, on: dt.date) -> Body:
    """A child's size on a date.

    Outside the table's ages, 2 to 20 years, its first or last row answers.
    """
    months = child.age_months(on)
    lowest, highest = (
        (child.height_cm, child.height_cm)
        if child.height_cm
        else stature_limits_cm(min(max(months, YOUNGEST_MONTHS), OLDEST_MONTHS))
    )
    return Body(
        id=child.id,
        name=child.name,
        age_months=months,
        gets_about=child.gets_about,
        shortest_cm=lowest,
        tallest_cm=highest,
        own_jump_cm=child.jump_cm,
        own_hop_cm=child.hop_cm,
        own_footstep_cm=child.stride_cm // 2 if child.stride_cm else None,
        device=DeviceSize(width_cm=child.device_width_cm, turning_cm=child.turning_cm),
    )


def device_space_cm(gets_about: GetsAbout, dimension: str) -> int:
    """A dimension of ``growth/device_space.csv``, rounded up to whole centimetres."""
    return -(-_device_space()[gets_about, dimension] // 10)


def chair_reach_cm(age_months: int) -> tuple[int, int]:
    """Lowest and highest reach from a wheelchair at an age."""
    ages = "3_4" if age_months < 60 else "5_8"
    low, high = (_device_space()["wheelchair", f"reach_{end}_{ages}"] for end in ("low", "high"))
    return -(-low // 10), high // 10


def _ratio(measure: Measure, age_years: float) -> tuple[float, float]:
    """Mean and standard deviation of a dimension over stature; the ends hold beyond them."""
    ages, rows = _dimensions()[measure]
    if age_years <= ages[0]:
        return rows[0]
    if age_years >= ages[-1]:
        return rows[-1]
    above = bisect_right(ages, age_years)
    part = (age_years - ages[above - 1]) / (ages[above] - ages[above - 1])
    (ratio, spread), (next_ratio, next_spread) = rows[above - 1], rows[above]
    return ratio + part * (next_ratio - ratio), spread + part * (next_spread - spread)


@cache
def _dimensions() -> dict[str, tuple[list[float], list[tuple[float, float]]]]:
    found: dict[str, tuple[list[float], list[tuple[float, float]]]] = {}
    for row in shipped_rows("growth/station_dimensions.csv"):
        ages, rows = found.setdefault(row["measure"], ([], []))
        ages.append(float(row["age_mid_y"]))
        rows.append((float(row["ratio"]), float(row["ratio_sd"])))
    return found


@cache
def _device_space() -> dict[tuple[str, str], int]:
    return {
        (row["gets_about"], row["dimension"]): int(row["value_mm"])
        for row in shipped_rows("growth/device_space.csv")
    }
