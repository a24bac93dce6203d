"""What a library file may not hold: each documented sentence is the one that is said."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tapeline.activities.loader import load_library
from tapeline.errors import ManyFaults
from tests.unit.activities.test_loader import own_activity

DOCS = Path(__file__).resolve().parents[3] / "docs" / "library-file.md"
SECTION = DOCS.read_text(encoding="utf-8").split("## What is refused")[1].split("\n## ")[0]
ROWS = SECTION.splitlines()
SAID = dict(row.strip("| ").split(" | ", 1) for row in ROWS if row.startswith("| "))
BAD: dict[str, dict[str, Any]] = {
    "an unknown skill": {"skill": "juggling"},
    "a step that is not in the progression": {"version": {"step": "toss_under.moon"}},
    "a material nobody knows": {"all_": {"things": [{"any_of": ["moon_rock"]}]}},
    "a negative time": {"all_": {"setup_s": -30}},
    "a time without end": {"all_": {"seconds_per_unit": [float("inf"), 4]}},
    "a number beyond all use": {"all_": {"most": 100_000}},
    "HTML or a script in a text": {"version": {"do": "<script>alert(1)</script>"}},
    "a sign that nobody can see": {"version": {"do": "Drop\x00 it."}},
    "a text of 10 MB": {"version": {"do": "a" * 10_000_000}},
    "an id that is none": {"id": "../toss"},
    "nobody it is for": {"all_": {"gets_about": []}},
    "a line nobody knows": {"all_": {"speed": 3}},
}


@pytest.mark.parametrize("what", BAD)
def test_bad_input_is_one_sentence_as_documented(what: str) -> None:
    with pytest.raises(ManyFaults) as caught:
        load_library([own_activity(**BAD[what])])
    assert len(caught.value.faults) == 1
    assert SAID[what] in str(caught.value)
    assert "Nothing was changed." in str(caught.value)


def test_a_missing_line_is_named() -> None:
    activity = own_activity()
    del activity["versions"][0]["do"]
    with pytest.raises(ManyFaults) as caught:
        load_library([activity])
    assert SAID["a line that is missing"] in str(caught.value)


def test_every_documented_sentence_is_tried() -> None:
    assert set(SAID) - {"what is wrong"} == {*BAD, "a line that is missing"}


def test_nothing_is_taken_in_by_half() -> None:
    sound, broken = own_activity(), own_activity(id="broken", skill="juggling")
    with pytest.raises(ManyFaults):
        load_library([sound, broken])
    assert "own_toss" not in load_library().activities


def test_a_text_in_two_lines_is_no_fault() -> None:
    assert load_library([own_activity(lead="Toss one each.\nFetch all.")]).activities["own_toss"]
