"""What is hers on file: kept words, what is left out, the file that carries it all."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.hers import LeftOut, OwnChange
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import caseload_about, caseload_from_rows, rows_from_caseload
from tapeline.web.selectors.library import library_now, library_then
from tapeline.web.selectors.plan_view import plan_view
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.erase import child_erase
from tapeline.web.services.exchange import caseload_export, caseload_import, caseload_preview
from tapeline.web.services.leave_out import activity_leave_out
from tapeline.web.services.own_changes import lines_change, lines_take_back
from tapeline.web.services.sessions import session_propose

pytestmark = pytest.mark.django_db
TUESDAY = dt.date(2026, 11, 24)


def lead_of(activity: str) -> OwnChange:
    """Her own lead for a game."""
    return OwnChange(activity=activity, field="lead", now="My own lead.")


def test_a_planned_session_keeps_its_words_when_she_changes_them(on_file: Caseload) -> None:
    found = session_propose(group_key="gulls", on=TUESDAY)
    game = found.plan.parts[0].activity
    before = library_now().activities[game].lead
    rows_from_caseload(Caseload(own_changes=(lead_of(game),)))
    session = session_of("gulls", TUESDAY)
    assert session is not None
    assert library_now().activities[game].lead == "My own lead."
    assert library_then(session).activities[game].lead == before


def test_words_that_no_plan_names_any_more_are_forgotten(on_file: Caseload) -> None:
    first = session_propose(group_key="gulls", on=TUESDAY).plan
    game = first.parts[0].activity
    assert set(kept()) == set(first.made_from.texts.values())
    rows_from_caseload(Caseload(own_changes=(lead_of(game),)))
    second = session_propose(group_key="gulls", on=TUESDAY).plan
    assert second.made_from.texts[game] != first.made_from.texts[game]
    assert set(kept()) == set(second.made_from.texts.values())


def kept() -> list[str]:
    return list(rows.OwnPiece.objects.filter(kind="text").values_list("key", flat=True))


def test_everything_of_hers_travels_in_the_caseload_file(on_file: Caseload) -> None:
    mine = replace(
        on_file,
        own_changes=(lead_of("sock_basket"),),
        own_materials=(A_THING,),
        own_drafts=({"id": "draft-1", "name": "Tide line"},),
        left_out=(LeftOut(id="lo-1", activity="loaf_catch", child="c1", since=TUESDAY),),
    )
    caseload_import(text=caseload_json(mine), name="mine.json")
    session_propose(group_key="gulls", on=TUESDAY)
    text = caseload_export()
    whole = caseload_from_rows()
    rows.OwnPiece.objects.all().delete()
    rows.LeftOut.objects.all().delete()
    caseload_import(text=text, name="mine.json")
    again = caseload_from_rows()
    for field in ("own_changes", "own_materials", "own_drafts", "left_out", "kept_texts"):
        assert getattr(again, field) == getattr(whole, field) != (), field


A_THING = {
    "id": "net_float",
    "name": "net float",
    "name_es": "flotador de red",
    "functions": ["throw"],
    "size": "8 cm",
    "household": False,
    "may_contain_latex": "no",
}


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"own_materials": ({**A_THING, "substitutes": ["moon_rock"]},)}, "moon_rock"),
        ({"own_changes": (OwnChange(activity="sock_basket", field="name", now=7),)}, "name is 7"),
        (
            {"own_changes": (OwnChange(activity="sock_basket", field="lead", now="a" * 10**7),)},
            "a text of 10000000 letters",
        ),
        ({"own_drafts": ({"id": "x", "lead": "a" * 10**7},)}, "a text of 10000000 letters"),
        (
            {"left_out": (LeftOut(id="l", activity="x", child="c99", since=TUESDAY),)},
            "the child 'c99'",
        ),
    ],
)
def test_what_cannot_be_used_is_said_and_nothing_comes_in(
    on_file: Caseload, fields: dict, said: str
) -> None:
    text = caseload_json(replace(on_file, **fields))
    with pytest.raises(InputError, match=said):
        caseload_preview(text=text, name="mine.json")
    with pytest.raises(InputError):
        caseload_import(text=text, name="mine.json")
    assert not rows.OwnPiece.objects.exists()
    assert not rows.LeftOut.objects.exists()


def test_what_is_left_out_for_a_child_goes_with_the_child(on_file: Caseload) -> None:
    left_out = (
        LeftOut(id="lo-1", activity="loaf_catch", child="c1", since=TUESDAY),
        LeftOut(id="lo-2", activity="loaf_catch", since=TUESDAY),
    )
    rows_from_caseload(replace(on_file, left_out=left_out))
    child_erase(child_key="c1")
    assert [one.id for one in caseload_from_rows().left_out] == ["lo-2"]


def test_a_session_held_before_texts_were_kept_keeps_what_it_says_before_a_change(
    on_file: Caseload,
) -> None:
    plan = session_propose(group_key="gulls", on=TUESDAY).plan
    game = plan.parts[0].activity
    row = rows.Session.objects.get(group__key="gulls", date=TUESDAY)
    row.plan["made_from"].pop("texts")
    row.status = "held"
    row.save()
    rows.OwnPiece.objects.all().delete()
    before = library_now().activities[game].lead
    lines_change(activity=game, version="", lines={"lead": "My own lead."})
    session = session_of("gulls", TUESDAY)
    assert session is not None
    assert library_now().activities[game].lead == "My own lead."
    assert library_then(session).activities[game].lead == before
    about = caseload_about({"c1"})
    assert [one.activity["lead"] for one in about.kept_texts] == [before]
    assert caseload_about({"c1"}, only_minutes=True).kept_texts == ()


def test_her_words_come_back_with_the_caseload_file(on_file: Caseload) -> None:
    lines_change(activity="sock_basket", version="", lines={"lead": "My own lead."})
    text = caseload_export()
    assert "My own lead." in text
    lines_take_back(activity="sock_basket")
    caseload_import(text=text, name="mine.json")
    assert library_now().activities["sock_basket"].lead == "My own lead."


def test_what_is_left_out_for_good_is_no_swap_and_its_plan_is_to_be_made_again(
    on_file: Caseload,
) -> None:
    plan = session_propose(group_key="gulls", on=TUESDAY).plan
    offered = plan_view(plan, caseload_from_rows(), 0).chosen.others[0].id
    activity_leave_out(activity=offered)
    view = plan_view(plan, caseload_from_rows(), 0)
    assert offered not in {one.id for one in view.chosen.others}
    assert view.stale == ()
    activity_leave_out(activity=plan.parts[0].activity, child="c2", reason="Too loud.")
    stale = plan_view(plan, caseload_from_rows(), 0).stale
    assert stale == ("Made before what you leave out changed: plan again.",)
    again = session_propose(group_key="gulls", on=TUESDAY).plan
    assert plan.parts[0].activity not in {one.activity for one in again.parts}
