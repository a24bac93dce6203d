"""How far apart marks lie for a group: one row, two rows in two patterns, or a fan.

A jump or a hop starts from the child's own best, else from a short default by age that is a
rule of thumb to be checked with the child; a footstep from the child's own, else from stature.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import ceil, floor
from typing import Any, Literal

from tapeline.activities.shipped import shipped_rows, shipped_yaml
from tapeline.courses.bodies import Body

Step = Literal["jump", "hop", "footstep"]
Basis = Literal["own", "rule_of_thumb", "stature"]


@dataclass(frozen=True, kw_only=True)
class Gap:
    """What one child can step, jump or hop with ease, from least to most, and what it rests on."""

    child: str
    least_cm: int
    most_cm: int
    basis: Basis


@dataclass(frozen=True, kw_only=True)
class Row:
    """Marks this far apart, and whom they serve."""

    spacing_cm: int
    children: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Spacing:
    """How marks lie: `rows` from the nearest marks to the widest; a fan runs between two."""

    rows: tuple[Row, ...]
    is_fan: bool = False

    @property
    def widest_cm(self) -> int:
        """The largest spacing, which the station's length is built by."""
        return self.rows[-1].spacing_cm


def gap_of(body: Body, step: Step) -> Gap:
    """What a child can step, jump or hop with ease."""
    if step == "footstep":
        return _footstep(body)
    share = _values()["own_share"]
    own = body.own_jump_cm if step == "jump" else body.own_hop_cm
    if own:
        return _gap(body, own * share["least"], own * share["most"], "own")
    one_foot = 1.0 if step == "jump" else _values()["one_foot"]["of_two_feet"]
    if body.own_jump_cm:
        best = body.own_jump_cm * one_foot
        return _gap(body, best * share["least"], best * share["most"], "rule_of_thumb")
    thumb = _values()["of_median_jump"]
    median = median_jump_cm(body.age_months) * one_foot
    return _gap(body, median * thumb["least"], median * thumb["most"], "rule_of_thumb")


def _footstep(body: Body) -> Gap:
    values = _values()["footstep"]
    if body.own_footstep_cm:
        own = body.own_footstep_cm
        return _gap(body, own * values["least"], own, "own")
    most = values["of_stature"] * body.shortest_cm
    least = values["of_stature"] * body.tallest_cm * values["least"]
    return _gap(body, min(least, most), most, "stature")


def _gap(body: Body, least: float, most: float, basis: Basis) -> Gap:
    whole = max(1, floor(most))
    return Gap(child=body.id, least_cm=min(ceil(least), whole), most_cm=whole, basis=basis)


def spacing_for(gaps: Sequence[Gap]) -> Spacing:
    """As few rows as serve every child; beyond two, a fan from the shortest to the longest.

    The fewest points that meet all of a set of ranges: take them by their upper ends, and put
    a point at the end of the first that has none. A row's spacing is the middle of what all
    its children share, rounded down.
    """
    groups: list[list[Gap]] = []
    for gap in sorted(gaps, key=lambda one: (one.most_cm, one.child)):
        if groups and gap.least_cm <= groups[-1][0].most_cm:
            groups[-1].append(gap)
        else:
            groups.append([gap])
    rows = tuple(_row(group) for group in groups)
    if len(rows) <= 2:
        return Spacing(rows=rows)
    return Spacing(rows=(rows[0], rows[-1]), is_fan=True)


def _row(group: Sequence[Gap]) -> Row:
    least, most = max(gap.least_cm for gap in group), min(gap.most_cm for gap in group)
    return Row(spacing_cm=(least + most) // 2, children=tuple(gap.child for gap in group))


def median_jump_cm(age_months: int) -> float:
    """About the median standing long jump at an age, the lower of both sexes.

    The first or last row of the table answers for who is younger or older; it ends at 6 years,
    so the default stays short above that.
    """
    ages = _jumps()
    of_age = [age for age in ages if age <= age_months / 12] or [min(ages)]
    return min(ages[max(of_age)])


@cache
def _jumps() -> dict[float, list[float]]:
    found: dict[float, list[float]] = {}
    for row in shipped_rows("growth/standing_long_jump.csv"):
        middle = (int(row["lower_cm"]) + int(row["upper_cm"])) / 2
        found.setdefault(float(row["age_from_y"]), []).append(middle)
    return found


@cache
def _values() -> dict[str, Any]:
    values: dict[str, Any] = shipped_yaml("practice/stations.yaml")["spacing"]
    return values
