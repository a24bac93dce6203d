"""Seconds and centimetres: the two units everything is kept in, and how they are said."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

SECONDS_A_MINUTE = 60
MINUTES_AN_HOUR = 60
CM_AN_INCH = Decimal("2.54")
INCHES_A_FOOT = 12


def minute_of_day(clock: str) -> int:
    """Minutes since midnight of a time such as 14:32."""
    hours, minutes = clock.split(":")
    return MINUTES_AN_HOUR * int(hours) + int(minutes)


def clock_at(minute: int) -> str:
    """The time of day so many minutes after midnight, such as 14:32."""
    hours, minutes = divmod(minute, MINUTES_AN_HOUR)
    return f"{hours:02d}:{minutes:02d}"


def whole_minutes(seconds: int) -> int:
    """Minutes to print for a length of time, halves rounded up."""
    return int((Decimal(seconds) / SECONDS_A_MINUTE).quantize(Decimal(1), ROUND_HALF_UP))


def length_in_words(length_cm: int, *, unit: str = "cm") -> str:
    """A length as a family reads it.

    Parameters
    ----------
    length_cm
        Whole centimetres.
    unit
        ``cm`` (metres from 100 cm up) or ``feet`` (feet and inches, nearest inch).
    """
    if unit == "feet":
        return _feet_and_inches(length_cm)
    if length_cm < 100:
        return f"{length_cm} cm"
    return f"{(Decimal(length_cm) / 100).normalize():f} m"


def _feet_and_inches(length_cm: int) -> str:
    inches = int((Decimal(length_cm) / CM_AN_INCH).quantize(Decimal(1), ROUND_HALF_UP))
    feet, rest = divmod(inches, INCHES_A_FOOT)
    if not feet:
        return f"{rest} in"
    return f"{feet} ft {rest} in" if rest else f"{feet} ft"
