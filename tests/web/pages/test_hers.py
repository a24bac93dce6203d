"""What she does to the library: her words, what is left out, activities of her own, one file."""

from __future__ import annotations

import json
from dataclasses import fields, replace
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from tapeline.activities.draft import version_body
from tapeline.activities.loader import load_library
from tapeline.caseload.caseload import Caseload
from tapeline.web.forms.own_activity import needs_shown, version_shown
from tapeline.web.forms.own_lines import lines_shown
from tapeline.web.records.convert import caseload_from_rows, rows_from_caseload
from tapeline.web.records.models import OwnPiece
from tapeline.web.selectors.library import library_now
from tapeline.web.services.own_changes import lines_change

pytestmark = pytest.mark.django_db
GAME, TAIL = "sock_basket", "half_metre.usual"
SHIPPED = load_library()
CHANGE = f"/library/{GAME}/mine/{TAIL}/"


@pytest.fixture
def browser(client: Client, on_file: Caseload) -> Client:
    return client


def lines(**changes: Any) -> dict[str, Any]:
    """What stands in the form of the sock game, with some of it changed."""
    shown = lines_shown(SHIPPED.activities[GAME], TAIL)
    return {**{name: value for name, value in shown.items() if value is not None}, **changes}


def version_typed(**changes: Any) -> dict[str, Any]:
    """A version as typed: the half-metre toss."""
    body = version_body(SHIPPED.find_version(f"{GAME}.{TAIL}"))
    shown = {name: value for name, value in version_shown(body).items() if value is not None}
    needs = needs_shown(body["things"], SHIPPED.materials)
    rows = {
        f"things-{place}-{name}": value
        for place, need in enumerate(needs)
        for name, value in need.items()
        if value is not False
    }
    return {**shown, **rows, "things-count": len(needs), **changes}


def said(page: Any) -> str:
    return page.content.decode()


def test_her_words_lie_on_top_and_are_shown_beside_the_shipped_ones(browser: Client) -> None:
    browser.post(CHANGE, lines(do="Toss the sock over the rope."))
    assert library_now().find_version(f"{GAME}.{TAIL}").do == "Toss the sock over the rope."
    shown = said(browser.get(f"/library/{GAME}/changes/"))
    assert "Toss the sock over the rope." in shown
    assert SHIPPED.find_version(f"{GAME}.{TAIL}").do in shown
    assert "What I changed: 1 line" in said(browser.get(f"/library/{GAME}/"))


def test_what_stays_as_shipped_is_no_change_of_hers(browser: Client) -> None:
    browser.post(CHANGE, lines())
    assert not OwnPiece.objects.exists()


def test_one_line_goes_back_and_the_others_stay(browser: Client) -> None:
    browser.post(CHANGE, lines(do="Toss the sock.", too_hard="Stand one step closer."))
    assert OwnPiece.objects.filter(kind="change").count() == 2
    browser.post(f"/library/{GAME}/changes/", {"line": f"{GAME}/{TAIL}/do"})
    assert [one.field for one in caseload_from_rows().own_changes] == ["too_hard"]


def test_all_of_it_goes_back_after_asking_once(browser: Client) -> None:
    browser.post(CHANGE, lines(do="Toss the sock."))
    asked = browser.post(f"/library/{GAME}/changes/")
    assert "Back to the shipped words" in said(asked)
    assert OwnPiece.objects.exists()
    browser.post(f"/library/{GAME}/changes/", {"take_out": "sure"})
    assert not OwnPiece.objects.exists()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"steps": "One line."}, "exactly three"),
        ({"captions": "a b c d e f\nb\nc"}, "five words"),
        ({"do": "<script>alert(1)</script>"}, "holds a &lt; or &gt;"),
        ({"do": "Toss it up and run and get it and go back and toss it up again."}, "is not plain"),
        ({"most": "-4"}, "Type 1 to"),
        ({"most": ""}, "This is empty. Write it."),
        ({"too_hard": ""}, "This is empty. Write it."),
    ],
)
def test_words_that_would_not_stand_the_check_are_refused_and_nothing_is_kept(
    browser: Client, changes: dict[str, str], words: str
) -> None:
    answer = browser.post(CHANGE, lines(**changes))
    assert answer.status_code == 422
    assert words in said(answer)
    assert not OwnPiece.objects.exists()


def test_a_hazard_is_added_and_the_shipped_ones_stay(browser: Client) -> None:
    browser.post(CHANGE, lines(more_touches=["climb"]))
    shipped = SHIPPED.find_version(f"{GAME}.{TAIL}").touches
    assert library_now().find_version(f"{GAME}.{TAIL}").touches == (*shipped, "climb")
    browser.post(CHANGE, lines())
    assert library_now().find_version(f"{GAME}.{TAIL}").touches == shipped


def test_name_and_lead_are_hers_too(browser: Client) -> None:
    shipped = SHIPPED.activities[GAME]
    typed = {"name": "Sock post", "lead": shipped.lead, "sibling": shipped.sibling}
    browser.post(f"/library/{GAME}/mine/", typed)
    assert library_now().activities[GAME].name == "Sock post"


@pytest.mark.parametrize(("whom", "words"), [("for_good", "for good"), ("child:c1", "for Odo")])
def test_an_activity_is_left_out_and_taken_in_again(browser: Client, whom: str, words: str) -> None:
    browser.post(f"/library/{GAME}/leave-out/", {"whom": whom, "reason": "Too wild."})
    shown = said(browser.get("/library/left-out/"))
    assert words in shown
    assert "Too wild." in shown
    assert f"Left out {words}." in said(browser.get(f"/library/{GAME}/"))
    row = caseload_from_rows().left_out[0]
    browser.post(f"/library/left-out/{row.id}/take-in/")
    assert caseload_from_rows().left_out == ()


def test_an_activity_is_left_out_once_for_the_same(browser: Client) -> None:
    for status in (302, 422):
        answer = browser.post(f"/library/{GAME}/leave-out/", {"whom": "home:h3"})
        assert answer.status_code == status
    assert len(caseload_from_rows().left_out) == 1


def begin(browser: Client, name: str = "Tide line", like: str = "") -> str:
    answer = browser.post("/library/hers/new/", {"name": name, "like": like})
    return str(answer.headers["Location"])


def test_a_new_activity_says_at_once_what_is_missing_and_is_not_planned(browser: Client) -> None:
    draft = begin(browser)
    assert draft == "/library/drafts/tide_line/"
    shown = said(browser.get(draft))
    assert "It needs what the leader tells the whole group." in shown
    assert "It needs a version." in shown
    assert "tide_line" not in library_now().activities


def test_looking_keeps_nothing(browser: Client) -> None:
    draft = begin(browser)
    typed = {"name": "Tide line", "lead": "Toss all.", "uses": ["practice"], "look": "1"}
    shown = said(browser.post(draft, typed))
    assert "what the leader tells" not in shown.split('id="gaps"')[1].split("</div>")[0]
    assert OwnPiece.objects.get(kind="draft").body.get("lead") is None


def test_an_activity_of_hers_goes_from_draft_into_the_library_and_is_changed(
    browser: Client,
) -> None:
    draft = begin(browser)
    typed = {
        "name": "Tide line",
        "skill": "toss_under",
        "lead": "Toss all. Then fetch all.",
        "uses": ["practice"],
        "lanes": "0",
    }
    browser.post(draft, {**typed, "keep": "1"})
    version = f"{draft}versions/1/"
    assert "It needs the step of the skill" in said(browser.get(version))
    answer = browser.post(version, version_typed(do=""))
    assert answer.status_code == 302
    assert "It needs what to do, in one sentence." in said(browser.get(version))
    browser.post(version, version_typed())
    assert "Nothing is missing." in said(browser.get(draft))
    browser.post(draft, {**typed, "put_in": "1"})
    assert "tide_line" in library_now().activities
    assert not OwnPiece.objects.filter(kind="draft").exists()
    browser.post("/library/tide_line/edit/")
    browser.post(draft, {**typed, "name": "Tide marks", "keep": "1"})
    assert library_now().activities["tide_line"].name == "Tide line"
    browser.post(draft, {**typed, "name": "Tide marks", "put_in": "1"})
    assert library_now().activities["tide_line"].name == "Tide marks"
    assert "Take Tide marks out" in said(browser.get("/library/tide_line/delete/"))
    browser.post("/library/tide_line/delete/", {"take_out": "sure"})
    assert "tide_line" not in library_now().activities


def test_an_unfinished_draft_is_not_put_in(browser: Client) -> None:
    draft = begin(browser)
    answer = browser.post(draft, {"name": "Tide line", "put_in": "1"})
    assert answer.status_code == 422
    assert "Something is missing" in said(answer)
    assert "tide_line" not in library_now().activities


def test_a_copy_of_a_shipped_activity_is_whole(browser: Client) -> None:
    draft = begin(browser, like=GAME)
    assert "Nothing is missing." in said(browser.get(draft))
    browser.post(f"{draft}delete/", {"take_out": "sure"})
    assert not OwnPiece.objects.exists()


def test_a_forgotten_hazard_is_asked_about_and_does_not_hold_it_back(browser: Client) -> None:
    draft = begin(browser, like=GAME)
    typed = version_typed(do="Jump and toss the sock into the basket.", touches=["throw"])
    browser.post(f"{draft}versions/1/", typed)
    shown = said(browser.get(f"{draft}versions/1/"))
    assert "It says “jump” and does not name jumping." in shown


def test_a_thing_that_nobody_knows_is_named(browser: Client) -> None:
    draft = begin(browser, like=GAME)
    answer = browser.post(f"{draft}versions/1/", version_typed(**{"things-0-any_of": "moon rock"}))
    assert answer.status_code == 422
    assert "Nobody knows “moon rock”" in said(answer)


def test_a_version_of_hers_joins_a_shipped_activity_and_goes_again(browser: Client) -> None:
    page = f"/library/{GAME}/versions/new/?like={TAIL}"
    assert browser.get(page).status_code == 200
    answer = browser.post(page, version_typed(variant="mine", do="Toss it with a friend."))
    assert answer.status_code == 302, said(answer)
    version = library_now().find_version(f"{GAME}.half_metre.mine")
    assert version.do == "Toss it with a friend."
    assert "Change your version" in said(browser.get(f"/library/{GAME}/"))
    away = f"/library/{GAME}/versions/half_metre.mine/delete/"
    assert "Take your version out?" in said(browser.get(away))
    browser.post(away, {"take_out": "sure"})
    assert library_now().activities[GAME] == SHIPPED.activities[GAME]


HERS = f"/library/{GAME}/versions/half_metre.mine/"


@pytest.fixture
def with_hers(browser: Client) -> Client:
    page = f"/library/{GAME}/versions/new/?like={TAIL}"
    browser.post(page, version_typed(variant="mine", do="Toss it with a friend."))
    return browser


def hers_now(tail: str = "half_metre.mine") -> Any:
    return library_now().find_version(f"{GAME}.{tail}")


def test_a_version_of_hers_is_changed_in_the_form_it_was_written_in(with_hers: Client) -> None:
    shown = said(with_hers.get(HERS))
    assert "Toss it with a friend." in shown
    assert "Nothing is missing." in shown
    answer = with_hers.post(HERS, version_typed(variant="mine", do="Toss it high.", most="9"))
    assert answer.status_code == 302, said(answer)
    assert (hers_now().do, hers_now().most) == ("Toss it high.", 9)
    assert len(caseload_from_rows().own_versions) == 1


def test_the_form_says_at_once_what_a_version_of_hers_lacks(with_hers: Client) -> None:
    looked = with_hers.post(HERS, version_typed(variant="mine", do="", look="1"))
    assert "It needs what to do, in one sentence." in said(looked)
    long = "Toss it up and run and get it and go back and toss it up again."
    answer = with_hers.post(HERS, version_typed(variant="mine", do=long))
    assert answer.status_code == 422
    assert "is not plain" in said(answer)
    assert hers_now().do == "Toss it with a friend."


def test_a_version_that_is_hard_to_read_is_not_put_in(browser: Client) -> None:
    page = f"/library/{GAME}/versions/new/?like={TAIL}"
    long = "Toss it up and run and get it and go back and toss it up again."
    answer = browser.post(page, version_typed(variant="mine", do=long))
    assert answer.status_code == 422
    assert not OwnPiece.objects.exists()


def test_what_a_version_said_before_comes_back_and_goes_again(with_hers: Client) -> None:
    with_hers.post(HERS, version_typed(variant="mine", do="Toss it high."))
    assert "Before your last change it said: Toss it with a friend." in said(with_hers.get(HERS))
    with_hers.post(f"{HERS}back/")
    assert hers_now().do == "Toss it with a friend."
    with_hers.post(f"{HERS}back/")
    assert hers_now().do == "Toss it high."


def test_there_is_no_way_back_where_nothing_came_before(with_hers: Client) -> None:
    assert "Back to what it said before" not in said(with_hers.get(HERS))
    assert with_hers.post(f"{HERS}back/").status_code == 404
    with_hers.post(HERS, version_typed(variant="mine", do="Toss it with a friend."))
    assert with_hers.post(f"{HERS}back/").status_code == 404


def test_lines_changed_one_by_one_join_the_version_when_it_is_changed(with_hers: Client) -> None:
    lines_change(
        activity=GAME, version="half_metre.mine", lines={"too_hard": "Stand one step closer."}
    )
    assert "Stand one step closer." in said(with_hers.get(HERS))
    with_hers.post(HERS, version_typed(variant="mine", too_hard="Stand close."))
    assert hers_now().too_hard == "Stand close."
    assert caseload_from_rows().own_changes == ()


def test_the_words_of_a_version_of_hers_are_changed_in_its_own_form(with_hers: Client) -> None:
    answer = with_hers.get(f"/library/{GAME}/mine/half_metre.mine/")
    assert answer.headers["Location"] == HERS


def test_another_step_gives_a_version_of_hers_another_id_while_nothing_counts_on_it(
    with_hers: Client, on_file: Caseload
) -> None:
    step = "toss_under.one_metre"
    typed = version_typed(variant="mine", step=step, do="Toss it with a friend.")
    assert with_hers.post(HERS, typed).status_code == 302
    assert hers_now("one_metre.mine").step == step
    trial = replace(on_file.trials[0], id="t-of-hers", version=f"{GAME}.one_metre.mine", step=step)
    rows_from_caseload(Caseload(**{**vars_of(caseload_from_rows()), "trials": (trial,)}))
    answer = with_hers.post(
        f"/library/{GAME}/versions/one_metre.mine/", version_typed(variant="mine")
    )
    assert answer.status_code == 422
    assert "Tries are on file for this version (1)." in said(answer)


def vars_of(caseload: Caseload) -> dict[str, Any]:
    return {field.name: getattr(caseload, field.name) for field in fields(caseload)}


def test_a_version_that_an_update_set_aside_is_mended_on_its_page(with_hers: Client) -> None:
    row = OwnPiece.objects.get(kind="version")
    row.body, row.key = {**row.body, "step": "toss_under.gone"}, f"{GAME}.gone.mine"
    row.save()
    gone = f"/library/{GAME}/versions/gone.mine/"
    assert gone in said(with_hers.get("/library/hers/"))
    assert "toss_under.gone" in said(with_hers.get(gone)).split('id="gaps"')[1].split("</div>")[0]
    answer = with_hers.post(gone, version_typed(variant="mine", do="Toss it with a friend."))
    assert answer.status_code == 302, said(answer)
    assert hers_now().do == "Toss it with a friend."


def test_a_version_whose_activity_is_gone_is_taken_out_from_hers(with_hers: Client) -> None:
    row = OwnPiece.objects.get(kind="version")
    row.body, row.key = {**row.body, "activity": "tide_line"}, "tide_line.half_metre.mine"
    row.save()
    away = "/library/tide_line/versions/half_metre.mine/delete/"
    shown = said(with_hers.get("/library/hers/"))
    assert away in shown
    assert "Its activity is no longer in the library." in shown
    assert 'href="/library/hers/"' in said(with_hers.get(away))
    answer = with_hers.post(away, {"take_out": "sure"})
    assert answer.headers["Location"] == "/library/hers/"
    assert not OwnPiece.objects.exists()


def test_a_version_of_the_shipped_library_is_not_changed_as_hers(browser: Client) -> None:
    assert browser.get(f"/library/{GAME}/versions/{TAIL}/").status_code == 404
    assert browser.get(f"/library/{GAME}/versions/{TAIL}/delete/").status_code == 404


THING = {
    "name": "Net float",
    "functions": ["throw", "catch", "target", "carry", "squeeze"],
    "stands_in_for": ["sock_ball"],
    "may_contain_latex": "no",
    "size": "8 cm",
}


def test_a_thing_of_hers_is_known_and_not_taken_out_while_a_home_has_it(browser: Client) -> None:
    browser.post("/library/things/new/", THING)
    assert "net_float" in library_now().materials
    assert "net_float" in library_now().materials["sock_ball"].substitutes
    browser.post("/homes/h3/things/", {"thing": ["net_float"]})
    answer = browser.post("/library/things/net_float/", {"take_out": "1"})
    assert "Home of Ines still has it" in said(answer)
    browser.post("/homes/h3/things/", {"thing": []})
    browser.post("/library/things/net_float/", {"take_out": "1"})
    assert "net_float" not in library_now().materials


def test_her_activities_are_one_file_that_is_looked_at_first(browser: Client) -> None:
    browser.post("/library/things/new/", THING)
    browser.post(CHANGE, lines(do="Toss the sock."))
    draft = begin(browser, like=GAME)
    browser.post(draft, {**typed_of(draft), "put_in": "1"})
    text = browser.get("/library/share/activities.json").content
    assert b"Odo" not in text
    OwnPiece.objects.all().delete()
    looked = said(send(browser, text))
    assert "Nothing has been done yet." in looked
    assert not OwnPiece.objects.exists()
    add(browser, looked)
    assert {one.kind for one in OwnPiece.objects.all()} == {"activity", "material", "change"}
    assert "There is nothing to add" in said(send(browser, text))


def typed_of(draft: str) -> dict[str, Any]:
    body = OwnPiece.objects.get(kind="draft", key=draft.split("/")[3]).body
    names = ("name", "skill", "uses", "lead", "lanes", "sibling", "source")
    return {name: body[name] for name in names}


def send(browser: Client, text: bytes) -> Any:
    return browser.post("/library/share/", {"file": SimpleUploadedFile("theirs.json", text)})


def add(browser: Client, looked: str) -> Any:
    hidden = {
        name: looked.split(f'name="{name}" value="')[1].split('"')[0]
        for name in ("token", "name", "digest")
    }
    return browser.post("/library/share/now/", hidden)


def test_what_has_a_taken_id_gets_another_and_nothing_is_overwritten(browser: Client) -> None:
    begin_and_put_in(browser, "Tide line")
    theirs = json.loads(browser.get("/library/share/activities.json").content)
    theirs["activities"][0]["lead"] = "Their own lead."
    looked = said(send(browser, json.dumps(theirs).encode()))
    assert "gets another id" in looked
    add(browser, looked)
    library = library_now()
    assert library.activities["tide_line"].lead == SHIPPED.activities[GAME].lead
    assert library.activities["tide_line_2"].lead == "Their own lead."


def begin_and_put_in(browser: Client, name: str) -> None:
    draft = begin(browser, name, like=GAME)
    browser.post(draft, {**typed_of(draft), "put_in": "1"})


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (lambda game: game.update(skill="juggling"), "the skill juggling"),
        (lambda game: game["versions"][0].update(step="toss_under.moon"), "toss_under.moon"),
        (
            lambda game: game["versions"][0].update(things=[{"any_of": ["moon_rock"]}]),
            "moon_rock, which nobody knows",
        ),
        (lambda game: game["versions"][0].update(setup_s=-5), "setup_s"),
        (lambda game: game["versions"][0].update(do="<b>Toss</b>."), "holds a &lt; or &gt;"),
        (lambda game: game.update(lead="a" * 700), "a text of 700 letters"),
    ],
)
def test_a_file_that_cannot_be_used_is_one_sentence_and_nothing_of_it_comes_in(
    browser: Client, spoil: Any, words: str
) -> None:
    begin_and_put_in(browser, "Tide line")
    theirs = json.loads(browser.get("/library/share/activities.json").content)
    OwnPiece.objects.all().delete()
    good = json.loads(json.dumps(theirs["activities"][0]))
    theirs["activities"].append({**good, "id": "good_one"})
    spoil(theirs["activities"][0])
    answer = send(browser, json.dumps(theirs).encode())
    assert answer.status_code == 422
    assert words in said(answer)
    assert not OwnPiece.objects.exists()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b"hello", "is no file of activities"),
        (b'{"format": 1, "children": []}', "is no file of activities"),
        (b'{"kind": "tapeline activities", "format": 9}', "of format 9"),
        (b'{"kind": "tapeline activities", "format": 1, "colour": 1}', "colour"),
        (b"\xff\xfe\x00", "is not a text file"),
        (b'{"kind": "tapeline activities", "by": "' + b"a" * 10_000_000 + b'"}', "10.0 MB"),
    ],
)
def test_what_is_no_file_of_activities_is_said(browser: Client, text: bytes, words: str) -> None:
    answer = send(browser, text)
    assert answer.status_code == 422
    assert words in said(answer)
