"""A birth month, read from the spellings people use in spreadsheets."""

from __future__ import annotations

import datetime as dt
import re

from tapeline.caseload.people import OLDEST_YEARS
from tapeline.errors import InputError

HINT = "Write year and month, for example 2021-04."
MONTH_NAMES = (
    ("january", "enero"),
    ("february", "febrero"),
    ("march", "marzo"),
    ("april", "abril"),
    ("may", "mayo"),
    ("june", "junio"),
    ("july", "julio"),
    ("august", "agosto"),
    ("september", "septiembre"),
    ("october", "octubre"),
    ("november", "noviembre"),
    ("december", "diciembre"),
)
SHORTEST_NAME = 3
YEAR_FIRST = re.compile(r"^(\d{4})[-/. ](\d{1,2})(?:[-/. ]\d{1,2})?(?:[T ][\d:.]+Z?)?$")
MONTH_FIRST = re.compile(r"^(\d{1,2})[-/. ](\d{4})$")
WHOLE_DATE = re.compile(r"^(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4}|\d{2})$")
WORD = re.compile(r"[^\W\d_]+")
NUMBER = re.compile(r"\d+")


def birth_month(text: str, *, today: dt.date) -> str:
    """The month as ``YYYY-MM``.

    Read are 2021-04, 2021-04-17, 04/2021, 4.2021, Apr 2021, 17 April 2021, abr 2021, Apr-21,
    and dates such as 17/04/2021 whose day cannot be a month. Years of two digits are of
    this century.

    Raises
    ------
    InputError
        It is no month, could be one of two months, or cannot be a child's birth month.
    """
    year, month = _read(" ".join(text.strip().split()), text.strip())
    if not 1 <= month <= 12:
        raise InputError(
            f"{text.strip()!r} names month {month}, and a year has 12.", field="born", hint=HINT
        )
    if (year, month) > (today.year, today.month):
        raise InputError(
            f"The birth month {year}-{month:02d} lies after today.", field="born", hint=HINT
        )
    if today.year - year > OLDEST_YEARS:
        raise InputError(
            f"The birth month {year}-{month:02d} lies more than {OLDEST_YEARS} years back.",
            field="born",
            hint=HINT,
        )
    return f"{year:04d}-{month:02d}"


def _read(text: str, typed: str) -> tuple[int, int]:
    if found := YEAR_FIRST.match(text):
        return int(found[1]), int(found[2])
    if found := MONTH_FIRST.match(text):
        return int(found[2]), int(found[1])
    if found := WHOLE_DATE.match(text):
        return _year(found[3]), _month_of_date(int(found[1]), int(found[2]), typed)
    named = _named_month(text)
    if named is not None:
        return named
    shown = f"{typed!r} is not a birth month" if typed else "The birth month is missing"
    raise InputError(f"{shown}.", field="born", hint=HINT)


def _month_of_date(first: int, second: int, typed: str) -> int:
    """The month of a date, whichever comes first, unless both numbers could be it."""
    if first > 12 >= second:
        return second
    if second > 12 >= first or first == second:
        return first
    if first > 12 and second > 12:
        raise InputError(f"{typed!r} is not a date.", field="born", hint=HINT)
    raise InputError(
        f"{typed!r} could be month {first} or month {second}.", field="born", hint=HINT
    )


def _named_month(text: str) -> tuple[int, int] | None:
    """Year and month of ``Apr 2021``, ``17 April 2021``, ``Apr-21``; None when there is no name."""
    words = [word.lower() for word in WORD.findall(text) if word.lower() not in ("de", "of", "th")]
    numbers = NUMBER.findall(text)
    if len(words) != 1 or not 1 <= len(numbers) <= 2:
        return None
    month = next(
        (
            place
            for place, names in enumerate(MONTH_NAMES, start=1)
            if _is_short_for(words[0], names)
        ),
        None,
    )
    years = [number for number in numbers if len(number) == 4] or numbers[-1:]
    return None if month is None or len(years) > 1 else (_year(years[0]), month)


def _is_short_for(word: str, names: tuple[str, ...]) -> bool:
    return len(word) >= SHORTEST_NAME and any(name.startswith(word) for name in names)


def _year(digits: str) -> int:
    return int(digits) if len(digits) == 4 else 2000 + int(digits)
