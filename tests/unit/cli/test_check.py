"""``tapeline check`` reads a plan beside its caseload and ends with 0, or 4 and its faults."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, write_whole
from tapeline.caseload.people import ChildPrecaution
from tapeline.planner.plan import plan_json
from tapeline.sessions.prepare import plan_session
from tests.unit.cli.commands import Run
from tests.unit.cli.conftest import TODAY


@pytest.fixture(scope="module")
def plan_file(tmp_path_factory: pytest.TempPathFactory, invented: Caseload) -> Path:
    """The mixed group's next plan."""
    path = tmp_path_factory.mktemp("plan") / "plan.json"
    write_whole(path, plan_json(plan_session(invented, group="mixed", on=TODAY)))
    return path


def test_a_sound_plan_ends_with_code_0(plan_file: Path, harbour: Path, run: Run) -> None:
    done = run("check", plan_file, "--caseload", harbour)
    assert (done.code, done.out, done.err) == (0, "Nothing found.\n", "")


def test_a_sound_plan_has_an_empty_list_in_json(plan_file: Path, harbour: Path, run: Run) -> None:
    done = run("check", plan_file, "--caseload", harbour, "--json")
    assert (done.code, json.loads(done.out)) == (0, {"faults": []})


def test_each_fault_is_one_line_and_the_code_is_4(
    plan_file: Path, harbour: Path, tmp_path: Path, run: Run
) -> None:
    data = json.loads(plan_file.read_text())
    data["parts"][0]["seconds"] += 60
    data["parts"][0]["children"].pop()
    (tmp_path / "plan.json").write_text(json.dumps(data))
    done = run("check", tmp_path / "plan.json", "--caseload", harbour)
    assert done.code == 4
    assert len(done.out.splitlines()) >= 2
    assert all(line.endswith(".") for line in done.out.splitlines())


def test_json_gives_each_fault_its_kind(
    plan_file: Path, harbour: Path, tmp_path: Path, run: Run
) -> None:
    data = json.loads(plan_file.read_text())
    missing = data["parts"][0]["children"].pop()["id"]
    (tmp_path / "plan.json").write_text(json.dumps(data))
    done = run("check", tmp_path / "plan.json", "--caseload", harbour, "--json")
    faults = json.loads(done.out)["faults"]
    assert done.code == 4
    assert missing in {fault["child"] for fault in faults}
    assert set(faults[0]) == {"kind", "child", "activity", "sentence"}


def test_a_plan_of_an_edited_caseload_says_plan_again(
    plan_file: Path, tmp_path: Path, run: Run, invented: Caseload
) -> None:
    first = invented.child("c12")
    held = replace(first, precautions=(*first.precautions, ChildPrecaution(kind="shunt")))
    children = tuple(held if child.id == "c12" else child for child in invented.children)
    write_whole(tmp_path / "now.json", caseload_json(replace(invented, children=children)))
    done = run("check", plan_file, "--caseload", tmp_path / "now.json")
    assert done.code == 4
    assert "The plan was made before c12's precautions changed: plan again." in done.out


@pytest.mark.parametrize("content", ["hello", "[]", "{}", '{"format": 1}', '{"format": 7}'])
def test_what_is_no_plan_ends_with_code_2(
    content: str, harbour: Path, tmp_path: Path, run: Run
) -> None:
    (tmp_path / "plan.json").write_text(content)
    done = run("check", tmp_path / "plan.json", "--caseload", harbour)
    assert done.code == 2
    assert done.err.startswith("tapeline: ")
    assert len(done.err.splitlines()) == 1


def test_a_plan_that_is_not_there_ends_with_code_2(harbour: Path, tmp_path: Path, run: Run) -> None:
    assert run("check", tmp_path / "no.json", "--caseload", harbour).code == 2
