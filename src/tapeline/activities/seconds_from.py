"""Where the seconds of a version come from: a row of the planning times, or nobody knows.

Nearly all planning times are common practice without a source. A version whose seconds lie on a
row of them can name it, and has its mark; every other one is a default.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from pydantic import TypeAdapter

from tapeline.activities.models import SecondsMark, Version
from tapeline.activities.shipped import shipped_yaml
from tapeline.activities.timing import timing_value
from tapeline.errors import InputError

FILE = "practice/seconds_from.yaml"
AGES_YEARS = (3.5, 6.0)  # one age in each band of the planning times
WEAKEST_FIRST: tuple[SecondsMark, ...] = ("default", "derived", "sourced")
ROUNDING_S = 0.01

Range = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class SecondsRow:
    """A row of the planning times with the steps it is for; `name` completes "for ..."."""

    row: str
    name: str
    steps: tuple[str, ...]
    times: float = 1.0
    plus_row: str | None = None
    plus_times: float = 1.0
    plus_s: float = 0.0

    def __post_init__(self) -> None:
        if not self.steps or self.times <= 0 or self.plus_times <= 0 or self.plus_s < 0:
            raise InputError(
                f"The row {self.row} is for {len(self.steps)} steps, times {self.times:g}, plus"
                f" {self.plus_s:g} s.",
                field=self.row,
                hint="Name a step, and numbers above 0.",
            )

    def range_s(self, age_years: float) -> Range:
        """The fewest and the most seconds for one try at this age."""
        base = timing_value(self.row, age_years=age_years)
        low, high = base.low * self.times, base.high * self.times
        if self.plus_row is not None:
            more = timing_value(self.plus_row, age_years=age_years)
            low, high = low + more.low * self.plus_times, high + more.high * self.plus_times
        return low + self.plus_s, high + self.plus_s

    def mark(self) -> SecondsMark:
        """The mark of the weakest row it rests on."""
        keys = (self.row, *([self.plus_row] if self.plus_row else []))
        marks = {timing_value(key, age_years=age).mark for key in keys for age in AGES_YEARS}
        return next(mark for mark in WEAKEST_FIRST if mark in marks)


@dataclass(frozen=True, kw_only=True)
class SecondsOrigin:
    """What a version's seconds are worth, and the row they lie on, if any."""

    mark: SecondsMark
    row: SecondsRow | None = None

    @property
    def ranges_s(self) -> tuple[Range, ...]:
        """The row's range for ages 3 to 4 and 5 to 8; nothing without a row."""
        return tuple(self.row.range_s(age) for age in AGES_YEARS) if self.row else ()


def seconds_origin(version: Version) -> SecondsOrigin:
    """Where the seconds of a version come from.

    What the version says itself goes first. Else the row of its step, where the seconds lie in
    the row's range at both ages; else a default.
    """
    if version.seconds_mark != "default":
        return SecondsOrigin(mark=version.seconds_mark)
    row = _by_step().get(version.step or "")
    if row is None or version.unit != "tries" or not _lies_on(row, version):
        return SecondsOrigin(mark="default")
    return SecondsOrigin(mark=row.mark(), row=row)


def _lies_on(row: SecondsRow, version: Version) -> bool:
    for seconds, age in zip(version.seconds_per_unit, AGES_YEARS, strict=True):
        low, high = row.range_s(age)
        if not low - ROUNDING_S <= seconds <= high + ROUNDING_S:
            return False
    return True


@cache
def seconds_rows() -> tuple[SecondsRow, ...]:
    """Every row of the file, in its order."""
    return TypeAdapter(tuple[SecondsRow, ...]).validate_python(tuple(shipped_yaml(FILE)["rows"]))


@cache
def _by_step() -> Mapping[str, SecondsRow]:
    found: dict[str, SecondsRow] = {}
    for row in seconds_rows():
        for step in row.steps:
            if step in found:
                raise ValueError(f"{step} lies on {found[step].row} and on {row.row}.")
            found[step] = row
    return MappingProxyType(found)
