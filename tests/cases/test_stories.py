"""Hard days of the trade, told as stories: who, where, the wish, accept only if, refuse if.

`README.md` beside this file says how to add one.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.cases.conditions import ACCEPT, ALWAYS, REFUSE, WANTS_NO_PLAN
from tests.cases.telling import DAY, Telling, tell

HERE = Path(__file__).parent
STORIES: dict[str, dict[str, Any]] = {}
for file in sorted((HERE / "stories").glob("*.yaml")):
    for story in yaml.safe_load(file.read_text(encoding="utf-8")):
        assert story["story"] not in STORIES, f"{story['story']} is told twice"
        STORIES[story["story"]] = story
LINES = {
    "story", "because", "who", "where", "minutes", "adults", "adults_today", "but", "then",
    "wish", "accept_only_if", "refuse_if",
}  # fmt: skip


@cache
def told(name: str) -> Telling:
    return tell(STORIES[name])


def accepted_if(story: dict[str, Any]) -> dict[str, Any]:
    asked: dict[str, Any] = story.get("accept_only_if", {})
    if WANTS_NO_PLAN & set(asked):
        return asked
    return ALWAYS | asked


@pytest.mark.parametrize("name", STORIES)
def test_the_session_is_one_she_would_accept(name: str) -> None:
    story = STORIES[name]
    wrong = [
        f"{condition}: {sentence}"
        for condition, wanted in accepted_if(story).items()
        for sentence in ACCEPT[condition](told(name), wanted)
    ]
    met = [
        f"{condition}: {sentence}"
        for condition, ruled_out in story.get("refuse_if", {}).items()
        for sentence in REFUSE[condition](told(name), ruled_out)
    ]
    assert wrong + met == []


@pytest.mark.parametrize("name", STORIES)
def test_a_story_says_what_it_asks_in_known_words(name: str) -> None:
    story = STORIES[name]
    assert set(story) <= LINES
    assert set(story.get("accept_only_if", {})) <= set(ACCEPT)
    assert set(story.get("refuse_if", {})) <= set(REFUSE)
    assert story.get("accept_only_if") or story.get("refuse_if"), "it asks nothing"


def test_every_condition_is_explained_to_who_writes_a_story() -> None:
    text = (HERE / "README.md").read_text(encoding="utf-8")
    explained = set(re.findall(r"`(\w+)[`:]", text))
    assert set(ACCEPT) | set(REFUSE) <= explained


def test_every_condition_is_asked_by_some_story() -> None:
    asked = {
        condition
        for story in STORIES.values()
        for condition in (*accepted_if(story), *story.get("refuse_if", {}))
    }
    assert [name for name in [*ACCEPT, *REFUSE] if name not in asked] == []


def test_the_day_of_the_stories_is_the_day_of_the_group() -> None:
    assert f"{DAY:%A}".lower() == "tuesday"
