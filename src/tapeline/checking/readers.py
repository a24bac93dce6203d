"""Small readers of JSON and YAML values: each gives a plain value or says what is wrong.

A reader takes the value found and where it stands; it returns the value as the rest of the
checker uses it. `record` fills what is left out, so that two spellings of one record agree.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from typing import Any, NoReturn

from tapeline.errors import InputError

Reader = Callable[[Any, str], Any]
MONTH = re.compile(r"\d{4}-(0[1-9]|1[0-2])")
REQUIRED = object()


def refuse(where: str, found: Any, wanted: str) -> NoReturn:
    """Raise the sentence that says what was found where, and what belongs there."""
    shown = repr(found)
    shown = shown if len(shown) <= 40 else f"{shown[:37]}..."
    raise InputError(
        f"{where} is {shown}, where {wanted} belongs.", field=where.rsplit(", ", 1)[-1]
    )


def text(found: Any, where: str) -> str:
    """A text."""
    return found if isinstance(found, str) else refuse(where, found, "a text")


def whole(found: Any, where: str) -> int:
    """A whole number; 3.0 counts as 3."""
    if isinstance(found, float) and found.is_integer():
        return int(found)
    if isinstance(found, int) and not isinstance(found, bool):
        return found
    refuse(where, found, "a whole number")


def number(found: Any, where: str) -> float:
    """A number, always as a float."""
    if isinstance(found, int | float) and not isinstance(found, bool):
        return float(found)
    refuse(where, found, "a number")


def yes_no(found: Any, where: str) -> bool:
    """True or false."""
    return found if isinstance(found, bool) else refuse(where, found, "true or false")


def day(found: Any, where: str) -> str:
    """A date, kept as its ISO text."""
    try:
        return dt.date.fromisoformat(found).isoformat()
    except (TypeError, ValueError):
        refuse(where, found, "a date such as 2026-03-31")


def month(found: Any, where: str) -> str:
    """A month, kept as its text."""
    if isinstance(found, str) and MONTH.fullmatch(found):
        return found
    refuse(where, found, "a month such as 2021-04")


def anything(found: Any, where: str) -> Any:
    """Whatever stands there."""
    return found


def maybe(reader: Reader) -> Reader:
    """What `reader` reads, or None."""
    return lambda found, where: None if found is None else reader(found, where)


def one_of(*words: str) -> Reader:
    """One of these words."""

    def read(found: Any, where: str) -> str:
        if isinstance(found, str) and found in words:
            return found
        refuse(where, found, f"one of {', '.join(words)}")

    return read


def rows(reader: Reader) -> Reader:
    """A list, each row read by `reader`."""

    def read(found: Any, where: str) -> list[Any]:
        if not isinstance(found, list | tuple):
            refuse(where, found, "a list")
        return [reader(row, f"{where}, {_called(row, place)}") for place, row in enumerate(found)]

    return read


def by_id(reader: Reader) -> Reader:
    """A mapping from ids, each value read by `reader`."""

    def read(found: Any, where: str) -> dict[str, Any]:
        mapping = _mapping(found, where)
        return {key: reader(value, f"{where}, {key}") for key, value in mapping.items()}

    return read


def record(fields: dict[str, Reader | tuple[Reader, Any]], *, extra: bool = False) -> Reader:
    """A record with these fields.

    A field is a reader, or a reader with the value a left-out field has. Fields not named
    are refused unless `extra` lets them pass unread.
    """

    def read(found: Any, where: str) -> dict[str, Any]:
        given = _mapping(found, where)
        unknown = sorted(set(given) - set(fields))
        if unknown and not extra:
            raise InputError(f"{where} has a field {unknown[0]!r} that is not known here.")
        return {name: _field(name, spec, given, where) for name, spec in fields.items()}

    return read


def _field(name: str, spec: Reader | tuple[Reader, Any], given: dict[str, Any], where: str) -> Any:
    reader, left_out = spec if isinstance(spec, tuple) else (spec, REQUIRED)
    if name in given:
        return reader(given[name], f"{where}, {name}")
    if left_out is REQUIRED:
        raise InputError(f"{where} has no {name}.", field=name)
    return left_out


def _mapping(found: Any, where: str) -> dict[str, Any]:
    if isinstance(found, dict) and all(isinstance(key, str) for key in found):
        return found
    refuse(where, found, "a record")


def _called(row: Any, place: int) -> str:
    named = row.get("id") if isinstance(row, dict) else None
    return str(named) if isinstance(named, str) else str(place + 1)
