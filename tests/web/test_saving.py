"""All or nothing: transactions, the disk, the lock, the gate."""

from __future__ import annotations

import threading
import time
from dataclasses import replace
from pathlib import Path

import pytest
from django.db import IntegrityError, connection, transaction

from tapeline.caseload.caseload import Caseload
from tapeline.errors import TapelineError
from tapeline.web.gate import Gate
from tapeline.web.records import models as rows
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.running import OnlyOne, refuse_while_running
from tapeline.web.selectors.people import child_of
from tapeline.web.services.people import child_save
from tapeline.web.services.saving import saving
from tapeline.web.settings import sqlite


def test_sqlite_is_set_so_that_nothing_is_lost_at_power_loss(db: None) -> None:
    """https://www.sqlite.org/pragma.html: synchronous 3 = EXTRA, "synchronous DELETE journals"."""
    options = sqlite(Path("x"))["OPTIONS"]
    assert options["transaction_mode"] == "IMMEDIATE"
    assert options["timeout"] >= 5
    assert "journal_mode=DELETE" in options["init_command"]
    asked = {name: _pragma(name) for name in ("synchronous", "foreign_keys", "secure_delete")}
    assert asked == {"synchronous": 3, "foreign_keys": 1, "secure_delete": 1}


def _pragma(name: str) -> int:
    with connection.cursor() as cursor:
        return cursor.execute(f"PRAGMA {name}").fetchone()[0]


@pytest.mark.django_db(transaction=True)
def test_a_full_disk_is_one_sentence_and_nothing_half_written(caseload: Caseload) -> None:
    from tapeline.web.records.convert import rows_from_caseload

    rows_from_caseload(caseload)
    pages = _pragma("page_count")
    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA max_page_count = {pages + 1}")
    try:
        with pytest.raises(TapelineError, match="The disk is full, so nothing was saved"):
            child_save(child=replace(caseload.child("c1"), name="Nobody", note="x" * 200_000))
        assert caseload_from_rows() == caseload
    finally:
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA max_page_count = 1073741823")


@pytest.mark.django_db
def test_a_service_that_fails_half_way_leaves_nothing(on_file: Caseload) -> None:
    with pytest.raises(RuntimeError, match="half-way"):
        _fail_half_way()
    assert child_of("c1").note == ""


def _fail_half_way() -> None:
    with saving():
        rows.Child.objects.filter(key="c1").update(note="half")
        raise RuntimeError("half-way")


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("model", "change"),
    [
        (rows.Child, {"name": ""}),
        (rows.Goal, {"k": 9}),
        (rows.Goal, {"weight": 4}),
        (rows.Group, {"minutes": 0}),
        (rows.Group, {"site": None}),
        (rows.Home, {"hands": 3}),
        (rows.Room, {"width_cm": 99}),
        (rows.Session, {"status": "moved", "reason": ""}),
        (rows.Term, {"ends": "2026-01-01"}),
        (rows.Trial, {"count": 0}),
        (rows.GoAhead, {"ends": "2026-01-01"}),
    ],
)
def test_the_database_refuses_what_must_not_be(on_file: Caseload, model, change: dict) -> None:
    row = model.objects.first()
    assert row is not None
    with pytest.raises(IntegrityError), transaction.atomic():
        model.objects.filter(pk=row.pk).update(**change)


@pytest.mark.django_db
def test_there_can_be_one_profile_only(on_file: Caseload) -> None:
    with pytest.raises(IntegrityError), transaction.atomic():
        rows.Profile.objects.create(name="another")


def test_one_tapeline_holds_the_folder(tmp_path: Path) -> None:
    first, second = OnlyOne(tmp_path), OnlyOne(tmp_path)
    assert first.take()
    first.note("http://127.0.0.1:1/")
    assert not second.take()
    assert second.address() == "http://127.0.0.1:1/"
    with pytest.raises(TapelineError, match="tapeline is running on"):
        refuse_while_running(tmp_path)
    first.give_back()
    assert second.take()
    assert second.address() is None
    second.give_back()


def test_who_goes_alone_waits_for_those_inside_and_stops_new_ones() -> None:
    gate, events, inside = Gate(), [], threading.Event()

    def slow() -> None:
        with gate.passing():
            inside.set()
            time.sleep(0.1)
            events.append("slow is out")

    def late() -> None:
        with gate.passing():
            events.append("late is in")

    first = threading.Thread(target=slow)
    first.start()
    inside.wait()
    with gate.passing(), gate.alone():
        events.append("alone")
        second = threading.Thread(target=late)
        second.start()
        time.sleep(0.05)
        events.append("alone is done")
    first.join()
    second.join()
    assert events == ["slow is out", "alone", "alone is done", "late is in"]


def test_two_cannot_go_alone_at_once() -> None:
    gate = Gate()
    with gate.alone(), pytest.raises(TapelineError, match="exchanged already"), gate.alone():
        pass
