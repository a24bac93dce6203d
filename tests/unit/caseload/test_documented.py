"""docs/caseload-file.md and docs/caseload.schema.json say what the program reads."""

from __future__ import annotations

import datetime as dt
import json
import re
from dataclasses import fields
from pathlib import Path
from typing import Any

import pytest

from tapeline.activities.loader import load_library, load_rule_book
from tapeline.caseload import caseload, hers, history, notes, people, places
from tapeline.caseload.check import check_caseload
from tapeline.caseload.file import caseload_schema, parse_caseload

DOCS = Path(__file__).parents[3] / "docs"
PAGE = (DOCS / "caseload-file.md").read_text(encoding="utf-8")
RECORDS: tuple[Any, ...] = (
    caseload.Caseload,
    *(getattr(people, name) for name in (
        "Therapist", "Wording", "Thing", "Child", "Start", "Goal", "Baseline",
        "ChildPrecaution", "GoAhead", "Home", "AlsoThere", "SuccessBand", "Illness", "LossAnswer",
    )),
    *(getattr(places, name) for name in (
        "Site", "Term", "ClosedDay", "Room", "RoomDoor", "Furniture", "Group", "Membership",
    )),
    *(getattr(history, name) for name in (
        "Session", "Trial", "Blank", "FamilyAnswer", "LateOrEarly", "Stop", "Sheet", "Timing",
        "PromptList", "PromptLevel",
    )),
    *(getattr(hers, name) for name in ("OwnChange", "LeftOut", "KeptText")),
    *(getattr(notes, name) for name in (
        "SessionNote", "NoteSentence", "Amendment", "KeptReport", "ReportPart", "MadeUp",
    )),
)  # fmt: skip


def documented(heading: str) -> list[str]:
    section = PAGE.split(f"\n## {heading}\n", 1)[1].split("\n## ", 1)[0]
    return re.findall(r"^\| `(\w+)` \|", section, flags=re.MULTILINE)


@pytest.mark.parametrize("record", RECORDS, ids=lambda record: record.__name__)
def test_every_field_is_documented_in_order(record: Any) -> None:
    assert documented(record.__name__) == [field.name for field in fields(record)]


def test_every_record_of_the_schema_has_its_section() -> None:
    documented_names = {record.__name__ for record in RECORDS} - {"Caseload"}
    assert set(caseload_schema()["$defs"]) == documented_names


def test_the_schema_beside_the_page_is_current() -> None:
    written = json.loads((DOCS / "caseload.schema.json").read_text(encoding="utf-8"))
    assert written == caseload_schema(), "Run python scripts/write_caseload_schema.py."


def test_the_example_of_the_page_is_a_caseload() -> None:
    example = PAGE.split("```json\n", 1)[1].split("```", 1)[0]
    found = parse_caseload(example, name="The example")
    check_caseload(
        found,
        library=load_library(),
        book=load_rule_book(),
        today=dt.date(2026, 3, 10),
        name="The example",
    )
    assert [child.name for child in found.children] == ["Amara"]


def test_words_with_a_fixed_choice_are_all_on_the_page() -> None:
    for name, definition in caseload_schema()["$defs"].items():
        for prop in definition["properties"].values():
            options = [prop, *prop.get("anyOf", [])]
            chosen = [word for option in options for word in option.get("enum", [])]
            section = PAGE.split(f"\n## {name}\n", 1)[1].split("\n## ", 1)[0]
            if "weekday" in section and "monday" in chosen:
                chosen = ["monday", "sunday"]
            missing = [word for word in chosen if f"`{word}`" not in section]
            assert missing == [], name
