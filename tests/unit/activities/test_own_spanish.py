"""Her own Spanish: beside the English it was made from, and stale by itself."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.activities.check import check_activity
from tapeline.activities.draft import body_of, gaps_in
from tapeline.activities.lines import line_of
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.overlay import Hers, overlay
from tapeline.activities.own_spanish import (
    SpanishTyped,
    line_fingerprint,
    lines_of_version,
    read_fingerprint,
    spanish_of_row,
    spanish_written,
)
from tapeline.activities.spanish import load_spanish, spanish_of, text_in
from tapeline.errors import ManyFaults

SHIPPED = load_library()
GAME, TAIL = "sock_basket", "half_metre.usual"
VERSION = SHIPPED.find_version(f"{GAME}.{TAIL}")
IN_SPANISH = load_spanish().activities[GAME].versions[TAIL]
MINE = "Toss the sock over the rope."
MINE_ES = "Lanza el calcetín por encima de la cuerda."


def changed(*rows: dict):
    """The sock game with changed lines, and its half-metre version."""
    whole = [{"activity": GAME, "version": TAIL, "was": None, **row} for row in rows]
    activity = overlay(SHIPPED, Hers(changes=tuple(whole))).activities[GAME]
    return activity, next(one for one in activity.versions if one.id == VERSION.id)


def spanish_line(words: object = MINE_ES, *, of: object = MINE, field: str = "do") -> dict:
    return {"field": f"es.{field}", "now": words, "english": line_fingerprint(of)}


def test_a_changed_line_without_its_spanish_is_printed_in_english_and_named():
    activity, version = changed({"field": "do", "now": MINE})
    assert spanish_of(activity, version).lacks == ("do",)
    assert (text_in("es", activity, version).language, text_in("es", activity, version).do) == (
        "en",
        MINE,
    )


def test_a_changed_line_with_its_spanish_stands_among_the_shipped_ones():
    activity, version = changed({"field": "do", "now": MINE}, spanish_line())
    text = text_in("es", activity, version)
    assert (text.language, text.do, text.steps) == ("es", MINE_ES, IN_SPANISH.steps)
    assert spanish_of(activity, version).hers == {"do"}


def test_other_versions_keep_their_shipped_spanish():
    activity, _ = changed({"field": "do", "now": MINE})
    other = next(one for one in activity.versions if one.id != VERSION.id)
    assert text_in("es", activity, other).language == "es"


def test_spanish_of_other_english_is_stale_and_given_to_nobody():
    activity, version = changed(
        {"field": "do", "now": MINE}, spanish_line(of="Toss the sock under the rope.")
    )
    text = text_in("es", activity, version)
    assert (text.language, text.state, text.do) == ("en", "missing", MINE)
    found = spanish_of(activity, version)
    assert (found.stale, found.lacks, found.lines["do"]) == (("do",), ("do",), MINE_ES)


def test_a_changed_name_takes_the_spanish_of_every_version_until_it_has_its_own():
    row = {"activity": GAME, "version": "", "field": "name", "now": "Sock post"}
    activity = overlay(SHIPPED, Hers(changes=(row,))).activities[GAME]
    assert {text_in("es", activity, one).language for one in activity.versions} == {"en"}
    name = {**row, "field": "es.name", "now": "Correo", "english": line_fingerprint("Sock post")}
    activity = overlay(SHIPPED, Hers(changes=(row, name))).activities[GAME]
    assert {text_in("es", activity, one).name for one in activity.versions} == {"Correo"}


def test_only_the_spanish_may_be_hers():
    activity, version = changed(spanish_line(of=VERSION.do))
    assert text_in("en", activity, version).do == VERSION.do
    assert (text_in("es", activity, version).do, text_in("es", activity, version).state) == (
        MINE_ES,
        spanish_state_of_the_shipped(),
    )


def spanish_state_of_the_shipped() -> str:
    return text_in("es", SHIPPED.activities[GAME], VERSION).state


def test_a_person_reads_a_text_and_any_other_word_takes_that_away():
    activity, version = changed({"field": "do", "now": MINE}, spanish_line())
    read = {"field": "es.read", "now": read_fingerprint(spanish_of(activity, version).lines)}
    activity, version = changed({"field": "do", "now": MINE}, spanish_line(), read)
    assert not text_in("es", activity, version).to_be_read_by_a_person
    cue = spanish_line(["¡Mira!"] * len(VERSION.cues), of=list(VERSION.cues), field="cues")
    activity, version = changed({"field": "do", "now": MINE}, spanish_line(), read, cue)
    assert text_in("es", activity, version).to_be_read_by_a_person


def test_a_version_of_hers_leaves_the_spanish_of_the_others_fresh():
    before = spanish_state_of_the_shipped()
    row = {**body_of(SHIPPED.activities[GAME])["versions"][0], "activity": GAME}
    row |= {"variant": "mine", "spanish": None}
    activity = overlay(SHIPPED, Hers(versions=(row,))).activities[GAME]
    texts = {one.variant: text_in("es", activity, one) for one in activity.versions}
    assert texts["mine"].state == "missing"
    assert texts["usual"].state == before


def test_a_copy_brings_the_shipped_spanish_along():
    body = {**body_of(SHIPPED.activities[GAME]), "id": "tide_line"}
    made = overlay(SHIPPED, Hers(activities=(body,))).activities["tide_line"]
    text = text_in("es", made, made.versions[0])
    shipped = text_in("es", SHIPPED.activities[GAME], SHIPPED.activities[GAME].versions[0])
    assert replace(text, state=shipped.state, fingerprint="") == replace(shipped, fingerprint="")


def test_a_line_in_spanish_is_read_like_any_other():
    activity = SHIPPED.activities[GAME]
    assert line_of(activity, TAIL, "es.do") == IN_SPANISH.do
    assert line_of(activity, TAIL, "es.steps") == list(IN_SPANISH.steps)
    assert line_of(activity, "", "es.name") == load_spanish().activities[GAME].name
    assert line_of(activity, TAIL, "es.read") == ""
    assert line_of(activity, TAIL, "es.lead") is None
    assert line_of(activity, "gone.usual", "es.do") is None


@pytest.mark.parametrize("row", [spanish_line(7), spanish_line("uno", field="steps")])
def test_spanish_of_the_wrong_shape_is_refused(row: dict):
    with pytest.raises(ManyFaults, match="panish"):
        changed({"field": "do", "now": MINE}, row)


LONG = (
    "Lanza el calcetín por encima de la cuerda que cuelga entre las dos sillas que están"
    " detrás de la mesa de la cocina."
)


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ({"do": LONG}, "is not plain"),
        ({"do": "Lanza el calcetín"}, "no full stop"),
        ({"captions": ["de pie.", "lanza", "suelta"]}, "caption"),
        ({"steps": ["Uno dos tres cuatro cinco seis siete ocho nueve.", "Dos.", "Tres."]}, "step"),
        ({"too_hard": "Más cerca.", "too_easy": "Más cerca."}, "the same"),
    ],
)
def test_the_check_looks_at_her_spanish(lines: dict, said: str):
    body = {**body_of(SHIPPED.activities[GAME]), "id": "tide_line"}
    whole = body["versions"][0]["spanish"]["lines"]
    body["versions"] = [{**body["versions"][0], "spanish": {"lines": {**whole, **lines}}}]
    library = overlay(SHIPPED, Hers(activities=(body,)))
    faults = check_activity(library.activities["tide_line"], library, load_rule_book())
    assert [fault for fault in faults if said in fault and "Spanish" in fault], faults
    gaps = gaps_in(body, SHIPPED, load_rule_book())
    assert [gap for gap in gaps if gap.version == 1 and "Its Spanish" in gap.sentence]


def test_spanish_that_lacks_lines_is_no_fault():
    body = {**body_of(SHIPPED.activities[GAME]), "id": "tide_line", "spanish": None}
    body["versions"][0]["spanish"] = {"lines": {"do": "Lanza el calcetín."}}
    assert gaps_in(body, SHIPPED, load_rule_book()) == ()


ENGLISH = lines_of_version(VERSION)


def test_what_is_typed_is_made_from_the_english_of_now():
    made = spanish_written(None, SpanishTyped(lines={"do": MINE_ES}), english=ENGLISH)
    assert made == {
        "lines": {"do": MINE_ES},
        "english": {"do": line_fingerprint(ENGLISH["do"])},
        "read": "",
    }


@pytest.mark.parametrize(("says_the_same", "stale"), [(False, ("do",)), (True, ())])
def test_spanish_left_as_it_was_beside_new_english_is_stale_until_she_says_it_fits(
    says_the_same: bool, stale: tuple[str, ...]
):
    before = spanish_written(None, SpanishTyped(lines={"do": MINE_ES}), english=ENGLISH)
    row = {"do": MINE, "adult": {}}
    row["spanish"] = spanish_written(
        before,
        SpanishTyped(lines={"do": MINE_ES}, says_the_same=says_the_same),
        english={**ENGLISH, "do": MINE},
    )
    assert spanish_of_row(row).stale == stale


def test_nothing_typed_is_no_spanish():
    typed = SpanishTyped(lines={"do": "", "steps": []}, says_the_same=True)
    assert spanish_written(None, typed, english=ENGLISH) is None


def test_spanish_with_fewer_lines_than_the_english_lacks_that_line():
    row = {"cues": ["Look!", "Let go!"], "spanish": {"lines": {"cues": ["¡Mira!"]}}}
    assert spanish_of_row(row).lacks == ("cues",)
    assert spanish_of_row({"name": "Net post"}, is_activity=True).lacks == ("name",)
