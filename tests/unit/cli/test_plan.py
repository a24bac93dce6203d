"""``tapeline plan`` writes a plan and its packet, or says in one line why it does not."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, write_whole
from tests.unit.cli.commands import Ran, Run

DAY = ("--today", "2026-11-25")
WEDNESDAY = ("--group", "mixed", "--date", "2026-11-25", *DAY)
Edit = Callable[[Caseload], Caseload]


def planned(run: Run, file: Path, out: Path, *more: str) -> Ran:
    return run("plan", file, *WEDNESDAY, "--out", out, *more)


def edited(path: Path, caseload: Caseload) -> Path:
    write_whole(path / "edited.json", caseload_json(caseload))
    return path / "edited.json"


def with_group(caseload: Caseload, **changes: object) -> Caseload:
    groups = tuple(
        replace(group, **changes) if group.id == "mixed" else group  # type: ignore[arg-type]
        for group in caseload.groups
    )
    return replace(caseload, groups=groups)


def test_a_plan_and_its_packet_are_written(tmp_path: Path, run: Run, harbour: Path) -> None:
    done = planned(run, harbour, tmp_path / "out")
    assert (done.code, done.err) == (0, "")
    assert "minutes" in done.out
    assert f"Written: {tmp_path / 'out' / 'plan.json'}" in done.out
    assert (tmp_path / "out" / "packet.pdf").read_bytes().startswith(b"%PDF-")


def test_json_lists_the_files_the_activities_and_how_good_it_is(
    wednesday: tuple[Ran, Path],
) -> None:
    done, out = wednesday
    answer = json.loads(done.out)
    plan = json.loads((out / "plan.json").read_text())
    assert (done.code, done.err) == (0, "")
    assert answer["activities"] == [part["activity"] for part in plan["parts"]]
    assert answer["bound"] == plan["bound"]
    assert sorted(map(Path, answer["files"])) == sorted(out.iterdir())


def test_the_same_question_gives_the_same_plan(
    tmp_path: Path, run: Run, harbour: Path, wednesday: tuple[Ran, Path]
) -> None:
    planned(run, harbour, tmp_path)
    _, out = wednesday
    assert (tmp_path / "plan.json").read_text() == (out / "plan.json").read_text()


def test_locked_is_in_left_out_is_out_and_who_is_away_has_no_row(
    tmp_path: Path, run: Run, harbour: Path, wednesday: tuple[Ran, Path]
) -> None:
    usual = json.loads(wednesday[0].out)["activities"]
    kept, out = usual[0], usual[-1]
    done = planned(
        run, harbour, tmp_path, "--lock", kept, "--leave-out", out, "--away", "c12", "--json"
    )
    asked = json.loads(done.out)["activities"]
    plan = json.loads((tmp_path / "plan.json").read_text())
    rows = {child["id"] for part in plan["parts"] for child in part["children"]}
    assert kept in asked
    assert out not in asked
    assert rows
    assert "c12" not in rows


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--group", "gulls"), "There is no group 'gulls' in this caseload."),
        (("--date", "tomorrow"), "'tomorrow' is not a date."),
        (("--date", "2027-07-07"), "2027-07-07 lies outside the terms of Ropewalk School"),
        (("--adults", "0"), "has no adult in the room on 2026-11-25."),
        (("--lock", "no_such_game"), "There is no activity 'no_such_game' in the library."),
        (("--leave-out", "no_such_game"), "There is no activity 'no_such_game' in the library."),
        (("--away", "c99"), "There is no child 'c99' in this caseload."),
    ],
)
def test_what_cannot_be_used_ends_with_code_2_and_writes_nothing(
    words: tuple[str, str], sentence: str, tmp_path: Path, run: Run, harbour: Path
) -> None:
    done = planned(run, harbour, tmp_path / "out", *words)
    assert done.code == 2
    assert done.err.startswith("tapeline: ")
    assert sentence in done.err
    assert not (tmp_path / "out").exists()


def test_a_closed_day_says_why_it_is_closed(
    tmp_path: Path, run: Run, harbour: Path, invented: Caseload
) -> None:
    site = invented.sites[0]
    closed = site.closed[0]
    done = planned(run, harbour, tmp_path / "out", "--date", closed.date.isoformat())
    assert done.code == 2
    assert f"{site.name} is closed on {closed.date} ({closed.reason})." in done.err


def test_wishes_that_clash_end_with_code_3_and_ways_out(
    tmp_path: Path, run: Run, harbour: Path, wednesday: tuple[Ran, Path]
) -> None:
    arrival = json.loads(wednesday[0].out)["activities"][0]
    words = ("--lock", arrival, "--leave-out", arrival)
    done = planned(run, harbour, tmp_path / "out", *words)
    assert done.code == 3
    assert done.err.startswith("tapeline: No session fits. ")
    assert "is both locked and left out" in done.err
    assert not (tmp_path / "out").exists()


def test_a_group_without_children_is_told(tmp_path: Path, run: Run, invented: Caseload) -> None:
    file = edited(tmp_path, with_group(invented, members=()))
    done = planned(run, file, tmp_path / "out")
    assert done.code == 2
    assert "has no children on 2026-11-25. Add children to the group" in done.err


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('"format": 1', '"format": 9', "is of format 9; this program reads format 1."),
        ('"material": "beanbag"', '"material": "moonstone"', "lists 'moonstone'"),
        ('"minutes": 35', '"minutes": 0', "lasts 0 minutes. Type 1 to 120 minutes."),
        ('"born": "20', '"born": "29', "which cannot be right on 2026-11-25."),
    ],
)
def test_a_fault_in_the_file_says_what_where_and_what_to_do(
    old: str, new: str, sentence: str, tmp_path: Path, run: Run, harbour: Path
) -> None:
    text = harbour.read_text()
    assert old in text
    (tmp_path / "bad.json").write_text(text.replace(old, new))
    done = planned(run, tmp_path / "bad.json", tmp_path / "out")
    assert done.code == 2
    assert sentence in done.err
    assert not (tmp_path / "out").exists()


def test_all_faults_of_a_file_are_told_at_once(tmp_path: Path, run: Run, harbour: Path) -> None:
    data = json.loads(harbour.read_text())
    data["groups"][0]["minutes"] = 0
    data["sites"][0]["rooms"][0]["width_cm"] = 99
    data["children"][0]["born"] = "2021-13"
    (tmp_path / "bad.json").write_text(json.dumps(data))
    done = planned(run, tmp_path / "bad.json", tmp_path / "out")
    assert done.code == 2
    assert "bad.json has 3 faults. Nothing was changed." in done.err
    assert done.err.count("\n- ") == 3


@pytest.mark.parametrize("content", ["hello", "[1]", "", "{"])
def test_what_is_no_caseload_file_is_told(content: str, tmp_path: Path, run: Run) -> None:
    (tmp_path / "bad.json").write_text(content)
    done = planned(run, tmp_path / "bad.json", tmp_path / "out")
    assert done.code == 2
    assert done.err.startswith("tapeline: bad.json is ")


def test_a_file_that_is_not_there_is_told(tmp_path: Path, run: Run) -> None:
    done = planned(run, tmp_path / "no.json", tmp_path / "out")
    assert done.code == 2
    assert "Check the name." in done.err


def test_weeks_ahead_say_what_each_child_would_get_and_write_nothing(
    tmp_path: Path, run: Run, harbour: Path
) -> None:
    before = set(tmp_path.rglob("*"))
    done = run("plan", harbour, *WEDNESDAY, "--weeks", "1")
    assert (done.code, done.err) == (0, "")
    assert "1 week ahead" in done.out
    assert " tries" in done.out
    assert set(tmp_path.rglob("*")) == before


def test_weeks_ahead_answer_in_json(run: Run, harbour: Path) -> None:
    done = run("plan", harbour, *WEDNESDAY, "--weeks", "1", "--json")
    (week,) = json.loads(done.out)["weeks"]
    assert week["activities"]
    assert any(share["steps"] for share in week["children"].values())


@pytest.mark.parametrize("more", [[], ["--weeks", "2", "--out", "here"]])
def test_a_folder_or_weeks_but_not_both(run: Run, harbour: Path, more: list[str]) -> None:
    done = run("plan", harbour, *WEDNESDAY, *more)
    assert done.code == 2
    assert "--out for one session" in done.err
