"""Her timed repetitions take the place of the library's seconds."""

from __future__ import annotations

import pytest

from tapeline.activities.loader import load_library
from tapeline.caseload.her_seconds import her_seconds, with_her_seconds
from tapeline.caseload.history import Timing
from tapeline.errors import InputError
from tests.builders import TODAY, a_caseload, a_child

VERSION = "loaf_catch.hugged.usual"
CHILDREN = (a_child(id="young", born="2022-06"), a_child(id="old", name="Bo", born="2019-06"))


def timed(at: int, seconds: float, child: str | None = None, units: int = 5) -> Timing:
    return Timing(
        id=f"w{at}", version=VERSION, seconds=seconds, units=units, date=TODAY, child=child
    )


def test_a_timing_counts_for_the_age_band_of_its_child() -> None:
    caseload = a_caseload(children=CHILDREN, timings=(timed(1, 40, "young"), timed(2, 20, "old")))
    assert her_seconds(caseload) == {VERSION: (8.0, 4.0)}


def test_a_timing_of_nobody_counts_for_both_bands() -> None:
    assert her_seconds(a_caseload(timings=(timed(1, 30),))) == {VERSION: (6.0, 6.0)}


def test_one_watch_left_running_does_not_decide() -> None:
    timings = (timed(1, 20, "old"), timed(2, 25, "old"), timed(3, 900, "old"))
    assert her_seconds(a_caseload(children=CHILDREN, timings=timings)) == {VERSION: (None, 5.0)}


def test_the_library_takes_her_seconds_and_keeps_the_rest() -> None:
    library = load_library()
    caseload = a_caseload(children=CHILDREN, timings=(timed(1, 20, "old"),))
    hers = with_her_seconds(library, caseload)
    before, after = library.find_version(VERSION), hers.find_version(VERSION)
    assert after.seconds_per_unit == (before.seconds_per_unit[0], 4.0)
    assert hers.version == library.version
    others = {name for name in library.activities if name != "loaf_catch"}
    assert all(hers.activities[name] is library.activities[name] for name in others)


def test_without_timings_the_library_is_the_same() -> None:
    library = load_library()
    assert with_her_seconds(library, a_caseload()) is library


@pytest.mark.parametrize(("seconds", "units"), [(0, 5), (12, 0)])
def test_a_timing_of_nothing_is_refused(seconds: float, units: int) -> None:
    with pytest.raises(InputError, match="Time at least one unit"):
        timed(1, seconds, units=units)
