"""What a draft still lacks, said as it stands; and hazards its words speak of."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.activities.draft import body_of, free_id, gaps_in, hazards_to_look_at, version_body
from tapeline.activities.loader import load_library, load_rule_book, touch_names
from tapeline.activities.shipped import shipped_yaml

LIBRARY, BOOK = load_library(), load_rule_book()


def a_draft(*, version: dict[str, Any] | None = None, **changes: Any) -> dict[str, Any]:
    """The sock game as a draft of one version; `version` changes what stands in it."""
    game = LIBRARY.activities["sock_basket"]
    body = body_of(game) | {"id": "tide_line"}
    body["versions"] = [version_body(game.versions[0]) | (version or {})]
    return body | changes


def gaps(body: dict[str, Any]) -> list[str]:
    return [f"{gap.version}: {gap.sentence}" for gap in gaps_in(body, LIBRARY, BOOK)]


def test_a_whole_draft_lacks_nothing() -> None:
    assert gaps(a_draft()) == []


def test_an_empty_page_says_what_it_needs() -> None:
    assert gaps({"id": "x", "name": "Tide line"}) == [
        "0: It needs a part of the session it can stand in.",
        "0: It needs what the leader tells the whole group.",
        "0: It needs a version.",
    ]


@pytest.mark.parametrize(
    ("version", "said"),
    [
        ({"step": None}, "1: It needs the step of the skill it is for."),
        ({"do": ""}, "1: It needs what to do, in one sentence."),
        ({"adult": {"stand": "Stand here."}}, "1: It needs when to stop."),
        ({"seconds_per_unit": [None, 4]}, "1: It needs the seconds for one, for both ages."),
        ({"gets_about": []}, "1: It needs for whom it is: ways of getting about."),
    ],
)
def test_what_is_missing_is_said_at_its_version(version: dict[str, Any], said: str) -> None:
    assert gaps(a_draft(version=version)) == [said]


@pytest.mark.parametrize(
    ("version", "said"),
    [
        ({"step": "toss_under.moon"}, "toss_under.moon, which is none of"),
        ({"things": [{"any_of": ["moon_rock"]}]}, "It needs moon_rock, which nobody knows."),
        ({"setup_s": -5}, "setup_s"),
        ({"do": "a" * 700}, "A text has 700 letters"),
        ({"captions": ["a b c d e f", "b", "c"]}, "use at most five words"),
        ({"steps": ["One."]}, "It has one of three short sentences; write exactly three."),
        ({"cues": ["a.", "b.", "c.", "d."]}, "It has 4 cues; keep at most three."),
        ({"least": 9, "most": 5}, "The least worth doing is 9 and the most is 5"),
        ({"do": "<i>Toss</i> it."}, "< or >"),
        ({"touches": ["levitate"]}, "levitate, which is no word"),
        (
            {"do": "Toss it up and run and get it and go back and toss it up once again."},
            "aim for 12 at most",
        ),
    ],
)
def test_what_cannot_be_used_is_said_by_the_check_of_the_library(
    version: dict[str, Any], said: str
) -> None:
    assert any(said in gap for gap in gaps(a_draft(version=version)))


def test_an_unknown_skill_is_said() -> None:
    assert "0: The library has no skill juggling." in gaps(a_draft(skill="juggling"))


def test_a_hazard_that_the_words_speak_of_is_asked_about_until_it_is_ticked() -> None:
    draft = a_draft(version={"do": "Jump over it.", "steps": [], "touches": []})
    assert [gap.sentence for gap in hazards_to_look_at(draft)] == [
        "It says “jump” and does not name jumping. Tick it, or leave it."
    ]
    ticked = a_draft(version={"do": "Jump over it.", "steps": [], "touches": ["jump"]})
    assert hazards_to_look_at(ticked) == ()


def test_every_word_of_hazard_words_is_one_that_rules_look_at() -> None:
    assert set(shipped_yaml("rules/hazard_words.yaml")["words"]) <= set(touch_names("en"))


@pytest.mark.parametrize(
    ("name", "found"),
    [("Tide line", "tide_line_3"), ("¡Olé!", "ol"), ("—", "my_game"), ("A  b.c", "a_b_c")],
)
def test_an_id_is_made_from_a_name_and_is_free(name: str, found: str) -> None:
    assert free_id(name, ("tide_line", "tide_line_2")) == found
