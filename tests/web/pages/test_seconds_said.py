"""What the page of an activity says of its seconds: a default, hers, or timed."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from django.test import Client

from tapeline.activities.models import Version
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Timing
from tapeline.web.records.convert import caseload_from_rows, rows_from_caseload
from tapeline.web.selectors.seconds_said import seconds_row_said, seconds_said
from tapeline.web.services.own_changes import lines_change
from tests.unit.activities.small_library import a_version

GAME, TAIL = "sock_basket", "half_metre.usual"
A_DAY = dt.date(2026, 11, 24)


@pytest.mark.parametrize(
    ("version", "timed", "said"),
    [
        (a_version(), (None, None), "One go takes 6 s at 3 to 4 years, 4 s at 5 to 8: a default"),
        (a_version(unit="rounds"), (None, None), "One round takes 6 s"),
        (a_version(), (5.04, None), "One go takes 5 s at 3 to 4 years, timed by you; 4 s at 5"),
        (a_version(), (None, 3.25), "One go takes 3.2 s at 5 to 8 years, timed by you; 6 s at 3"),
        (a_version(), (5.5, 3.5), "5.5 s at 3 to 4 years, 3.5 s at 5 to 8: timed by you."),
        (a_version(seconds_mark="sourced"), (None, None), "4 s at 5 to 8: from a source."),
    ],
)
def test_each_number_says_what_it_is_worth(version: Version, timed: Any, said: str) -> None:
    assert said in seconds_said(version, timed=timed)


def test_the_row_of_the_timing_table_is_named_with_its_worth() -> None:
    kick = a_version(step="kick.alone", seconds_per_unit=(8, 6))
    assert seconds_row_said(kick) == (
        "The timing table gives 6–8 s and 4–6 s for a kick to a wall 2 m away:"
        " common practice, no source."
    )
    assert seconds_row_said(a_version()) == ""


def test_what_she_wrote_is_no_default() -> None:
    said = seconds_said(a_version(seconds_per_unit=(8, 6)), is_hers=True)
    assert said == "One go takes 8 s at 3 to 4 years, 6 s at 5 to 8: as you wrote it, not timed."


@pytest.mark.django_db
def test_the_page_says_a_default_then_hers_then_timed(client: Client, on_file: Caseload) -> None:
    def shown() -> str:
        return client.get(f"/library/{GAME}/").content.decode()

    assert "a default, not measured" in shown()
    assert "as you wrote it" not in shown()
    lines_change(activity=GAME, version=TAIL, lines={"seconds_per_unit": [11, 9]})
    assert (
        "One go takes 11 s at 3 to 4 years, 9 s at 5 to 8: as you wrote it, not timed." in shown()
    )
    timing = Timing(id="t-1", version=f"{GAME}.{TAIL}", seconds=20.5, units=5, date=A_DAY)
    rows_from_caseload(replace(caseload_from_rows(), timings=(timing,)))
    assert "One go takes 4.1 s at 3 to 4 years, 4.1 s at 5 to 8: timed by you." in shown()
