"""The run page: presses are stored once, in order; what cannot be right holds up no other."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, parse_caseload
from tapeline.caseload.her_seconds import her_seconds
from tapeline.caseload.history import standing_trials
from tapeline.checking import check_plan
from tapeline.planner.plan import Played, SessionPlan, plan_as_data
from tapeline.web.records import models as rows
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.selectors.sessions import plan_of, session_of
from tapeline.web.services.sessions import session_cancel, session_propose
from tests.web.pages.running import (
    ADDRESS,
    LOAF,
    PRESSES,
    RECORD,
    TODAY,
    a_session_today,
    a_try,
    send,
    trials_now,
)
from tests.web.pages.test_every_page import CHECKS

pytestmark = pytest.mark.django_db


@pytest.fixture
def page(browser: Client, on_file: Caseload) -> Client:
    """A browser; the gulls meet today and have a plan."""
    a_session_today()
    return browser


def test_the_page_shows_marks_and_no_names(page: Client) -> None:
    text = page.get(f"{ADDRESS}?part=1").content.decode()
    assert "Odo" not in text.replace("Odo</a>", "")
    assert "Wim" not in text
    assert "<title>boat</title>" in text or ">boat: help and blanks<" in text
    assert "“" in text


def test_one_activity_is_shown_and_the_others_wait_hidden(page: Client) -> None:
    text = page.get(f"{ADDRESS}?part=1").content.decode()
    screens = re.findall(r'<section class="screen"[^>]*>', text)
    assert len(screens) == 3
    assert ["hidden" in one for one in screens] == [True, False, True]


def test_what_holds_on_every_page_holds_here(page: Client) -> None:
    text = page.get(f"{ADDRESS}?part=1").content.decode()
    shown = text.split('id="part-1"', 1)[1].split('id="part-2"', 1)[0]
    main_part = f'<main><h1></h1><section id="part-1"{shown.replace("<h1", "<h2")}</main>'
    for check in CHECKS:
        if check.__name__ != "one_main_thing_to_do_and_one_heading":
            check(main_part)


def test_a_press_is_a_trial_at_the_step_of_its_version(page: Client) -> None:
    answer = send(page, a_try(), a_try(2, outcome="with_help", help="word"))
    assert answer.json()["taken"] == ["n1.1", "n1.2"]
    assert [
        (one.id, one.step, one.outcome, one.help, one.count, one.source, one.at)
        for one in trials_now()
    ] == [
        ("n1.1", "catch2.bounced", "alone", "alone", 1, "run", "2026-11-25T14:20:00Z"),
        ("n1.2", "catch2.bounced", "with_help", "word", 1, "run", "2026-11-25T14:20:00Z"),
    ]


def test_the_same_press_twice_counts_once(page: Client) -> None:
    send(page, a_try())
    again = send(page, a_try(), a_try(), a_try(2))
    assert again.json()["taken"] == ["n1.1", "n1.1", "n1.2"]
    assert again.json()["state"]["counts"] == {"c1/loaf_catch": [2, 0, 0, ""]}
    assert len(trials_now()) == 2


def test_the_first_press_says_when_the_session_began(page: Client) -> None:
    send(page, a_try(), a_try(2, clock="14:31"))
    assert session_of("gulls", TODAY).began == "14:20"


REFUSED: dict[str, dict[str, Any]] = {
    "no id of a press": {"id": "n1 1"},
    "no press of this page": {"kind": "cheer"},
    "not in this group": {"child": "c3"},
    "no outcome": {"outcome": "great"},
    "'shout' is not in your list": {"outcome": "with_help", "help": "shout"},
    "The help 'alone' is not in your list": {"outcome": "with_help", "help": "alone"},
    "has no version zz.a.b": {"version": "zz.a.b"},
    "is not counted": {"version": "arrive_spot.any.usual"},
}


@pytest.mark.parametrize(("sentence", "fault"), REFUSED.items())
def test_a_press_that_cannot_be_right_holds_up_no_other(
    page: Client, sentence: str, fault: dict[str, Any]
) -> None:
    answer = send(page, a_try(), a_try(2) | fault, a_try(3)).json()
    assert answer["taken"] == ["n1.1", "n1.3"]
    assert sentence in answer["refused"][0]["sentence"]
    assert [one.id for one in trials_now()] == ["n1.1", "n1.3"]


@pytest.mark.parametrize("body", ["", "{}", '{"presses": 3}', '{"presses": [3]}', "[]"])
def test_what_is_no_list_of_presses_is_refused(page: Client, body: str) -> None:
    answer = page.post(PRESSES, body, content_type="application/json")
    assert answer.status_code == 422


def test_undo_is_a_correction_of_0_that_names_the_try(page: Client) -> None:
    answer = send(page, a_try(), a_try(2), a_try(3, kind="undo", of="n1.2"))
    assert answer.json()["state"]["counts"]["c1/loaf_catch"][0] == 1
    assert [(one.id, one.count, one.corrects) for one in trials_now()] == [
        ("n1.1", 1, None),
        ("n1.2", 1, None),
        ("n1.3", 0, "n1.2"),
    ]
    assert [one.id for one in standing_trials(trials_now())] == ["n1.1"]


def test_a_try_is_taken_back_once(page: Client) -> None:
    send(page, a_try(), a_try(2, kind="undo", of="n1.1"), a_try(3, kind="undo", of="n1.1"))
    assert len(trials_now()) == 2
    unknown = send(page, a_try(4, kind="undo", of="n1.77")).json()
    assert "not on file" in unknown["refused"][0]["sentence"]


def test_a_blank_is_kept_changed_and_taken_back(page: Client) -> None:
    refused = a_try(1, kind="blank", blank="refused")
    assert send(page, refused).json()["state"]["blanks"] == {"c1/loaf_catch": "refused"}
    changed = send(page, a_try(2, kind="blank", blank="not_seen"))
    assert changed.json()["state"]["blanks"] == {"c1/loaf_catch": "not_seen"}
    assert send(page, a_try(3, kind="unblank")).json()["state"]["blanks"] == {}
    late_again = send(page, refused)
    assert late_again.json()["state"]["blanks"] == {}
    assert trials_now() == ()


def test_a_try_for_a_child_who_is_absent_is_refused_until_here_after_all(page: Client) -> None:
    first = send(page, a_try(1, kind="blank", blank="absent"), a_try(2)).json()
    assert first["state"]["blanks"] == {"c1/": "absent"}
    assert "marked absent" in first["refused"][0]["sentence"]
    then = send(page, a_try(3, kind="unblank", activity=None), a_try(4)).json()
    assert then["refused"] == []


def test_a_child_with_tries_cannot_be_absent_any_more(page: Client) -> None:
    answer = send(page, a_try(), a_try(2, kind="blank", blank="absent")).json()
    assert "has tries on file was marked absent" in answer["refused"][0]["sentence"]


def test_late_and_left_early_are_kept_with_their_time(page: Client) -> None:
    state = send(
        page,
        a_try(1, kind="late", clock="14:25"),
        a_try(2, kind="left_early", clock="14:40", child="c2"),
    ).json()["state"]
    assert (state["late"], state["left"]) == ({"c1": "14:25"}, {"c2": "14:40"})
    back = send(page, a_try(3, kind="unlate", what="left_early", child="c2")).json()["state"]
    assert back["left"] == {}


def test_undoing_a_blank_gives_back_the_one_it_took_the_place_of(page: Client) -> None:
    """Two blanks at one game: taking back the second leaves the first, not none."""
    send(page, a_try(1, kind="blank", blank="refused"), a_try(2, kind="blank", blank="not_seen"))
    undo = {"kind": "undo", "what": "blank"}
    second = undo | {"of": "n1.2", "blank": "not_seen", "was": "refused"}
    assert send(page, a_try(3, **second)).json()["state"]["blanks"] == {"c1/loaf_catch": "refused"}
    first = undo | {"of": "n1.1", "blank": "refused", "was": None}
    assert send(page, a_try(4, **first)).json()["state"]["blanks"] == {}


@pytest.mark.parametrize(
    ("fault", "sentence"),
    [
        ({"of": "n1.77"}, "not on file"),
        ({"blank": "absent"}, "another one by now"),
        ({"was": "asleep"}, "is no blank"),
    ],
)
def test_a_blank_that_changed_since_is_not_taken_back(
    page: Client, fault: dict[str, str], sentence: str
) -> None:
    undo = {"kind": "undo", "what": "blank", "of": "n1.1", "blank": "refused", "was": None} | fault
    answer = send(page, a_try(1, kind="blank", blank="refused"), a_try(2, **undo)).json()
    assert sentence in answer["refused"][0]["sentence"]
    assert answer["state"]["blanks"] == {"c1/loaf_catch": "refused"}


@pytest.mark.parametrize(("kind", "seen"), [("late", "late"), ("left_early", "left")])
def test_undoing_a_coming_or_going_gives_back_the_time_before(
    page: Client, kind: str, seen: str
) -> None:
    send(page, a_try(1, kind=kind, clock="14:20"), a_try(2, kind=kind, clock="14:25"))
    undo = {"kind": "undo", "what": kind}
    assert send(page, a_try(3, of="n1.2", **undo)).json()["state"][seen] == {"c1": "14:20"}
    assert send(page, a_try(4, of="n1.1", **undo)).json()["state"][seen] == {}
    again = send(page, a_try(5, of="n1.1", **undo)).json()
    assert again["refused"] == []


def test_a_stop_and_a_timing_are_taken_back_too(page: Client) -> None:
    send(
        page,
        a_try(1, kind="stop", happened="slipped"),
        a_try(2, kind="timed", seconds=20, units=5),
    )
    send(
        page,
        a_try(3, kind="undo", what="timed", of="n1.2"),
        a_try(4, kind="undo", what="stop", of="n1.1"),
    )
    now = caseload_from_rows()
    assert [one for one in now.stops if one.session == "s9"] == []
    assert [one.id for one in now.timings if one.id.startswith("n1")] == []


def test_something_happened_is_kept_with_what_was_done(page: Client) -> None:
    send(page, a_try(1, kind="stop", happened="slipped", done="sat down", clock="14:33"))
    (stop,) = (one for one in caseload_from_rows().stops if one.session == "s9")
    assert (stop.child, stop.activity, stop.at) == ("c1", "loaf_catch", "14:33")
    assert (stop.happened, stop.done) == ("slipped", "sat down")
    empty = send(page, a_try(2, kind="stop", happened=" ")).json()
    assert "without a word on what happened" in empty["refused"][0]["sentence"]


def test_five_repetitions_timed_are_her_seconds(page: Client) -> None:
    send(page, a_try(1, kind="timed", seconds=22.5, units=5))
    _young, old = her_seconds(caseload_from_rows())[LOAF["c1"]]
    assert old == 4.5


def test_finishing_marks_the_session_held(page: Client) -> None:
    send(page, a_try(), a_try(2, kind="ended", clock="14:51"))
    session = session_of("gulls", TODAY)
    assert (session.status, session.began, session.ended) == ("held", "14:20", "14:51")


def test_presses_that_come_after_the_end_still_count(page: Client) -> None:
    send(page, a_try(), a_try(2, kind="ended", clock="14:51"))
    assert send(page, a_try(3)).json()["taken"] == ["n1.3"]
    assert session_of("gulls", TODAY).ended == "14:51"


def test_what_was_run_is_in_the_caseload_file(page: Client) -> None:
    send(page, a_try(), a_try(2, kind="late"), a_try(3, kind="stop", happened="fell"))
    now = caseload_from_rows()
    assert parse_caseload(caseload_json(now), name="x").trials == now.trials
    assert parse_caseload(caseload_json(now), name="x").stops == now.stops


def test_deleting_a_child_takes_along_what_was_run(page: Client) -> None:
    send(
        page,
        a_try(),
        a_try(2, kind="late"),
        a_try(3, kind="stop", happened="fell"),
        a_try(4, kind="timed", seconds=20, units=5),
    )
    page.post("/children/c1/delete/")
    kept = (rows.Trial, rows.LateOrEarly, rows.Stop, rows.Timing)
    assert [model.objects.filter(child__key="c1").count() for model in kept] == [0, 0, 0, 0]
    assert not rows.Stop.objects.filter(happened="fell").exists()


# Without a script.


def the_form(page: Client, child: str = "c1") -> dict[str, str]:
    text = page.get(f"{ADDRESS}?part=1").content.decode()
    row = re.search(rf'<li class="row" id="row-1-{child}".*?</li>', text, re.DOTALL)[0]
    fields = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', row))
    helped = re.search(r'name="help" value="(\w+)"[^>]*checked', row)[1]
    return fields | {"help": helped}


def test_a_form_is_one_press_and_comes_back_to_the_same_activity(page: Client) -> None:
    answer = page.post(ADDRESS, the_form(page) | {"do": "alone"})
    assert answer.status_code == 302
    assert answer["Location"] == f"{ADDRESS}?part=1"
    assert [one.outcome for one in trials_now()] == ["alone"]


def test_the_same_form_posted_twice_counts_once(page: Client) -> None:
    form = the_form(page) | {"do": "not_yet"}
    page.post(ADDRESS, form)
    page.post(ADDRESS, form)
    assert [(one.outcome, one.help) for one in trials_now()] == [("not_yet", "word")]


def test_the_help_chosen_stays_in_force(page: Client) -> None:
    page.post(ADDRESS, the_form(page) | {"do": "with_help", "help": "model"})
    assert the_form(page)["help"] == "model"


def test_help_begins_where_the_child_last_needed_it(page: Client) -> None:
    send(page, a_try(1, child="c2", version=LOAF["c2"], outcome="with_help", help="gesture"))
    rows.Trial.objects.filter(key="n1.1").update(session=rows.Session.objects.get(key="s1"))
    assert the_form(page, "c2")["help"] == "gesture"


@pytest.mark.parametrize("do", ["blank:refused", "late", "left_early", "blank:absent"])
def test_blanks_and_comings_are_plain_forms_too(page: Client, do: str) -> None:
    assert page.post(ADDRESS, the_form(page) | {"do": do}).status_code == 302
    state = send(page).json()["state"]
    assert state["blanks"] or state["late"] or state["left"]


def test_undo_and_finish_are_plain_forms_too(page: Client) -> None:
    page.post(ADDRESS, the_form(page) | {"do": "alone"})
    last = trials_now()[0].id
    page.post(ADDRESS, {"id": "n5.1", "part": "1", "do": f"undo:{last}"})
    assert standing_trials(trials_now()) == ()
    end = page.post(ADDRESS, {"id": "n5.2", "part": "2", "do": "ended"})
    assert end["Location"] == RECORD


def test_something_happened_is_a_plain_form_too(page: Client) -> None:
    form = {"id": "n5.1", "part": "1", "child": "c1", "do": "stop", "happened": "fell"}
    assert page.post(ADDRESS, form).status_code == 302
    empty = page.post(ADDRESS, form | {"id": "n5.2", "happened": ""})
    assert empty.status_code == 422
    assert "without a word" in empty.content.decode()
    assert "stopped=1" in page.get(ADDRESS).content.decode()


# Kept for a reload while nobody answers.


def test_the_worker_lies_beside_its_page_and_is_never_kept_itself(page: Client) -> None:
    worker = page.get(f"{ADDRESS}worker.js")
    assert worker["Content-Type"] == "text/javascript; charset=utf-8"
    assert worker["Cache-Control"] == "no-store"
    assert "script-src 'self'" in worker["Content-Security-Policy"]
    assert "Service-Worker-Allowed" not in worker  # its reach is the run page's address
    assert f'data-worker="{ADDRESS}worker.js"' in page.get(ADDRESS).content.decode()


# What cannot be run.


@pytest.mark.parametrize("on", ["2026-12-01", "2026-11-18"])
def test_a_session_ahead_or_without_a_plan_leads_to_its_plan(page: Client, on: str) -> None:
    answer = page.get(f"/groups/gulls/{on}/run/")
    assert answer["Location"] == f"/groups/gulls/{on}/"
    assert send(page, a_try(), address=f"/groups/gulls/{on}/run/presses/").status_code == 422


def test_a_date_that_is_none_is_not_here(page: Client) -> None:
    assert send(page, a_try(), address="/groups/gulls/soon/run/presses/").status_code == 404


def test_a_session_called_off_takes_no_press(page: Client) -> None:
    session_cancel(group_key="gulls", on=TODAY, side="building", reason="no heating")
    answer = send(page, a_try())
    assert answer.status_code == 422
    assert "no heating" in answer.content.decode()


def test_a_press_needs_its_token(on_file: Caseload) -> None:
    a_session_today()
    careful = Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})
    assert send(careful, a_try()).status_code == 403
    assert trials_now() == ()


def test_its_own_tries_are_no_reason_to_plan_again(browser: Client, on_file: Caseload) -> None:
    session_propose(group_key="gulls", on=TODAY)
    send(browser, a_try())
    week = browser.get("/week/").content.decode()
    assert "A plan to make again" not in week
    assert "A session to finish" in week
    plan = browser.get("/groups/gulls/2026-11-25/").content.decode()
    assert "history changed" not in plan
    assert "Go on with the session" in plan


# Plan again from now.


@pytest.fixture
def runs(browser: Client, on_file: Caseload, monkeypatch: pytest.MonkeyPatch) -> Client:
    """The gulls, planned from 14:10 for 40 minutes, began at 14:15; it is 14:30."""
    session_propose(group_key="gulls", on=TODAY)
    send(browser, a_try(1, kind="began", clock="14:15"))
    monkeypatch.setattr("tapeline.web.pages.run.clock_now", lambda: "14:30")
    return browser


def plan_now() -> SessionPlan:
    plan = plan_of(session_of("gulls", TODAY))
    assert plan is not None
    return plan


def faults_now() -> list[str]:
    data = json.loads(caseload_json(caseload_from_rows()))
    return [one.sentence for one in check_plan(plan_as_data(plan_now()), data)]


def test_only_the_minutes_until_the_planned_end_are_planned(runs: Client) -> None:
    """Begun five minutes late: the end stays 14:50, so 20 of 40 minutes are left."""
    before = plan_now()
    answer = runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2"}, follow=True)
    assert answer.redirect_chain == [(f"{ADDRESS}?part=1", 302)]
    assert "Planned again: 20 minutes, until 14:50." in answer.content.decode()
    plan = plan_now()
    assert plan.request.played == Played(parts=2, seconds=20 * 60)
    assert plan.parts[:2] == before.parts[:2]
    assert sum(part.seconds for part in plan.parts[2:]) <= 20 * 60
    assert faults_now() == []


def test_the_game_that_is_on_keeps_what_its_clock_shows(runs: Client) -> None:
    runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2", "left": "130"})
    assert plan_now().request.played.seconds == (40 - 17) * 60
    runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2", "left": "99999"})
    assert plan_now().request.played.seconds > (40 - 17) * 60


def test_what_has_no_time_any_more_is_named(runs: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tapeline.web.pages.run.clock_now", lambda: "14:44")
    answer = runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2"}, follow=True)
    said = answer.content.decode()
    assert "No time is left for: " in said
    assert "practice (" in said
    assert [part.part for part in plan_now().parts[2:]] in (["cool_down", "closing"], ["closing"])
    assert faults_now() == []


@pytest.mark.parametrize("clock", ["14:50", "15:20"])
def test_after_its_end_nothing_is_planned_and_the_plan_stays(
    runs: Client, monkeypatch: pytest.MonkeyPatch, clock: str
) -> None:
    before = plan_now()
    monkeypatch.setattr("tapeline.web.pages.run.clock_now", lambda: clock)
    answer = runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2"})
    assert answer.status_code == 422
    assert "ends at 14:50: no minutes are left" in answer.content.decode()
    assert plan_now() == before


@pytest.mark.parametrize(
    ("began", "clock", "minutes"),
    [("14:00", "14:30", 20), ("14:40", "14:41", 9), ("09:00", "09:10", 30), ("23:50", "23:55", 4)],
)
def test_the_planned_end_holds_unless_it_runs_at_another_time_of_day(
    browser: Client,
    on_file: Caseload,
    monkeypatch: pytest.MonkeyPatch,
    began: str,
    clock: str,
    minutes: int,
) -> None:
    session_propose(group_key="gulls", on=TODAY)
    send(browser, a_try(1, kind="began", clock=began))
    monkeypatch.setattr("tapeline.web.pages.run.clock_now", lambda: clock)
    browser.post(f"{ADDRESS}again/", {"part": "0", "adults": "2"})
    assert plan_now().request.played.seconds == (40 - minutes) * 60


def test_who_left_keeps_what_was_played_and_is_not_planned_any_more(runs: Client) -> None:
    send(runs, a_try(2, kind="left_early", child="c2", clock="14:29"))
    page = runs.get(f"{ADDRESS}?part=1").content.decode()
    assert re.search(r'name="away" value="c2" data-away checked', page)
    runs.post(f"{ADDRESS}again/", {"part": "1", "away": "c2", "adults": "2"})
    rows_of_c2 = ["c2" in {row.id for row in part.children} for part in plan_now().parts]
    assert rows_of_c2[:2] == [True, True]
    assert not any(rows_of_c2[2:])
    assert faults_now() == []


def test_what_cannot_be_planned_again_is_said_on_the_page(runs: Client) -> None:
    answer = runs.post(f"{ADDRESS}again/", {"part": "2", "adults": "0"})
    assert answer.status_code == 422
    assert "no adult in the room" in answer.content.decode()


def test_a_session_of_another_day_or_that_was_held_is_not_planned_from_now(
    runs: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TAPELINE_TODAY", "2026-11-26")
    late = runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2"})
    assert "does not run today" in late.content.decode()
    monkeypatch.setenv("TAPELINE_TODAY", TODAY.isoformat())
    send(runs, a_try(3, kind="ended", clock="14:31"))
    held = runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2"})
    assert "was held" in held.content.decode()


def test_what_the_new_plan_plays_is_kept_as_it_reads_now(runs: Client) -> None:
    rows.OwnPiece.objects.filter(kind="text").delete()
    runs.post(f"{ADDRESS}again/", {"part": "1", "adults": "2"})
    kept = rows.OwnPiece.objects.filter(kind="text").values_list("key", flat=True)
    assert set(kept) == set(plan_now().made_from.texts.values()) != set()
