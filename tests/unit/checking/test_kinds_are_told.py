"""Each kind of fault stands in docs/checker.md, with its own words, and no other does."""

from __future__ import annotations

import re
from pathlib import Path

from tapeline.checking import COURSE_KINDS, KINDS
from tapeline.checking.course_plan import COURSE_OF_PLAN_KINDS

PAGE = Path(__file__).parents[3] / "docs" / "checker.md"


def test_the_page_tells_each_kind_in_its_words() -> None:
    told = dict(re.findall(r"^\| `(\w+)` \| (.+) \|$", PAGE.read_text(encoding="utf-8"), re.M))
    assert told == KINDS | COURSE_KINDS | COURSE_OF_PLAN_KINDS
