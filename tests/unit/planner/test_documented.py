"""What stands in a plan as a code is told in docs/plan-file.md."""

from __future__ import annotations

from pathlib import Path

import pytest

from tapeline.activities.loader import load_library, plain_facts
from tapeline.planner.manner import manner_of
from tapeline.planner.notice_words import NOTICES, SHARED
from tapeline.planner.reason_words import REASONS
from tapeline.planner.words import DROPPED

PAGE = (Path(__file__).parents[3] / "docs" / "plan-file.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("code", [*NOTICES, *REASONS, *DROPPED, *plain_facts("because")])
def test_every_code_is_documented(code: str) -> None:
    assert f"| `{code}` |" in PAGE


def test_codes_that_share_a_sentence_are_notices() -> None:
    assert set(NOTICES) > SHARED


def test_every_game_has_a_manner() -> None:
    library = load_library()
    manners = {name: manner_of(one) for name, one in library.activities.items()}
    assert all(set(one.things) <= one.served_by for one in manners.values())
    assert all("wall" not in one.things for one in manners.values())
    assert any(one.things for one in manners.values())
