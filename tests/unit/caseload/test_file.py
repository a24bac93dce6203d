"""The caseload file: a round trip loses nothing, and all faults are told at once."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from tapeline import __version__
from tapeline.caseload import file as caseload_file
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import (
    caseload_json,
    parse_caseload,
    read_caseload,
    write_together,
    write_whole,
)
from tapeline.errors import InputError, ManyFaults
from tapeline.sessions.demo import demo_caseload
from tests.builders import TODAY, a_caseload


def plain(caseload: Caseload) -> Any:
    return json.loads(caseload_json(caseload))


def faults_of(content: Any) -> list[str]:
    with pytest.raises(ManyFaults) as caught:
        parse_caseload(json.dumps(content), name="mine.json")
    return [fault.message for fault in caught.value.faults]


@pytest.mark.parametrize(
    "caseload", [Caseload(), a_caseload(), demo_caseload(TODAY)], ids=["empty", "small", "demo"]
)
def test_a_round_trip_loses_nothing(caseload: Caseload) -> None:
    back = parse_caseload(caseload_json(caseload), name="mine.json")
    assert back == replace(caseload, program=f"tapeline {__version__}")


def test_the_same_caseload_gives_the_same_text() -> None:
    text = caseload_json(demo_caseload(TODAY))
    assert caseload_json(parse_caseload(text, name="mine.json")) == text
    assert text.endswith("}\n")


def test_a_file_written_by_a_windows_editor_is_read(tmp_path: Path) -> None:
    path = tmp_path / "mine.json"
    path.write_text("\ufeff" + caseload_json(a_caseload()), encoding="utf-8")
    assert read_caseload(path).child("c1").name == "Amara"


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"There is no file .*nowhere\.json"):
        read_caseload(tmp_path / "nowhere.json")


def test_a_picture_is_not_read_as_text(tmp_path: Path) -> None:
    path = tmp_path / "photo.jpg"
    path.write_bytes(b"\xff\xd8\xff\xe0")
    with pytest.raises(InputError, match="cannot be read as text"):
        read_caseload(path)


def test_text_that_is_no_json_names_the_line() -> None:
    with pytest.raises(InputError, match=r"mine\.json is not JSON: .* at line 2"):
        parse_caseload('{"format": 1,\nnonsense}', name="mine.json")


@pytest.mark.parametrize("content", ["[]", '"hello"', "3", "{}", '{"children": []}'])
def test_json_of_something_else_is_refused(content: str) -> None:
    with pytest.raises(InputError, match=r"mine\.json is JSON, but not a caseload file"):
        parse_caseload(content, name="mine.json")


@pytest.mark.parametrize("number", [0, 2, "1", None])
def test_another_format_names_both_formats(number: Any) -> None:
    with pytest.raises(InputError, match=r"is of format .*; this program reads format 1"):
        parse_caseload(json.dumps({"format": number}), name="mine.json")


def test_all_faults_of_a_file_come_at_once() -> None:
    content = plain(a_caseload())
    content["children"][0]["born"] = "2021-13"
    content["sites"][0]["rooms"][0]["length_cm"] = 60
    content["groups"][0]["minutes"] = 0
    content["homes"][0]["hands"] = 3
    found = faults_of(content)
    assert len(found) == 4
    for sentence in (
        "Child Amara has the birth month '2021-13'.",
        "Room School hall is 60 cm on one side.",
        "Group Tuesday group lasts 0 minutes.",
        "Home h1 has a helper with 3 hands free.",
    ):
        assert sentence in found


def test_an_unknown_field_is_named_with_its_place() -> None:
    content = plain(a_caseload())
    content["children"][0]["diagnosis"] = "none of our business"
    assert faults_of(content) == ["children, c1, diagnosis is not a field tapeline knows."]


def test_a_missing_field_is_named_with_its_place() -> None:
    content = plain(a_caseload())
    del content["children"][0]["born"]
    del content["groups"][0]["weekday"]
    assert sorted(faults_of(content)) == [
        "children, c1, born is missing.",
        "groups, tuesday, weekday is missing.",
    ]


def test_two_goals_of_one_child_may_not_share_a_name() -> None:
    content = plain(a_caseload())
    goals = content["children"][0]["goals"]
    goals.append({**goals[0], "id": "g2"})
    assert faults_of(content) == ["Child Amara has two goals with the name 'Catch a bounced ball'."]


def test_a_fault_says_what_to_do_next() -> None:
    content = plain(a_caseload())
    content["children"][0]["born"] = "April 2021"
    with pytest.raises(ManyFaults) as caught:
        parse_caseload(json.dumps(content), name="mine.json")
    assert "Write year and month, for example 2021-04." in str(caught.value)
    assert str(caught.value).startswith("mine.json has 1 fault. Nothing was changed.")


def test_a_full_disk_leaves_the_older_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "mine.json"
    write_whole(path, "before")

    def full(number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(caseload_file.os, "fsync", full)
    with pytest.raises(InputError, match="could not be saved: No space left on device"):
        write_whole(path, "after")
    assert path.read_text() == "before"
    assert [found.name for found in tmp_path.iterdir()] == ["mine.json"]


def test_files_that_belong_together_are_all_written_or_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first, second = tmp_path / "plan.json", tmp_path / "packet.pdf"
    write_whole(first, "before")
    saved: list[int] = []

    def full_at_the_second(number: int) -> None:
        saved.append(number)
        if len(saved) == 2:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(caseload_file.os, "fsync", full_at_the_second)
    with pytest.raises(InputError, match=r"packet\.pdf could not be saved"):
        write_together({first: "after", second: b"after"})
    assert first.read_text() == "before"
    assert [found.name for found in tmp_path.iterdir()] == ["plan.json"]


def test_a_folder_that_is_a_file_is_told_in_a_sentence(tmp_path: Path) -> None:
    write_whole(tmp_path / "tuesday", "a file")
    with pytest.raises(InputError, match=r"plan\.json could not be saved"):
        write_whole(tmp_path / "tuesday" / "plan.json", "text")


def test_brackets_thousands_deep_are_told_in_a_sentence() -> None:
    with pytest.raises(InputError, match="brackets lie thousands deep"):
        parse_caseload("[" * 100_000, name="mine.json")


def test_a_child_without_a_home_gets_an_empty_room() -> None:
    home = a_caseload().home_of(a_caseload().child("c1"))
    assert (home.id, home.things) == ("home-of-c1", ())


def test_an_unknown_id_lists_those_there_are() -> None:
    with pytest.raises(InputError, match="Choose one of: c1"):
        a_caseload().child("c9")


def test_members_count_only_within_their_dates() -> None:
    caseload = demo_caseload(TODAY)
    hall = caseload.group("hall")
    gone = replace(hall.members[0], ends=TODAY - dt.timedelta(days=1))
    later = replace(hall.members[1], starts=TODAY + dt.timedelta(days=1))
    group = replace(hall, members=(gone, later, *hall.members[2:]))
    coming = [child.id for _, child in caseload.who_comes(group, TODAY)]
    assert coming == ["c3", "c4", "c5", "c6"]
