"""What the tests of the pages share."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import Path

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import parse_caseload
from tapeline.web.records.convert import forget_tries, rows_from_caseload
from tapeline.web.start_up import open_records
from tests.web.on_disk import files_in, made_from

MONDAY = dt.date(2026, 11, 23)
TODAY = dt.date(2026, 11, 25)


@pytest.fixture(autouse=True)
def a_fixed_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """The pages think it is Wednesday, 25 November 2026."""
    monkeypatch.setenv("TAPELINE_TODAY", TODAY.isoformat())


@pytest.fixture(autouse=True)
def nothing_kept_of_another_test() -> None:
    """Rolled back rows give their numbers to other rows, as no record of hers ever does."""
    forget_tries()


@pytest.fixture
def caseload() -> Caseload:
    """Two groups, three children, one home, eight tries."""
    return parse_caseload(SMALL, name="small.json")


@pytest.fixture
def on_file(db: None, caseload: Caseload) -> Caseload:
    """The same, on file."""
    rows_from_caseload(caseload)
    return caseload


SMALL = """
{
  "format": 1,
  "therapist": {"name": "R. Quay", "ring": "Harbour school office, 555 0100",
    "emergency_number": "112", "first_aid_read_by": "M. Pier", "first_aid_read_on": "2026-09-01",
    "wording": [{"kind": "fall", "text": "Ring the office.", "source": "School plan, 2026"}]},
  "sites": [{"id": "quay", "name": "Quay School",
    "terms": [{"name": "Autumn", "starts": "2026-09-01", "ends": "2026-12-18"}],
    "closed": [{"date": "2026-11-26", "reason": "staff day"}],
    "rooms": [{"id": "hall", "name": "Hall", "length_cm": 1200, "width_cm": 800,
      "things": [{"material": "beanbag", "count": 12}]}]}],
  "groups": [
    {"id": "gulls", "name": "Tuesday hall", "weekday": "tuesday", "start": "14:10", "minutes": 40,
     "site": "quay", "room": "hall", "adults": 2,
     "members": [{"child": "c1"}, {"child": "c2", "starts": "2026-09-08"}]},
    {"id": "jetty", "name": "Thursday at home", "weekday": "thursday", "start": "16:00",
     "minutes": 30, "adults": 1, "floor_of_trials": 4,
     "members": [{"child": "c3", "place": "home"}]}],
  "homes": [{"id": "h3", "name": "Home of Ines", "space": "own_size", "length_cm": 250,
    "width_cm": 180, "helper": "her aunt", "hands": 1, "language": "es", "loudest": "quiet",
    "things": [{"material": "beanbag", "count": 2, "latex": "no"}],
    "also_there": [{"who": "brother", "born": "2024-08"}], "crawling_baby": true}],
  "children": [
    {"id": "c1", "name": "Odo", "born": "2021-03", "mark": "boat", "height_cm": 104,
     "skills": [{"skill": "catch2", "step": "catch2.bounced"}],
     "precautions": [{"kind": "latex", "since": "2026-09-01", "note": "school file",
       "go_aheads": [{"written_by": "Dr. Weir", "date": "2026-09-02", "ends": "2027-09-01",
         "allows": [], "note": "for one year"}]}],
     "goals": [{"id": "g1", "name": "Catch a bounced ball", "skill": "catch2",
       "step": "catch2.bounced", "k": 4, "n": 5, "m": 2, "date": "2026-12-15", "weight": 2,
       "baseline": {"k": 1, "n": 5, "date": "2026-09-08", "help": "word"}}]},
    {"id": "c2", "name": "Wim", "born": "2019-11", "mark": "moon", "gets_about": "splints"},
    {"id": "c3", "name": "Ines", "born": "2020-06", "mark": "leaf", "home": "h3",
     "jump_cm": 40, "hop_cm": 20, "stride_cm": 70, "device_width_cm": 58,
     "turning_cm": 120, "note": "likes water"}],
  "sessions": [
    {"id": "s1", "group": "gulls", "date": "2026-11-17", "status": "held", "began": "14:12",
     "ended": "14:50", "activities": ["quay_catch"]},
    {"id": "s2", "group": "jetty", "date": "2026-11-19", "status": "cancelled", "side": "child",
     "reason": "ill"}],
  "trials": [
    {"id": "t1", "session": "s1", "child": "c1", "version": "quay_catch.bounced",
     "step": "catch2.bounced", "outcome": "alone", "count": 3, "at": "2026-11-17T14:20:00Z"},
    {"id": "t2", "session": "s1", "child": "c1", "version": "quay_catch.bounced",
     "step": "catch2.bounced", "outcome": "with_help", "help": "model", "count": 4},
    {"id": "t3", "session": "s1", "child": "c1", "version": "quay_catch.bounced",
     "step": "catch2.bounced", "outcome": "not_yet", "help": "word", "measured": 1.5,
     "corrects": "t2", "procedure": "planned_help", "source": "run"}],
  "blanks": [{"session": "s1", "child": "c2", "kind": "absent"},
    {"session": "s1", "child": "c1", "kind": "refused", "activity": "low_line"}],
  "family_answers": [{"id": "a1", "session": "s1", "child": "c1", "days_done": 3,
    "went": "about_right", "hurt_or_scary": ""}],
  "late_or_early": [{"id": "l1", "session": "s1", "child": "c1", "kind": "late", "at": "14:20"}],
  "stops": [
    {"id": "x1", "session": "s1", "child": "c1", "activity": "low_line", "at": "14:31",
     "happened": "slipped", "done": "sat down, looked at the knee"},
    {"id": "x2", "session": "s1", "happened": "the bell rang"}],
  "sheets": [{"id": "abcd-ef01-2345-rq", "session": "s1", "by": "R. Quay",
    "at": "2026-11-17T15:02:00Z"}],
  "timings": [
    {"id": "w1", "version": "quay_catch.bounced", "seconds": 21.5, "units": 5,
     "date": "2026-11-17", "child": "c1"},
    {"id": "w2", "version": "quay_catch.bounced", "seconds": 30, "units": 5,
     "date": "2026-11-17"}]
}
"""


@pytest.fixture(scope="session")
def folder_with_files(
    tmp_path_factory: pytest.TempPathFactory, django_db_setup: None, django_db_blocker
) -> Path:
    """A data folder with the small caseload, made once, to be copied."""
    folder = tmp_path_factory.mktemp("with-files") / "records"
    folder.mkdir()
    with django_db_blocker.unblock(), files_in(folder), pytest.MonkeyPatch.context() as patch:
        patch.setenv("TAPELINE_HOME", str(folder))
        patch.setenv("TAPELINE_TODAY", TODAY.isoformat())
        open_records()
        rows_from_caseload(parse_caseload(SMALL, name="small.json"))
    return folder


@pytest.fixture
def on_disk(
    folder_with_files: Path, tmp_path: Path, django_db_blocker, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Path]:
    """A data folder with the small caseload in real files, in this process."""
    folder = made_from(folder_with_files, tmp_path / "records")
    monkeypatch.setenv("TAPELINE_HOME", str(folder))
    with django_db_blocker.unblock(), files_in(folder):
        yield folder
