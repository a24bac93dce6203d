"""Notes are kept as she wrote them; signing locks them; amendments are only added."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from django.db import IntegrityError, transaction

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.notes import Amendment, MadeUp, NoteSentence, SessionNote
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import (
    caseload_about,
    caseload_from_rows,
    group_to_row,
    session_to_row,
    therapist_to_row,
    tries_of,
)
from tapeline.web.selectors.minutes import groups_that_owe, minutes_view
from tapeline.web.selectors.notes import note_views, sessions_without_notes, written_about
from tapeline.web.services.merge import merge
from tapeline.web.services.notes import (
    minutes_make_up,
    note_amend,
    note_draft_again,
    notes_save,
)
from tests.web.conftest import TODAY

pytestmark = pytest.mark.django_db
HELD = dt.date(2026, 11, 17)
NOW = dt.datetime(2026, 11, 17, 16, 5, tzinfo=dt.UTC)


def drafted() -> dict[str, str]:
    """The text of each note as its box shows it."""
    caseload = caseload_from_rows()
    session = next(one for one in caseload.sessions if one.id == "s1")
    return {view.child.id: view.text for view in note_views(caseload, session)}


def save(texts: dict[str, str], *sign: str) -> tuple[SessionNote, ...]:
    return notes_save(group_key="gulls", on=HELD, texts=texts, sign=sign, now=NOW)


def kept() -> dict[str, SessionNote]:
    return {note.child: note for note in caseload_from_rows().notes}


def test_an_untouched_draft_is_not_kept_and_goes_on_following_the_record(
    on_file: Caseload,
) -> None:
    assert save(drafted()) == ()
    assert kept() == {}


def test_a_changed_draft_is_kept_with_what_each_sentence_rests_on(on_file: Caseload) -> None:
    text = drafted()["c1"] + "\nHe laughed a lot."
    save({"c1": text})
    sentences = kept()["c1"].sentences
    assert sentences[0].rests_on
    assert sentences[-1] == NoteSentence(text="He laughed a lot.")


def test_signing_all_locks_each_with_name_credential_and_moment(on_file: Caseload) -> None:
    therapist_to_row(replace(on_file.therapist, credential="OTR/L"))
    save(drafted(), "c1", "c2")
    for note in kept().values():
        assert (note.signed_by, note.signed_at) == ("R. Quay, OTR/L", "2026-11-17T16:05:00Z")


def test_what_was_signed_is_not_changed_and_nothing_of_that_save_is_kept(
    on_file: Caseload,
) -> None:
    save(drafted(), "c1")
    before = kept()["c1"]
    with pytest.raises(InputError, match="is signed"):
        save({"c2": "Something new.", "c1": "Other words."})
    assert kept() == {"c1": before}


def test_a_signed_note_is_not_thrown_away(on_file: Caseload) -> None:
    save(drafted(), "c1")
    with pytest.raises(InputError, match="is signed"):
        note_draft_again(group_key="gulls", on=HELD, child_key="c1")
    assert "c1" in kept()


def test_an_open_note_may_be_drafted_again(on_file: Caseload) -> None:
    save({"c1": "Nothing went right."})
    note_draft_again(group_key="gulls", on=HELD, child_key="c1")
    assert kept() == {}


def test_an_empty_note_is_not_signed(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="empty note"):
        save({"c1": "  \n "}, "c1")


def test_nobody_signs_without_a_name(on_file: Caseload) -> None:
    therapist_to_row(replace(on_file.therapist, name=""))
    with pytest.raises(InputError, match="Nobody can sign"):
        save(drafted(), "c1")


def test_amendments_stand_in_their_order_under_the_note(on_file: Caseload) -> None:
    save(drafted(), "c1")
    before = kept()["c1"]
    for text in ("It was the gym.", "And it rained."):
        note_amend(group_key="gulls", on=HELD, child_key="c1", text=text, now=NOW)
    after = kept()["c1"]
    assert [one.text for one in after.amendments] == ["It was the gym.", "And it rained."]
    assert replace(after, amendments=()) == before


def test_an_open_note_takes_no_amendment_and_an_empty_one_is_refused(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="not signed yet"):
        note_amend(group_key="gulls", on=HELD, child_key="c1", text="x", now=NOW)
    save(drafted(), "c1")
    with pytest.raises(InputError, match="no words"):
        note_amend(group_key="gulls", on=HELD, child_key="c1", text="  ", now=NOW)


def test_a_record_that_changed_after_signing_shows(on_file: Caseload) -> None:
    save(drafted(), "c1")
    trial = rows.Trial.objects.get(key="t1")
    rows.Trial.objects.create(
        key="t9", session=trial.session, child=trial.child, version=trial.version,
        step=trial.step, outcome="alone",
    )  # fmt: skip
    caseload = caseload_from_rows()
    session = next(one for one in caseload.sessions if one.id == "s1")
    views = {view.child.id: view for view in note_views(caseload, session)}
    assert views["c1"].has_changed
    assert not views["c2"].has_changed


def test_one_note_for_each_child_and_session(on_file: Caseload) -> None:
    save(drafted(), "c1")
    row = rows.SessionNote.objects.get()
    with pytest.raises(IntegrityError), transaction.atomic():
        rows.SessionNote.objects.create(key="n2", session=row.session, child=row.child)


def test_a_signed_row_without_a_name_cannot_be(on_file: Caseload) -> None:
    session, child = rows.Session.objects.get(key="s1"), rows.Child.objects.get(key="c1")
    with pytest.raises(IntegrityError), transaction.atomic():
        rows.SessionNote.objects.create(
            key="n2", session=session, child=child, signed_at="2026-11-17T16:05:00Z"
        )


def test_a_childs_notes_go_with_the_child(on_file: Caseload) -> None:
    save(drafted(), "c1", "c2")
    rows.Child.objects.get(key="c1").delete()
    assert set(kept()) == {"c2"}
    assert not rows.Amendment.objects.exists()


SIGNED = SessionNote(
    id="n1",
    session="s1",
    child="c1",
    sentences=(NoteSentence(text="It was good."),),
    signed_at="2026-11-17T16:05:00Z",
    signed_by="R. Quay",
)
ADDED = Amendment(at="2026-11-18T08:00:00Z", by="R. Quay", text="It rained.")


def verdict(old: SessionNote, new: SessionNote, caseload: Caseload) -> str:
    merged = merge(replace(caseload, notes=(old,)), replace(caseload, notes=(new,)))
    return next(line.verdict for line in merged.lines if line.kind == "notes")


@pytest.mark.parametrize(
    ("change", "found"),
    [
        ({}, "unchanged"),
        ({"amendments": (ADDED,)}, "changed"),
        ({"sentences": (NoteSentence(text="It was bad."),)}, "refused"),
        ({"signed_at": None, "signed_by": ""}, "refused"),
        ({"signed_by": "Somebody else"}, "refused"),
    ],
)
def test_a_file_adds_amendments_and_rewrites_nothing_signed(
    caseload: Caseload, change: dict[str, object], found: str
) -> None:
    assert verdict(SIGNED, replace(SIGNED, **change), caseload) == found


def test_a_file_takes_no_amendment_away(caseload: Caseload) -> None:
    assert verdict(replace(SIGNED, amendments=(ADDED,)), SIGNED, caseload) == "refused"


def test_held_sessions_wait_until_every_note_is_signed(on_file: Caseload) -> None:
    assert sessions_without_notes(TODAY) == (("gulls", "Tuesday hall", HELD, 2),)
    save(drafted(), "c1")
    assert sessions_without_notes(TODAY) == (("gulls", "Tuesday hall", HELD, 1),)
    save({"c2": drafted()["c2"]}, "c2")
    assert sessions_without_notes(TODAY) == ()


def test_minutes_made_up_are_kept(on_file: Caseload) -> None:
    made = minutes_make_up(
        child_key="c3", group_key="jetty", on=HELD, minutes=20, place="home", note=" twice "
    )
    assert caseload_from_rows().made_up == (replace(made, note="twice"),)


def test_minutes_of_a_whole_day_are_a_slip(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="1 to 240"):
        MadeUp(id="m1", child="c1", group="gulls", date=HELD, minutes=241)


def test_a_group_owes_what_its_ledgers_say(on_file: Caseload) -> None:
    assert groups_that_owe(TODAY) == ()
    off = replace(on_file.sessions[1], side="provider")
    session_to_row(off)
    group = on_file.group("jetty")
    view = minutes_view(caseload_from_rows(), group, on=TODAY)
    assert groups_that_owe(TODAY) == ((group, 30, 1),)
    assert sum(ledger.to_make_up for ledger in view.ledgers) == 30
    minutes_make_up(child_key="c3", group_key="jetty", on=TODAY, minutes=30, place="home")
    assert groups_that_owe(TODAY) == ()


def test_a_part_of_the_caseload_says_the_same_of_its_children(on_file: Caseload) -> None:
    whole, part = caseload_from_rows(), caseload_about(("c1", "c2"))
    assert part.children[:2] == whole.children[:2]
    assert [one.name for one in part.children] == [one.name for one in whole.children]
    assert part.child("c3").note == ""
    assert part.trials == whole.trials
    assert part.sessions_of("gulls") == whole.sessions_of("gulls")
    assert {one.id: one.date for one in part.sessions} == {
        one.id: one.date for one in whole.sessions
    }
    assert tries_of(whole.child("c1")).trials == whole.trials


def test_presences_stand_for_tries_one_a_session(on_file: Caseload) -> None:
    part = caseload_about(("c1",), only_minutes=True)
    assert [(one.session, one.child) for one in part.trials] == [("s1", "c1")]


def test_a_note_stays_on_its_page_when_the_child_was_taken_out_of_the_group(
    on_file: Caseload,
) -> None:
    save(drafted(), "c1")
    group = on_file.group("gulls")
    others = tuple(member for member in group.members if member.child != "c1")
    group_to_row(replace(group, members=others))
    note_amend(group_key="gulls", on=HELD, child_key="c1", text="Moved house.", now=NOW)
    session = on_file.sessions[0]
    views = note_views(caseload_about(written_about("gulls", "s1")), session)
    assert [view.child.id for view in views] == ["c2", "c1"]
    assert views[1].amendments[0][2] == "Moved house."
