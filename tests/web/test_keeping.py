"""Backups that tapeline makes by itself: when, checked how, kept how long."""

from __future__ import annotations

import datetime as dt
import json
import zipfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tapeline.errors import InputError, TapelineError
from tapeline.web.daily import keep_records
from tapeline.web.records.which import INVENTED, opened
from tapeline.web.services import backup as backups
from tapeline.web.services import keeping
from tapeline.web.services.demo import demo_open
from tapeline.web.services.exchange import caseload_export, caseload_import
from tapeline.web.services.keep_rule import backups_to_drop, keeping_value
from tapeline.web.services.restore import restore_stage, restore_swap
from tests.web.conftest import SMALL, TODAY

FIXTURES = sorted((Path(__file__).parent / "fixtures" / "backups").glob("*.zip"))


def test_a_day_has_one_backup_and_the_next_day_another(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep_records()
    keep_records()
    assert [one.why for one in keeping.backups_kept()] == ["daily"]
    monkeypatch.setenv("TAPELINE_TODAY", "2026-11-26")
    keep_records()
    days = [one.made.date().day for one in keeping.backups_kept()]
    assert days == [26, 25]
    assert keeping.last_checked().date() == dt.date(2026, 11, 26)


def test_of_backups_made_in_one_second_the_last_is_the_newest(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    moment = dt.datetime(2026, 11, 25, 10, 10, 10, 500)
    monkeypatch.setattr(keeping, "now", lambda: moment)
    made = [keeping.backup_keep(why=why) for why in ("before-restore", "daily", "before-import")]
    made.append(keeping.backup_keep(why="daily"))
    assert [one.path for one in keeping.backups_kept()] == [one.path for one in reversed(made)]
    assert keeping.backup_kept(made[3].name).turn == 4


def test_an_empty_start_makes_no_backup(on_disk: Path) -> None:
    from tapeline.web.records import models as rows

    for model in (rows.Group, rows.Child, rows.Home, rows.Site, rows.Profile):
        model.objects.all().delete()
    assert keeping.backup_daily() is None
    assert keeping.last_checked() is None


def test_a_backup_is_kept_before_a_file_is_brought_in(on_disk: Path) -> None:
    before = caseload_export()
    changed = json.loads(SMALL)
    changed["children"][0]["note"] = "new"
    caseload_import(text=json.dumps(changed), name="file.json")
    (kept,) = keeping.backups_kept()
    assert kept.why == "before-import"
    with zipfile.ZipFile(kept.path) as packed:
        assert packed.read("caseload.json").decode() == before
    assert caseload_export() != before


def test_a_file_that_brings_nothing_makes_no_backup(on_disk: Path) -> None:
    caseload_import(text=caseload_export(), name="file.json")
    assert keeping.backups_kept() == ()


def test_without_room_for_its_backup_a_file_is_not_brought_in(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(**_: object) -> None:
        raise InputError("The backup could not be written (No space left on device).")

    before = caseload_export()
    changed = json.loads(SMALL)
    changed["children"][0]["note"] = "new"
    monkeypatch.setattr(keeping, "backup_make", full)
    with pytest.raises(InputError, match="No space left"):
        caseload_import(text=json.dumps(changed), name="file.json")
    assert caseload_export() == before


def test_a_backup_that_cannot_be_read_again_is_not_kept(
    on_disk: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that loses bytes without saying so: what is read differs from what was written."""
    written = backups._pack

    def worn_out(draft: Path, *rest: object, **named: object) -> None:
        written(draft, *rest, **named)
        content = bytearray(draft.read_bytes())
        content[len(content) // 3] ^= 0xFF
        draft.write_bytes(content)

    monkeypatch.setattr(backups, "_pack", worn_out)
    with pytest.raises(TapelineError, match="cannot be read again as it was written"):
        backups.backup_make(to=tmp_path / "away" / "b.zip")
    assert list((tmp_path / "away").iterdir()) == []
    keep_records()
    assert keeping.backups_kept() == ()


def test_what_is_there_is_backed_up_before_a_backup_comes_back(on_disk: Path) -> None:
    first = keeping.backup_keep(why="daily")
    before = caseload_export()
    changed = json.loads(SMALL)
    changed["children"].append({"id": "c9", "name": "Nell", "born": "2021-01"})
    caseload_import(text=json.dumps(changed), name="file.json")
    later = caseload_export()
    done = restore_swap(checksum=restore_stage(backup=first.path).checksum)
    assert caseload_export() == before
    assert (done.before["children"], done.after["children"]) == (4, 3)
    restore_swap(checksum=restore_stage(backup=done.kept).checksum)
    assert caseload_export() == later


@pytest.mark.parametrize("backup", FIXTURES, ids=lambda path: path.stem)
def test_backups_of_older_versions_come_back(on_disk: Path, backup: Path) -> None:
    """Each was made by the version whose newest change of the tables it is named after."""
    with zipfile.ZipFile(backup) as packed:
        about = json.loads(packed.read("backup.json"))
        exported = json.loads(packed.read("caseload.json"))
    assert about["migrations"][-1] == backup.stem
    done = restore_swap(checksum=restore_stage(backup=backup).checksum)
    assert done.after == about["counts"]
    now = json.loads(caseload_export())
    for kind, kept in exported.items():
        if kind == "program":
            continue
        assert _as_it_was(now[kind], kept) == kept, kind


def _as_it_was(now: object, then: object) -> object:
    """What is there now, without the fields that a later version added."""
    if isinstance(now, dict) and isinstance(then, dict):
        return {key: _as_it_was(now[key], then[key]) for key in then}
    if isinstance(now, list) and isinstance(then, list) and len(now) == len(then):
        return [_as_it_was(one, other) for one, other in zip(now, then, strict=True)]
    return now


def test_there_are_backups_of_older_versions() -> None:
    assert [path.stem for path in FIXTURES][:2] == ["0001_first", "0003_run"]


moments = st.datetimes(min_value=dt.datetime(2024, 1, 1), max_value=dt.datetime(2026, 11, 25, 23))


@given(st.lists(moments, unique=True, max_size=80))
def test_of_two_weeks_all_stay_and_of_each_older_week_one(made: list[dt.datetime]) -> None:
    dropped = backups_to_drop([(moment, moment) for moment in made], today=TODAY)
    kept = set(made) - set(dropped)
    days = keeping_value("every_backup")
    young = {moment for moment in made if (TODAY - moment.date()).days < days}
    assert young <= kept
    for moment in made:
        week = [one for one in made if one.isocalendar()[:2] == moment.isocalendar()[:2]]
        assert max(week) in kept
        assert len(kept & (set(week) - young)) <= 1
    assert backups_to_drop([(moment, moment) for moment in kept], today=TODAY) == ()


def test_a_year_of_days_keeps_two_weeks_and_one_a_week() -> None:
    made = [dt.datetime(2026, 11, 25, 9) - dt.timedelta(days=n) for n in range(365)]
    dropped = backups_to_drop([(moment, moment) for moment in made], today=TODAY)
    # 12 to 25 November 2026, and the weeks from 24 November 2025 to 8 November 2026.
    assert len(made) - len(dropped) == 14 + 50


def test_old_backups_go_when_a_new_one_is_made(
    on_disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for day in ("2026-10-05", "2026-10-06", "2026-10-14", "2026-11-20"):
        monkeypatch.setenv("TAPELINE_TODAY", day)
        keep_records()
    monkeypatch.setenv("TAPELINE_TODAY", "2026-11-25")
    keep_records()
    days = [f"{one.made:%m-%d}" for one in keeping.backups_kept()]
    assert days == ["11-25", "11-20", "10-14", "10-06"]


def test_in_the_invented_caseload_nothing_is_backed_up(on_disk: Path) -> None:
    with opened(INVENTED):
        demo_open(today=TODAY)
        changed = caseload_export().replace('"active": true', '"active": false')
        caseload_import(text=changed, name="file.json")
    assert keeping.backups_kept() == ()
