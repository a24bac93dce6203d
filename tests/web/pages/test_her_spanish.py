"""What she writes for families, in Spanish: on her pages, and on what a Spanish home gets."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from django.test import Client

from tapeline.activities.own_spanish import lines_of_version
from tapeline.activities.spanish import load_spanish, spanish_of, text_in
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import OwnChange
from tapeline.web.forms.own_lines import lines_shown
from tapeline.web.forms.own_spanish import spanish_shown
from tapeline.web.records.convert import caseload_from_rows, rows_from_caseload
from tapeline.web.records.models import OwnPiece
from tapeline.web.selectors.library import library_now, library_then
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.sessions import session_propose
from tests.web.pages.test_hers import (
    CHANGE,
    GAME,
    HERS,
    SHIPPED,
    TAIL,
    begin,
    hers_now,
    lines,
    said,
    typed_of,
    version_typed,
)

pytestmark = pytest.mark.django_db
MINE, MINE_ES = "Toss the sock over the rope.", "Lanza el calcetín sobre la cuerda."
VERSION = SHIPPED.find_version(f"{GAME}.{TAIL}")
SPANISH = spanish_of(SHIPPED.activities[GAME], VERSION).lines
IN_ENGLISH = "a home that reads Spanish gets this version in English"


@pytest.fixture
def browser(client: Client, on_file: Caseload) -> Client:
    return client


def in_spanish(**changes: Any) -> dict[str, Any]:
    """The Spanish fields of the shipped version, with some of it changed."""
    shown = {name: value for name, value in spanish_shown(SPANISH).items() if value}
    return {**{name: value for name, value in shown.items() if name != "es_name"}, **changes}


def both(english: dict[str, Any] | None = None, **spanish: Any) -> dict[str, Any]:
    return {**lines(**(english or {})), **in_spanish(**spanish)}


def text() -> Any:
    activity = library_now().activities[GAME]
    version = next(one for one in activity.versions if one.id == VERSION.id)
    return text_in("es", activity, version)


def test_the_shipped_spanish_stands_in_the_form_and_is_no_change_of_hers(browser: Client) -> None:
    shown = said(browser.get(CHANGE))
    assert str(SPANISH["do"]) in shown
    browser.post(CHANGE, both())
    assert not OwnPiece.objects.exists()


def test_a_line_changed_in_english_alone_is_said_to_be_printed_in_english(browser: Client) -> None:
    answer = browser.post(CHANGE, both({"do": MINE}), follow=True)
    assert "Its Spanish still lacks: What to do." in said(answer)
    assert IN_ENGLISH in said(answer)
    assert IN_ENGLISH in said(browser.get(f"/library/{GAME}/"))
    assert (text().language, text().do) == ("en", MINE)
    shown = said(browser.get(CHANGE))
    assert f'<strong lang="en">Shipped:</strong> {SPANISH["do"]}' in shown


def test_a_line_changed_in_both_is_read_in_hers(browser: Client) -> None:
    browser.post(CHANGE, both({"do": MINE}, es_do=MINE_ES))
    assert (text().language, text().do, text().to_be_read_by_a_person) == ("es", MINE_ES, True)
    shown = said(browser.get(f"/library/{GAME}/changes/"))
    assert "What to do, in Spanish" in shown
    assert IN_ENGLISH not in shown


def test_shipped_spanish_that_still_fits_is_hers_once_she_says_so(browser: Client) -> None:
    browser.post(CHANGE, both({"do": MINE}, es_same="on"))
    assert (text().language, text().do) == ("es", SPANISH["do"])
    assert [one.field for one in caseload_from_rows().own_changes] == ["do", "es.do"]


def test_english_changed_once_more_makes_her_spanish_stale_until_she_looks(
    browser: Client,
) -> None:
    browser.post(CHANGE, both({"do": MINE}, es_do=MINE_ES))
    again = {"do": "Toss the sock under the rope."}
    answer = browser.post(CHANGE, both(again, es_do=MINE_ES), follow=True)
    assert "The English changed after the Spanish was written: What to do." in said(answer)
    assert IN_ENGLISH in said(answer)
    assert (text().state, text().do) == ("missing", again["do"])
    browser.post(CHANGE, both(again, es_do=MINE_ES, es_same="on"))
    assert (text().language, text().do) == ("es", MINE_ES)
    assert "The English changed after" not in said(browser.get(CHANGE))


def test_a_person_has_read_it_and_the_sheets_say_so_no_more(browser: Client) -> None:
    browser.post(CHANGE, both({"do": MINE}, es_do=MINE_ES, es_read="on"))
    assert not text().to_be_read_by_a_person
    assert "What I changed: 2 lines" in said(browser.get(f"/library/{GAME}/"))
    browser.post(CHANGE, both({"do": MINE}, es_do=MINE_ES))
    assert text().to_be_read_by_a_person


def test_the_spanish_of_a_line_goes_back_with_its_english(browser: Client) -> None:
    browser.post(CHANGE, both({"do": MINE}, es_do=MINE_ES, es_read="on"))
    browser.post(f"/library/{GAME}/changes/", {"line": f"{GAME}/{TAIL}/do"})
    assert not OwnPiece.objects.exists()


def test_her_spanish_stands_the_same_check(browser: Client) -> None:
    long = (
        "Lanza el calcetín por encima de la cuerda que cuelga entre las dos sillas que están"
        " detrás de la mesa."
    )
    answer = browser.post(CHANGE, both({"do": MINE}, es_do=long))
    assert answer.status_code == 422
    assert "Its Spanish is not plain." in said(answer)
    assert not OwnPiece.objects.exists()


def test_a_fault_of_another_version_does_not_hold_her_line_back(browser: Client) -> None:
    other = "one_metre.usual"
    own = OwnChange(activity=GAME, version=other, field="too_hard", now="Closer, with no stop")
    rows_from_caseload(replace(caseload_from_rows(), own_changes=(own,)))
    assert browser.post(CHANGE, both({"do": MINE}, es_do=MINE_ES)).status_code == 302
    assert text().do == MINE_ES


def test_a_name_of_hers_in_spanish(browser: Client) -> None:
    shipped = SHIPPED.activities[GAME]
    typed = {"name": "Sock post", "lead": shipped.lead, "sibling": shipped.sibling}
    browser.post(f"/library/{GAME}/mine/", typed)
    assert text().language == "en"
    assert "gets all its versions in English" in said(browser.get(f"/library/{GAME}/changes/"))
    sibling = load_spanish().activities[GAME].sibling
    spanish = {"es_name": "Correo de calcetines", "es_sibling": sibling}
    browser.post(f"/library/{GAME}/mine/", {**typed, **spanish})
    assert (text().language, text().name) == ("es", "Correo de calcetines")


def test_a_version_of_hers_begins_with_the_spanish_of_the_one_it_is_like(browser: Client) -> None:
    page = f"/library/{GAME}/versions/new/?like={TAIL}"
    assert str(SPANISH["do"]) in said(browser.get(page))
    typed = {**version_typed(variant="mine", do=MINE), **in_spanish(es_do=MINE_ES)}
    assert browser.post(page, typed).status_code == 302
    activity = library_now().activities[GAME]
    assert text_in("es", activity, hers_now()).do == MINE_ES
    looked = said(browser.post(HERS, {**typed, "es_cues": "", "look": "1"}))
    assert "Its Spanish still lacks: Cues." in looked
    assert IN_ENGLISH in looked
    browser.post(HERS, {**typed, "es_cues": ""})
    assert text_in("es", library_now().activities[GAME], hers_now()).language == "en"


def test_a_draft_says_that_it_has_no_spanish_and_goes_in_all_the_same(browser: Client) -> None:
    draft = begin(browser, like=GAME)
    typed = {**typed_of(draft), "es_name": ""}
    shown = said(browser.get(draft))
    assert "Its Spanish still lacks: Name." in shown
    assert "Nothing is missing." in shown
    browser.post(draft, {**typed, "put_in": "1"})
    made = library_now().activities["tide_line"]
    assert {text_in("es", made, one).language for one in made.versions} == {"en"}
    assert "are still printed in English" in said(browser.get("/library/tide_line/"))
    assert "In Spanish something is missing" in said(browser.get("/library/hers/"))
    browser.post("/library/tide_line/edit/")
    spanish = {"es_name": "La marea", "es_sibling": load_spanish().activities[GAME].sibling}
    browser.post(draft, {**typed, **spanish, "put_in": "1"})
    made = library_now().activities["tide_line"]
    assert {text_in("es", made, one).name for one in made.versions} == {"La marea"}


def test_the_a5_sheet_is_in_her_spanish(browser: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    from tapeline.sessions import activity_sheet

    kept = []
    monkeypatch.setattr(
        activity_sheet, "print_activity", lambda sheet, _pictures: kept.append(sheet) or b"%PDF"
    )
    browser.post(CHANGE, both({"do": MINE}, es_do=MINE_ES))
    browser.get(f"/library/{GAME}/a5.pdf?language=es")
    ways = [way for step in kept[0].steps for way in step.ways]
    assert MINE_ES in [way.do for way in ways]
    assert {way.language for way in ways} == {"es"}
    browser.post(CHANGE, both({"do": "Toss the sock under the rope."}, es_do=""))
    browser.get(f"/library/{GAME}/a5.pdf?language=es")
    ways = [way for step in kept[1].steps for way in step.ways]
    assert [way.do for way in ways if way.language == "en"] == ["Toss the sock under the rope."]
    assert [way.note for way in ways if way.note] == ["Todavía en inglés:"]
    assert {(way.language, way.words["language"]) for way in ways} == {("en", "en"), ("es", "es")}
    assert kept[1].language == "es"
    assert "inglés" in kept[1].to_be_read


def test_a_thing_without_a_spanish_name_says_so(browser: Client) -> None:
    thing = {
        "name": "Net float",
        "functions": ["throw", "catch", "target", "carry", "squeeze"],
        "may_contain_latex": "no",
        "size": "8 cm",
    }
    browser.post("/library/things/new/", thing)
    assert "It has no Spanish name" in said(browser.get("/library/hers/"))
    shown = said(browser.get("/library/things/net_float/"))
    assert "Spanish sheets print the English one." in shown
    browser.post("/library/things/net_float/", {**thing, "name_es": "flotador de red"})
    assert library_now().materials["net_float"].name_es == "flotador de red"
    assert "It has no Spanish name" not in said(browser.get("/library/things/net_float/"))


def test_a_held_session_keeps_the_spanish_it_used(browser: Client) -> None:
    tuesday = dt.date(2026, 11, 24)
    plan = session_propose(group_key="gulls", on=tuesday).plan
    part = next(one for one in plan.parts if one.children and one.activity in SHIPPED.activities)
    game = SHIPPED.activities[part.activity]
    version = SHIPPED.find_version(part.children[0].version)
    before = text_in("es", game, version).do
    tail = version.id.removeprefix(f"{game.id}.")
    spanish = spanish_shown(spanish_of(game, version).lines)
    shown = {name: value for name, value in lines_shown(game, tail).items() if value is not None}
    typed = {name: value for name, value in spanish.items() if value} | {"es_do": MINE_ES}
    answer = browser.post(f"/library/{game.id}/mine/{tail}/", {**shown, **typed})
    assert answer.status_code == 302, said(answer)
    now = library_now().activities[game.id]
    assert text_in("es", now, library_now().find_version(version.id)).do == MINE_ES
    session = session_of("gulls", tuesday)
    assert session is not None
    then = library_then(session)
    assert text_in("es", then.activities[game.id], then.find_version(version.id)).do == before


def test_lines_of_a_version_are_the_lines_of_its_form() -> None:
    shown = spanish_shown(lines_of_version(VERSION))
    assert shown["es_stand"] == VERSION.adult.stand
    assert shown["es_steps"].splitlines() == list(VERSION.steps)
