"""Her activities as one file: what it holds, and what adding another's would do."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tapeline.activities.draft import body_of, version_body
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import OwnChange
from tapeline.caseload.people import Therapist
from tapeline.caseload.share import Shared, parse_share, share_look, share_text
from tapeline.errors import InputError, ManyFaults
from tests.builders import a_child

LIBRARY, BOOK = load_library(), load_rule_book()
GAME = LIBRARY.activities["sock_basket"]
THING = {
    "id": "net_float",
    "name": "net float",
    "name_es": "flotador de red",
    "functions": ["throw", "catch", "target", "carry", "squeeze"],
    "size": "8 cm",
    "household": False,
    "may_contain_latex": "no",
    "stands_in_for": ["sock_ball"],
}
CHANGE = OwnChange(activity=GAME.id, field="lead", now="Toss all.", was=GAME.lead)


def a_game(**changes: Any) -> dict[str, Any]:
    """The sock game under another id, played with a float of hers."""
    body = body_of(GAME) | {"id": "tide_line", "name": "Tide line"}
    version = version_body(GAME.versions[0]) | {
        "things": [{"any_of": ["net_float"], "count": 1, "each": True}]
    }
    return body | {"versions": [version]} | changes


def a_version(**changes: Any) -> dict[str, Any]:
    body = version_body(GAME.versions[0])
    return body | {"activity": GAME.id, "variant": "mine", **changes}


def hers(**fields: Any) -> Caseload:
    """A caseload with a child, a game, a thing, a version and a change."""
    return Caseload(
        **{
            "therapist": Therapist(name="R. Quay"),
            "children": (a_child(),),
            "own_activities": (a_game(),),
            "own_materials": (THING,),
            "own_versions": (a_version(),),
            "own_changes": (CHANGE,),
            **fields,
        }
    )


def looked(file: Caseload, now: Caseload) -> Shared:
    text = share_text(file)
    return share_look(parse_share(text, name="theirs.json"), now, BOOK, name="theirs.json")


def verdicts(found: Shared) -> dict[str, str]:
    return {f"{line.kind} {line.id}": line.verdict for line in found.lines}


def test_no_child_is_in_the_file() -> None:
    text = share_text(hers())
    assert "R. Quay" in text
    assert "Amara" not in text
    assert "c1" not in text


def test_one_activity_takes_the_things_it_names_and_nothing_else() -> None:
    file = parse_share(share_text(hers(), only=("tide_line",)), name="x")
    assert [one["id"] for one in file.activities] == ["tide_line"]
    assert [one["id"] for one in file.materials] == ["net_float"]
    assert (file.versions, file.changes) == ((), ())


def test_with_nothing_of_hers_there_is_no_file() -> None:
    with pytest.raises(InputError, match="nothing of yours"):
        share_text(Caseload())


def test_everything_is_new_to_one_who_has_nothing() -> None:
    found = looked(hers(), Caseload())
    assert set(verdicts(found).values()) == {"new"}
    assert found.writes == Caseload(
        own_activities=(a_game(),),
        own_materials=(THING,),
        own_versions=found.writes.own_versions,
        own_changes=(CHANGE,),
    )


def test_what_is_there_word_for_word_is_left_alone() -> None:
    found = looked(hers(), looked(hers(), Caseload()).writes)
    assert set(verdicts(found).values()) == {"same"}
    assert not found.adds_something
    assert found.writes == Caseload()


def test_a_thing_with_a_taken_id_is_renamed_wherever_the_file_names_it() -> None:
    now = Caseload(own_materials=({**THING, "size": "20 cm"},))
    found = looked(hers(), now)
    assert verdicts(found)["material net_float_2"] == "renamed"
    (game,) = found.writes.own_activities
    assert game["versions"][0]["things"][0]["any_of"] == ["net_float_2"]
    assert now.own_materials[0]["size"] == "20 cm"


def test_a_game_with_the_id_of_a_shipped_one_never_takes_its_place() -> None:
    found = looked(hers(own_activities=(a_game(id="loaf_catch"),)), Caseload())
    assert verdicts(found)["activity loaf_catch_2"] == "renamed"


def test_a_version_with_a_taken_id_gets_another_variant() -> None:
    now = Caseload(own_versions=(a_version(most=7),))
    found = looked(hers(), now)
    (version,) = found.writes.own_versions
    assert version["variant"] == "mine_2"


def test_a_line_she_changed_herself_stays_hers() -> None:
    now = Caseload(own_changes=(replace(CHANGE, now="My own lead."),))
    found = looked(hers(), now)
    assert verdicts(found)[f"change {CHANGE.id}"] == "kept_hers"
    assert found.writes.own_changes == ()


def test_a_line_that_is_no_longer_there_is_left_out() -> None:
    gone = replace(CHANGE, version="moon.usual", field="do")
    found = looked(hers(own_changes=(gone,)), Caseload())
    assert verdicts(found)[f"change {gone.id}"] == "no_line"


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"own_activities": (a_game(skill="juggling"),)}, "the skill juggling"),
        ({"own_versions": (a_version(activity="moon_game"),)}, "belongs to moon_game"),
        ({"own_materials": ()}, "net_float, which nobody knows"),
        ({"own_activities": ({**a_game(), "id": ""},)}, "Activity 1 has no id"),
    ],
)
def test_with_one_fault_nothing_of_the_file_may_be_added(fields: dict[str, Any], said: str) -> None:
    with pytest.raises(ManyFaults, match=said):
        looked(hers(**fields), Caseload())


SPANISH = {"lines": {"do": "Lanza el calcetín."}, "english": {"do": "00000000"}, "read": "11111111"}
IN_SPANISH = OwnChange(
    activity=GAME.id, version="drop.usual", field="es.do", now="Suelta el calcetín.", english="0"
)
DO = OwnChange(activity=GAME.id, version="drop.usual", field="do", now="Drop the sock.")


def test_her_spanish_travels_and_the_tick_of_its_reader_stays() -> None:
    mine = hers(own_versions=(a_version(spanish=SPANISH),), own_changes=(DO, IN_SPANISH, READ_BY))
    file = parse_share(share_text(mine), name="mine.json")
    assert file.versions[0]["spanish"] == {**SPANISH, "read": ""}
    assert file.changes == (DO, IN_SPANISH)
    found = share_look(file, Caseload(), BOOK, name="mine.json")
    assert found.writes.own_versions[0]["spanish"]["lines"] == SPANISH["lines"]
    assert found.writes.own_changes == (DO, IN_SPANISH)
    again = share_look(file, mine, BOOK, name="mine.json")
    assert {line.verdict for line in again.lines} == {"same"}


READ_BY = OwnChange(activity=GAME.id, version="drop.usual", field="es.read", now="11111111")


def test_what_a_version_said_before_is_not_given_away() -> None:
    mine = hers(own_versions=(a_version(before=a_version(do="Toss it.")),))
    file = parse_share(share_text(mine), name="mine.json")
    assert "before" not in file.versions[0]
    again = share_look(file, mine, BOOK, name="mine.json")
    assert {line.verdict for line in again.lines} == {"same"}


@pytest.mark.parametrize(
    ("mine", "verdict"), [("Drop the red sock.", "kept_hers"), (DO.now, "new")]
)
def test_the_spanish_of_another_english_is_not_laid_beside_hers(mine: str, verdict: str) -> None:
    file = parse_share(share_text(hers(own_changes=(DO, IN_SPANISH))), name="theirs.json")
    now = hers(own_changes=(replace(DO, now=mine),))
    found = share_look(file, now, BOOK, name="theirs.json")
    assert [line.verdict for line in found.lines if line.id == IN_SPANISH.id] == [verdict]


def test_a_file_from_before_there_was_spanish_is_read_as_ever() -> None:
    old = parse_share(share_text(hers()), name="old.json")
    for row in (*old.activities, *old.activities[0]["versions"], *old.versions):
        row.pop("spanish", None)
    found = share_look(old, Caseload(), BOOK, name="old.json")
    assert {line.verdict for line in found.lines} == {"new"}
