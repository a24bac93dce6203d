"""What day it is: the computer's own clock, or the day in `TAPELINE_TODAY`."""

from __future__ import annotations

import datetime as dt
import os

from tapeline.errors import InputError


def today() -> dt.date:
    """The local date; `TAPELINE_TODAY` (YYYY-MM-DD) sets another one, for a demonstration."""
    named = os.environ.get("TAPELINE_TODAY", "").strip()
    if not named:
        return dt.date.today()
    try:
        return dt.date.fromisoformat(named)
    except ValueError:
        raise InputError(
            f"TAPELINE_TODAY is {named!r}.", hint="Write a date such as 2026-11-25, or unset it."
        ) from None


def now() -> dt.datetime:
    """The time of the computer's clock, without a zone, on the day that `today` says."""
    return dt.datetime.combine(today(), dt.datetime.now().time())
