"""The cover page: one side, marks and no names, stops first, nothing new, one number."""

from __future__ import annotations

import datetime as dt
import shutil
import subprocess
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from tapeline.activities.emergencies import load_emergencies
from tapeline.activities.shipped import shipped_yaml
from tapeline.caseload.people import ChildPrecaution
from tapeline.caseload.places import Membership
from tapeline.documents.cover import Cover
from tapeline.errors import InputError
from tapeline.planner.plan import SessionPlan
from tapeline.sessions.cover import WATCH, cover_for, cover_pdf
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.prepare import plan_session
from tests.unit.sessions.packet_world import NAMES, a_packet_plan, a_world, with_child

HALF, DROP = "sock_basket.half_metre.usual", "sock_basket.drop.usual"


def words_of(cover: Cover) -> str:
    """Everything that stands on the page, in its order."""
    games = [
        " ".join([game.name, game.lead, game.things, *game.adult, *(one.do for one in game.does)])
        for game in cover.games
    ]
    children = [" ".join([*child.keep, *child.stop_signs]) for child in cover.children]
    return "\n".join([
        cover.title, cover.where, cover.stop_head, *cover.stop_signs, *children, *cover.call,
        *cover.rules, *games, cover.count,
    ])  # fmt: skip


def with_new_toss(plan: SessionPlan, *children: str) -> SessionPlan:
    """The plan with the toss new for these children."""
    toss = plan.parts[1]
    rows = tuple(replace(row, new=row.id in children) for row in toss.children)
    return replace(plan, parts=(plan.parts[0], replace(toss, children=rows), plan.parts[2]))


@pytest.fixture(scope="module")
def cover() -> Cover:
    caseload = a_world()
    return cover_for(a_packet_plan(caseload), caseload)


def test_no_child_is_named_and_each_who_is_there_has_a_mark(cover: Cover) -> None:
    assert not any(name in words_of(cover) for name in NAMES)
    assert [child.mark for child in cover.children] == ["boat", "kite"]


def test_the_general_stop_rules_are_all_on_it_word_for_word(cover: Cover) -> None:
    assert cover.stop_signs == tuple(sign.en for sign in load_emergencies().stop_signs)


def test_whom_to_call_and_to_ring_is_on_it(cover: Cover) -> None:
    assert "In an emergency call 911 first." in cover.call
    assert "Then ring 555 0142." in cover.call
    assert any("the blue folder" in line for line in cover.call)


def test_what_is_not_on_file_is_a_line_to_write_on() -> None:
    caseload = a_world()
    her = replace(caseload.therapist, ring="", emergency_number="")
    caseload = replace(caseload, therapist=her)
    assert "Then ring ____." in cover_for(a_packet_plan(caseload), caseload).call


def test_a_precaution_stands_behind_the_mark_with_whom_to_check(cover: Cover) -> None:
    caseload = with_child(a_world(), "c1", precautions=(ChildPrecaution(kind="latex"),))
    found = cover_for(a_packet_plan(caseload), caseload).children[0]
    assert found.keep[0].startswith("Latex: keep it out of the room. Check with ")
    assert "Itching or hives." in found.stop_signs
    assert cover.children[0].keep == ()


def test_nothing_on_it_is_called_safe(cover: Cover) -> None:
    assert not any(word in words_of(cover).casefold() for word in ("safe for", "ok for", "cleared"))


def test_only_games_that_make_tries_are_on_it(cover: Cover) -> None:
    assert [game.name for game in cover.games] == ["Toss the laundry", "Drift and tap"]


def test_a_new_step_gives_way_to_the_step_below() -> None:
    caseload = a_world()
    plan = with_new_toss(a_packet_plan(caseload), "c1")
    toss = cover_for(plan, caseload).games[0]
    does = {mark: one.do for one in toss.does for mark in one.marks}
    library = {one.id: one for one in _toss_versions(caseload)}
    assert does == {"boat": library[DROP].do, "kite": library[HALF].do}


def _toss_versions(caseload):
    from tapeline.caseload.own_library import library_in_force

    return library_in_force(caseload).activities["sock_basket"].versions


def test_where_nothing_easier_is_there_the_child_watches() -> None:
    caseload = a_world()
    plan = a_packet_plan(caseload)
    drift = plan.parts[2]
    rows = tuple(replace(row, new=row.id == "c1") for row in drift.children)
    plan = replace(plan, parts=(*plan.parts[:2], replace(drift, children=rows)))
    game = cover_for(plan, caseload).games[1]
    assert {mark: one.do for one in game.does for mark in one.marks}["boat"] == WATCH


def test_no_game_is_left_for_nobody() -> None:
    caseload = a_world()
    plan = a_packet_plan(caseload)
    drift = plan.parts[2]
    rows = tuple(replace(row, new=True) for row in drift.children)
    plan = replace(plan, parts=(*plan.parts[:2], replace(drift, children=rows)))
    assert [game.name for game in cover_for(plan, caseload).games] == ["Toss the laundry"]


def test_one_number_is_asked_for() -> None:
    caseload = a_world()
    cover = cover_for(a_packet_plan(caseload), caseload)
    assert cover.count == (
        "In game 1, watch 5 tries of each child. Write how many went without help."
    )


def test_a_group_on_a_call_has_its_own(cover: Cover) -> None:
    caseload = a_world()
    members = (Membership(child="c3", place="home"), Membership(child="c4", place="home_later"))
    caseload = replace(caseload, groups=(replace(caseload.groups[0], members=members),))
    found = cover_for(a_packet_plan(caseload), caseload)
    assert [child.mark for child in found.children] == ["fish"]
    assert "on the call" in found.where
    assert "adult" not in found.where


def test_nobody_can_stand_in_where_all_follow_a_recording() -> None:
    caseload = a_world()
    members = (Membership(child="c4", place="home_later"),)
    caseload = replace(caseload, groups=(replace(caseload.groups[0], members=members),))
    with pytest.raises(InputError, match="nobody can stand in"):
        cover_for(a_packet_plan(caseload), caseload)


def test_a_plan_out_of_date_gives_no_cover_page() -> None:
    caseload = a_world()
    plan = a_packet_plan(caseload)
    changed = with_child(caseload, "c1", precautions=(ChildPrecaution(kind="latex"),))
    with pytest.raises(InputError, match="plan again"):
        cover_for(plan, changed)


@pytest.fixture(scope="module")
def hall(tmp_path_factory: pytest.TempPathFactory) -> tuple[Cover, Path]:
    """Six children with six precautions, planned by the program."""
    caseload = demo_caseload(dt.date(2026, 11, 25))
    plan = plan_session(caseload, group="hall", on=dt.date(2026, 12, 1))
    path = tmp_path_factory.mktemp("cover") / "cover.pdf"
    path.write_bytes(cover_pdf(plan, caseload))
    return cover_for(plan, caseload), path


def test_it_is_one_side_of_paper(hall: tuple[Cover, Path]) -> None:
    with pikepdf.open(hall[1]) as pdf:
        assert len(pdf.pages) == 1
        assert pdf.Root.MarkInfo.Marked


def test_it_is_read_in_less_than_five_minutes(hall: tuple[Cover, Path]) -> None:
    """Adults read 200 to 250 words a minute (from memory): at most three minutes of five."""
    assert hall[0].words() <= shipped_yaml("practice/cover.yaml")["most_words"]["value"]


def test_it_has_three_games_and_stops_come_first(hall: tuple[Cover, Path]) -> None:
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext was not found. Install poppler-utils.")
    said = subprocess.run(
        ["pdftotext", str(hall[1]), "-"], check=True, capture_output=True
    ).stdout.decode()
    said = " ".join(said.split())
    assert len(hall[0].games) == 3
    places = [said.index(hall[0].stop_head), *(said.index(game.name) for game in hall[0].games)]
    assert places == sorted(places)
    names = [child.name for child in demo_caseload(dt.date(2026, 11, 25)).children]
    assert not any(f" {name} " in said for name in names)


def test_letter_paper_takes_one_side_too() -> None:
    caseload = a_world()
    caseload = replace(caseload, therapist=replace(caseload.therapist, paper="letter"))
    made = cover_pdf(a_packet_plan(caseload), caseload)
    with pikepdf.open(BytesIO(made)) as pdf:
        assert len(pdf.pages) == 1
