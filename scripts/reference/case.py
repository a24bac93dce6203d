"""One case of a reference file, and what its comparison says."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from tapeline.errors import InputError

Verdict = Literal["agrees", "differs", "not offered"]
SLACK = 1e-12
DIGITS = 10


class Printed(float):
    """A number that remembers how it was printed."""

    def __new__(cls, text: str) -> Printed:
        made = super().__new__(cls, text)
        made.text = text
        return made

    text: str


class NotOffered(Exception):
    """The measure, convention or argument of a case is not offered; the message says why."""


@dataclass(frozen=True, kw_only=True)
class Spread:
    """A found value that the printed digits of the case's own data leave open."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What is said of one case."""

    id: str
    verdict: Verdict
    expected: str
    found: str
    remark: str = ""

    @property
    def line(self) -> str:
        """The case on one line."""
        remark = f" ({self.remark})" if self.remark else ""
        if self.verdict == "not offered":
            return f"{self.id}: expected {self.expected}; not offered: {self.remark}"
        return f"{self.id}: expected {self.expected}; found {self.found}; {self.verdict}{remark}"


def read_cases(path: Path) -> Iterator[tuple[str, Any]]:
    """Id and content of each case of a file of either form.

    Raises
    ------
    InputError
        The file cannot be read, or holds no ``examples``.
    """
    try:
        whole = json.loads(path.read_text(encoding="utf-8"), parse_float=Printed)
    except (OSError, UnicodeDecodeError, json.JSONDecodeError) as error:
        raise InputError(
            f"The file {path} cannot be read as JSON: {error}.",
            field="file",
            hint="Give a file of worked examples or of ability filter examples.",
        ) from None
    examples = whole.get("examples") if isinstance(whole, dict) else whole
    if isinstance(examples, Mapping):
        yield from examples.items()
    elif isinstance(examples, list):
        for number, case in enumerate(examples, 1):
            named = isinstance(case, Mapping) and "id" in case
            yield (str(case["id"]) if named else f"case {number}"), case
    else:
        raise InputError(
            f"The file {path} has no list of examples.",
            field="file",
            hint="Give a file of worked examples or of ability filter examples.",
        )


def compare(
    key: str, expected: Mapping[str, Any], found: Mapping[str, Any], tolerance: float | None
) -> Outcome:
    """Each expected value beside the found one; what was not found is named, never counted.

    Parameters
    ----------
    found
        A number, a `Spread`, a list of them (None = this one is not offered), by name.
    tolerance
        Of the case; None = half of the last digit printed.
    """
    wanted = [(name, value) for name, value in _flat(expected) if value is not None]
    pairs = [(name, value, _look(found, name)) for name, value in wanted]
    offered = [(name, value, one) for name, value, one in pairs if one is not None]
    said = ", ".join(f"{name} {_shown(value)}" for name, value in wanted)
    left_out = ", ".join(name for name, _, one in pairs if one is None)
    if not offered:
        why = f"{left_out} of this measure" if wanted else "nothing is expected"
        return Outcome(id=key, verdict="not offered", expected=said, found="", remark=why)
    agrees = all(
        _is_close(value, one, _within(name, expected) if tolerance is None else tolerance)
        for name, value, one in offered
    )
    remarks = [f"{left_out} not offered"] if left_out else []
    remarks += [_open(one) for _, _, one in offered if isinstance(one, Spread)]
    return Outcome(
        id=key,
        verdict="agrees" if agrees else "differs",
        expected=said,
        found=", ".join(f"{name} {_shown(one)}" for name, _, one in offered),
        remark="; ".join(remarks),
    )


def tolerance_of(case: Mapping[str, Any]) -> float | None:
    """The tolerance that a case states; None where it states none."""
    stated = case.get("tolerance")
    return float(stated) if _is_number(stated) and stated >= 0 else None


def _flat(values: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """Lists become single values: CI[0], CI[1]."""
    for name, value in values.items():
        if isinstance(value, list):
            yield from ((f"{name}[{at}]", one) for at, one in enumerate(value))
        else:
            yield name, value


def _look(found: Mapping[str, Any], name: str) -> float | Spread | None:
    key, _, place = name.partition("[")
    value = found.get(key)
    if not place:
        return None if isinstance(value, list | tuple) else value
    at = int(place.rstrip("]"))
    is_there = isinstance(value, list | tuple) and at < len(value)
    return value[at] if is_there and value is not None else None


def _within(name: str, expected: Mapping[str, Any]) -> float:
    """Half of the last digit printed; numbers of one list are printed alike, zeros left out."""
    value = expected[name.partition("[")[0]]
    numbers = [one for one in (value if isinstance(value, list) else [value]) if _is_number(one)]
    return min((half_digit(one) for one in numbers), default=0.0)


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _is_close(expected: Any, found: float | Spread, within: float) -> bool:
    if not _is_number(expected):
        return False
    within += SLACK * max(1.0, abs(expected))
    if isinstance(found, Spread):
        return found.low - within <= expected <= found.high + within
    return math.isfinite(found) and abs(found - expected) <= within


def half_digit(value: float) -> float:
    """Half of the last digit with which a number was printed; 0.5 for a whole one."""
    text = value.text.lower() if isinstance(value, Printed) else str(value)
    digits, _, power = text.partition("e")
    places = len(digits.partition(".")[2])
    return float(0.5 * 10.0 ** (int(power or 0) - places))


def _open(one: Spread) -> str:
    return f"{one.low:.4g} to {one.high:.4g} by the digits that the case's data leave open"


def _shown(value: Any) -> str:
    if isinstance(value, Spread):
        value = value.value
    if isinstance(value, Printed):
        return value.text
    return f"{value:.{DIGITS}g}" if isinstance(value, float) else str(value)
