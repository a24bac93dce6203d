"""Clock times and what is said of them."""

from __future__ import annotations

import pytest

from tapeline.units import clock_at, minute_of_day


@pytest.mark.parametrize(("clock", "minute"), [("00:00", 0), ("09:05", 545), ("23:59", 1439)])
def test_a_time_of_day_and_its_minute_say_the_same(clock: str, minute: int) -> None:
    assert minute_of_day(clock) == minute
    assert clock_at(minute) == clock
