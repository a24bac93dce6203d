"""A plan counts with the seconds she timed."""

from __future__ import annotations

from tapeline.caseload.history import Timing
from tapeline.sessions.prepare import lay_out_session
from tests.builders import TODAY, a_caseload

VERSION = "loaf_catch.standing.usual"


def test_a_session_is_laid_out_with_her_seconds() -> None:
    timing = Timing(id="w1", version=VERSION, seconds=60, units=5, date=TODAY, child="c1")
    for timings, older in (((), None), ((timing,), 12.0)):
        given, _ = lay_out_session(a_caseload(timings=timings), group="tuesday", on=TODAY)
        found = given.library.find_version(VERSION).seconds_per_unit[1]
        assert (found == 12.0) is (older == 12.0)
