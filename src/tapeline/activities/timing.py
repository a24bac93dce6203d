"""Planning times: what a repetition, an explanation, a change or a rest takes.

Nearly all are common practice without a source and say so in `mark`; the therapist's own
timed repetitions come first wherever she has them. The attention span "per year of age"
is not among them: nobody measured it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from types import MappingProxyType
from typing import Literal, get_args

from pydantic import TypeAdapter

from tapeline.activities.shipped import shipped_yaml
from tapeline.errors import InputError

Ages = Literal["3-4", "5-8", "any"]
Mark = Literal["sourced", "derived", "default"]

TIMING_FILE = "practice/timing.yaml"
OLDER_FROM_YEARS = 5


@dataclass(frozen=True, kw_only=True)
class TimingValue:
    """One value to plan with; `value` is used, `low` and `high` are its range."""

    key: str
    ages: Ages
    value: float
    low: float
    high: float
    unit: str
    mark: Mark
    source: str
    note: str = ""

    def __post_init__(self) -> None:
        if not 0 < self.low <= self.value <= self.high:
            raise InputError(
                f"{self.key} is {self.value:g} in a range of {self.low:g} to {self.high:g}.",
                field=self.key,
                hint="Write a value above 0 that lies in its range.",
            )


@dataclass(frozen=True, kw_only=True)
class TimingFile:
    """The file as it is: its date, the sources by id, and every value."""

    valid_from: date
    sources: Mapping[str, str]
    values: tuple[TimingValue, ...]

    def __post_init__(self) -> None:
        for value in self.values:
            if value.source not in self.sources:
                raise InputError(
                    f"{value.key} names the source {value.source!r}, which the file does not list.",
                    field=value.key,
                    hint="Add it under sources.",
                )


def timing_value(key: str, *, age_years: float | None = None) -> TimingValue:
    """One planning value, for a child of an age where it depends on age.

    Parameters
    ----------
    key
        As in ``practice/timing.yaml``, such as ``rest_s`` or ``hop_each_s``.
    age_years
        Of the child, or of the youngest in a group. Below 3 the younger band answers,
        above 8 the older one; `ages` of the result says which band that was.

    Raises
    ------
    ValueError
        No such key, or the value depends on age and none was given.
    """
    by_ages = _values().get(key)
    if by_ages is None:
        raise ValueError(f"There is no planning time {key!r}.")
    if "any" in by_ages:
        return by_ages["any"]
    if age_years is None:
        raise ValueError(f"{key} depends on age, and no age was given.")
    return by_ages["5-8" if age_years >= OLDER_FROM_YEARS else "3-4"]


def explain_s(*, is_new: bool) -> int:
    """Seconds to show and explain a game, known to the group or new to it."""
    return round(timing_value("explain_new_s" if is_new else "explain_known_s").value)


def change_s(*, age_years: float, is_first: bool = False) -> int:
    """Seconds to change from one part to the next in the same room.

    Parameters
    ----------
    age_years
        Of the youngest child.
    is_first
        Whether it is the first change of a group's first session.
    """
    seconds = timing_value("change_s", age_years=age_years).value
    factor = timing_value("first_change_factor").value if is_first else 1
    return round(seconds * factor)


def source_of(value: TimingValue) -> str:
    """The source of a planning value in full."""
    return timing_file().sources[value.source]


@cache
def timing_file() -> TimingFile:
    """Every planning value that comes with the program."""
    return TypeAdapter(TimingFile).validate_python(shipped_yaml(TIMING_FILE))


@cache
def _values() -> Mapping[str, Mapping[str, TimingValue]]:
    found: dict[str, dict[str, TimingValue]] = {}
    for value in timing_file().values:
        bands = found.setdefault(value.key, {})
        if value.ages in bands:
            raise ValueError(f"{value.key} stands twice for ages {value.ages}.")
        bands[value.ages] = value
    for key, bands in found.items():
        if set(bands) not in ({"any"}, set(get_args(Ages)) - {"any"}):
            raise ValueError(f"{key} needs a value for any age, or one for each of both bands.")
    return MappingProxyType(found)
