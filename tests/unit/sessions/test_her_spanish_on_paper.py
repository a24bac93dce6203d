"""What a Spanish home is given of games of hers: family page, recording, captions."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tapeline.activities.own_spanish import line_fingerprint, lines_of_version
from tapeline.activities.spanish import text_in
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import OwnChange
from tapeline.caseload.own_library import library_in_force
from tapeline.documents.packet import FamilyPages, Packet, Script
from tapeline.sessions.packet.whole import caption_files, packet_for
from tests.unit.sessions.packet_world import a_packet_plan, a_world

LINES: dict[str, Any] = {
    "do": "Toca el pañuelo hacia arriba.",
    "steps": ["Mira arriba.", "Abre la mano.", "Tócalo hacia arriba."],
    "captions": ["mira arriba", "mano abierta", "toca"],
    "cues": ["Mira arriba."],
    "watch": ["El cuello se cansa."],
    "adult.stand": "Ponte enfrente.",
    "adult.stop": "Para si se pone alocado.",
    "too_hard": "Deja que caiga en la mano.",
    "too_easy": "Tócalo con un dedo.",
}


def in_spanish(world: Caseload, **changes: Any) -> Caseload:
    """The world with the drifting game of hers in Spanish, each line with its English."""
    library = library_in_force(world)
    row = dict(next(one for one in world.own_activities if one["id"] == "drift"))
    english = {"name": line_fingerprint(row["name"])}
    row["spanish"] = {"lines": {"name": "Sube el pañuelo"}, "english": english}
    versions = []
    for own, made in zip(row["versions"], library.activities["drift"].versions, strict=True):
        said = lines_of_version(made)
        lines = {name: words for name, words in {**LINES, **changes}.items() if words}
        block = {"lines": lines, "english": {name: line_fingerprint(said[name]) for name in lines}}
        versions.append({**own, "spanish": block})
    row["versions"] = versions
    others = tuple(one for one in world.own_activities if one["id"] != "drift")
    return replace(world, own_activities=(*others, row))


@pytest.fixture(scope="module")
def world() -> Caseload:
    return a_world()


def spanish_pages(packet: Packet) -> FamilyPages:
    return next(one for one in packet.families if one.language == "es")


def spanish_script(packet: Packet) -> Script:
    assert packet.recorded is not None
    return next(one for one in packet.recorded.scripts if one.language == "es")


def test_a_game_of_hers_is_read_and_filmed_in_her_spanish(world: Caseload) -> None:
    hers = in_spanish(world)
    packet = packet_for(a_packet_plan(hers), hers)
    pages, script = spanish_pages(packet), spanish_script(packet)
    assert not pages.has_english
    game = next(one for one in pages.activities if one.name == "Sube el pañuelo")
    assert (game.language, game.do, list(game.steps)) == ("es", LINES["do"], LINES["steps"])
    assert list(game.captions) == LINES["captions"]
    said = [line for scene in script.scenes for line in scene.say]
    assert LINES["do"] in said
    assert LINES["adult.stop"] in said
    assert LINES["do"] in " ".join(caption_files(packet)["captions.es.vtt"].split())


def test_one_line_that_lacks_spanish_gives_that_game_in_english_and_says_so(
    world: Caseload,
) -> None:
    hers = in_spanish(world, too_hard="")
    pages = spanish_pages(packet_for(a_packet_plan(hers), hers))
    assert pages.has_english
    assert {one.language for one in pages.activities if one.name == "Drift and tap"} == {"en"}
    assert {one.language for one in pages.activities} == {"en", "es"}


def test_a_changed_line_with_its_spanish_stays_spanish_on_paper(world: Caseload) -> None:
    library = library_in_force(world)
    plan = a_packet_plan(world)
    part = next(one for one in plan.parts if one.activity == "sock_basket")
    version = library.find_version(part.children[0].version)
    tail = version.id.removeprefix("sock_basket.")
    mine, mine_es = "Toss the sock over the rope.", "Lanza el calcetín sobre la cuerda."
    change = OwnChange(activity="sock_basket", version=tail, field="do", now=mine)
    spanish = replace(change, field="es.do", now=mine_es, english=line_fingerprint(mine))
    for changes, language in (((change,), "en"), ((change, spanish), "es")):
        made = library_in_force(replace(world, own_changes=changes))
        text = text_in("es", made.activities["sock_basket"], made.find_version(version.id))
        assert (text.language, text.do) == (language, mine_es if language == "es" else mine)
