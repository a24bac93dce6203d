"""The check-up: nothing to say where all is well, one sentence and a next step where not."""

from __future__ import annotations

import datetime as dt
import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tapeline.caseload.hers import OwnChange
from tapeline.web.daily import keep_records
from tapeline.web.data_folder import own_database
from tapeline.web.doctor import Finding, check_up
from tapeline.web.doctor.keeping import backup_findings, disk_findings
from tapeline.web.doctor.program import font_findings, library_findings, template_findings
from tapeline.web.doctor.records import record_findings
from tapeline.web.doctor.references import reference_findings
from tapeline.web.records import models as rows
from tapeline.web.records.convert import own_piece_to_row
from tapeline.web.services.keeping import backups_kept, note_taken
from tapeline.web.services.sessions import session_propose
from tests.unit.cli.commands import ran


def sentences(found) -> list[str]:
    """What was found, each with its next step."""
    kept: list[Finding] = list(found)
    assert all(one.sentence.endswith((".", ")")) and one.next_step for one in kept)
    return [one.sentence for one in kept]


def test_where_all_is_well_nothing_is_said_and_nothing_changes(on_disk: Path) -> None:
    rows.Trial.objects.all().delete()  # the small caseload's tries name a game of nobody's
    session_propose(group_key="gulls", on=dt.date(2026, 12, 1))
    keep_records()
    note_taken()
    before = own_database(on_disk).read_bytes()
    assert sentences(check_up()) == []
    assert own_database(on_disk).read_bytes() == before


def test_a_damaged_file_is_found_and_leads_to_a_backup(on_disk: Path) -> None:
    keep_records()
    with own_database(on_disk).open("r+b") as file:
        file.seek(8192)
        file.write(b"\xa5" * 30000)
    (found,) = record_findings()
    assert "damaged" in found.sentence
    assert "tapeline restore" in found.next_step
    own_database(on_disk).write_text("not a database", encoding="utf-8")
    (found,) = record_findings()
    assert "damaged" in found.sentence


def test_a_row_that_points_nowhere_is_found(on_disk: Path) -> None:
    with closing(sqlite3.connect(own_database(on_disk))) as connection:
        connection.execute("DELETE FROM records_session WHERE key = 's1'")
        connection.commit()
    (sentence,) = sentences(record_findings())
    assert "point to rows that are not there" in sentence
    assert "trial" in sentence


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ("DELETE FROM django_migrations WHERE name = '0003_run'", "of an older version"),
        (
            "INSERT INTO django_migrations (app, name, applied)"
            " VALUES ('records', '9999_from_tomorrow', '2030-01-01')",
            "by a newer version",
        ),
    ],
)
def test_records_of_another_version_are_said(on_disk: Path, change: str, words: str) -> None:
    with closing(sqlite3.connect(own_database(on_disk))) as connection:
        connection.execute(change)
        connection.commit()
    (sentence,) = sentences(record_findings())
    assert words in sentence


def test_what_plans_and_tries_name_must_stand_in_the_library(on_disk: Path) -> None:
    session_propose(group_key="gulls", on=dt.date(2026, 12, 1))
    row = rows.Session.objects.exclude(plan=None).get()
    row.plan["parts"][0]["activity"] = "gone_game"
    row.plan["parts"][1]["children"][0]["version"] = "gone.version"
    row.save()
    rows.Trial.objects.filter(key="t1").update(step="catch2.gone")
    found = sentences(reference_findings())
    assert found == [
        "The plan of gulls on 2026-12-01 names the activity gone_game, the version gone.version,"
        " which the library does not have.",
        "1 row of tries names the step catch2.gone, which the library does not have.",
        "3 rows of tries name the version quay_catch.bounced, which the library does not have.",
    ]


def test_a_child_who_names_an_unknown_precaution_is_found(on_disk: Path) -> None:
    rows.ChildPrecaution.objects.update(kind="mood")
    assert any("'mood'" in sentence for sentence in sentences(reference_findings()))


def test_backups_that_are_missing_old_or_damaged_are_found(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    missing, not_taken = sentences(backup_findings())
    assert missing == "There is no checked backup yet."
    assert "taken to another place" in not_taken
    keep_records()
    note_taken()
    assert sentences(backup_findings()) == []
    (kept,) = backups_kept()
    content = bytearray(kept.path.read_bytes())
    content[len(content) // 2] ^= 0xFF
    kept.path.write_bytes(content)
    monkeypatch.setenv("TAPELINE_TODAY", "2026-12-20")
    old, taken, damaged = sentences(backup_findings())
    assert old == "The last checked backup is 25 days old."
    assert taken == "The last backup that you took to another place is 25 days old."
    assert f"{kept.name} cannot be read again" in damaged


def test_little_room_is_found(on_disk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from types import SimpleNamespace

    monkeypatch.setattr("shutil.disk_usage", lambda path: SimpleNamespace(free=499_999_999))
    (sentence,) = sentences(disk_findings())
    assert sentence == "499 MB are free on the disk of your records, less than 500 MB."


def test_fonts_and_library_that_are_not_whole_are_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from tapeline.web.doctor import program

    monkeypatch.setattr(program, "files", lambda name: tmp_path)
    (tmp_path / "documents" / "fonts").mkdir(parents=True)
    (tmp_path / "documents" / "fonts" / "one.ttf").write_bytes(b"<html>")
    assert sentences(font_findings()) == [
        "Paper needs 3 fonts, and 1 are there.",
        "The font one.ttf is missing or damaged.",
    ]
    monkeypatch.setattr(
        "tapeline.activities.check.check_library", lambda *_: ("Skill x is empty.",)
    )
    assert sentences(library_findings()) == ["Skill x is empty."]


def test_a_page_and_a_paper_that_do_not_come_out_are_found(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch, settings
) -> None:
    from tapeline.web.doctor import program

    settings.TAPELINE_RAISES = False

    def breaks(*_: object, **__: object) -> None:
        raise ValueError("no")

    def paper() -> dict:
        return {
            "The packet": breaks,
            "The cover page": lambda: b"",
            "The summary": lambda: b"%PDF-",
        }

    monkeypatch.setattr("tapeline.web.pages.children.groups_list", breaks)
    monkeypatch.setattr(program, "_paper", paper)
    found = sentences(template_findings())
    assert "The page /children/ does not come out." in found
    assert "The packet cannot be printed (ValueError)." in found
    assert "The cover page came out as something that is no PDF." in found
    assert not any("summary" in sentence for sentence in found)


def test_before_the_first_start_there_is_nothing_to_find_in_records(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("TAPELINE_HOME", str(tmp_path / "fresh"))
    (tmp_path / "fresh").mkdir()
    assert list(record_findings()) == []
    assert list(reference_findings()) == []
    assert list(backup_findings()) == []


def test_the_command_ends_with_4_and_a_line_each_or_with_0(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = Finding(about="disk", sentence="1 MB is free.", next_step="Free some space.")
    monkeypatch.setattr("tapeline.web.doctor.check_up", lambda: (found,))
    done = ran(("doctor",))
    assert (done.code, done.out) == (4, "disk: 1 MB is free. Free some space.\n")
    done = ran(("doctor", "--json"))
    assert done.code == 4
    assert json.loads(done.out) == {
        "findings": [
            {"about": "disk", "sentence": "1 MB is free.", "next_step": "Free some space."}
        ]
    }
    monkeypatch.setattr("tapeline.web.doctor.check_up", lambda: ())
    assert (ran(("doctor",)).code, ran(("doctor",)).out) == (0, "Nothing found.\n")


def test_hers_that_belongs_to_nothing_any_more_is_named(on_disk: Path) -> None:
    before = sentences(reference_findings())
    own_piece_to_row("change", OwnChange(activity="sock_basket", field="moon", now="x"))
    own_piece_to_row("version", {"activity": "moon_game"})
    rows.LeftOut.objects.create(key="lo", activity="moon_game", since=dt.date(2026, 11, 24))
    found = [one for one in sentences(reference_findings()) if one not in before]
    assert len(found) == 3
    assert "line moon" in found[0]
    assert "Your version of moon_game" in found[1]
    assert "moon_game is left out" in found[2]
