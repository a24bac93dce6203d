"""Every kind of fault between a course and its plan is planted, and the checker finds it.

The kinds were listed before the checker was written (`COURSE_OF_PLAN_KINDS`). Library and
stations are those that come with the program.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from tapeline.checking.course_plan import COURSE_OF_PLAN_KINDS, check_course_of_plan
from tapeline.cli.app import app

Files = dict[str, Any]
Plant = Callable[[Files], object]
HERE = Path(__file__).parent
PLAYED = {
    "toss_aboard": ("drop.usual", "drop.seated"),
    "post_run": ("run_to_mark.usual", "run_to_mark.wheels"),
    "on_the_ferry": ("hands.usual", "hands.usual"),
}
CLEAR = {
    "toss_aboard": {"front": 0, "back": 20, "left": 50, "right": 50},
    "post_run": {"front": 183, "back": 20, "left": 20, "right": 20},
    "on_the_ferry": {"front": 100, "back": 20, "left": 60, "right": 20},
}


def sound() -> Files:
    """A course of three stations for a child on foot and one in a wheelchair."""
    children = [
        {"id": "c1", "name": "Ada", "born": "2020-01"},
        {"id": "c2", "name": "Bo", "born": "2020-01", "gets_about": "wheelchair"},
    ]
    group = {"id": "g", "name": "G", "weekday": "tuesday", "start": "09:00", "minutes": 45}
    group["members"] = [{"child": "c1"}, {"child": "c2"}]
    return {
        "room": {
            "room": [[0, 0], [1200, 0], [1200, 900], [0, 900]],
            "start": [50, 50],
            "end": [50, 50],
            "route_half_width": 46,
            "stations": [
                {"id": name, "length": 200, "width": 160, "clear": dict(clear)}
                | {"throw": name == "toss_aboard"}
                for name, clear in CLEAR.items()
            ],
        },
        "course": {
            **json.loads((HERE / "course_good.json").read_text()),
            "stations": [{"id": name, "x": 0, "y": 0, "turn": 0} for name in CLEAR],
        },
        "plan": {
            "format": 1,
            "made_from": {"library": "", "rules": "", "place": "", "children": {}},
            "request": {
                "group": "g",
                "date": "2026-03-10",
                "seconds": 2700,
                "adults": 2,
                "wishes": {},
                "limits": {"floor_of_trials": 5, "turn_cap": 3, "new_things": 1},
            },
            "parts": [a_station(name, versions) for name, versions in PLAYED.items()],
        },
        "caseload": {"format": 1, "children": children, "groups": [group]},
    }


def a_station(name: str, versions: tuple[str, str]) -> dict[str, Any]:
    same = {"place": "room", "amount": 1, "unit": "tries", "new": False, "things": [], "flags": []}
    seconds = {"start_s": 0, "seconds": 120, "explain_s": 0, "setup_s": 0, "change_s": 0}
    rows = [
        {**same, "id": child, "version": f"{name}.{version}"}
        for child, version in zip(("c1", "c2"), versions, strict=True)
    ]
    return {"part": "course", "activity": name, "rounds": 2, "children": rows, **seconds}


def clear(station: int, **sides: int) -> Plant:
    return lambda files: files["room"]["stations"][station]["clear"].update(sides)


def another_station(files: Files) -> None:
    files["course"]["stations"][1]["id"] = "parade"


def child(**what: object) -> Plant:
    return lambda files: files["caseload"]["children"][1].update(what)


PLANTS: list[tuple[str, Plant]] = [
    ("plan_station", lambda files: files["course"]["stations"].pop()),
    ("plan_station", lambda files: files["plan"]["parts"].pop()),
    ("plan_station", another_station),
    ("lane", lambda files: files["room"].update(route_half_width=45)),
    ("lane", child(device_width_cm=63)),
    ("turning", lambda files: files["room"]["stations"][0].update(width=152)),
    ("turning", child(turning_cm=161)),
    ("beside_thrower", clear(0, left=49)),
    ("after_run", clear(1, front=182)),
    ("spotter", clear(2, left=59)),
]


def found(files: Files) -> list[str]:
    pair = (files["room"], files["course"], files["plan"], files["caseload"])
    faults = check_course_of_plan(*pair)
    assert all(fault.sentence.endswith(".") for fault in faults)
    return sorted({fault.kind for fault in faults})


def test_a_sound_course_has_no_fault() -> None:
    assert found(sound()) == []


@pytest.mark.parametrize(("kind", "plant"), PLANTS, ids=[kind for kind, _ in PLANTS])
def test_a_planted_fault_is_found_and_no_other(kind: str, plant: Plant) -> None:
    files = sound()
    plant(files)
    assert found(files) == [kind]


def test_every_kind_is_planted() -> None:
    assert {kind for kind, _ in PLANTS} == set(COURSE_OF_PLAN_KINDS)


@pytest.mark.parametrize(
    "plant",
    [
        child(device_width_cm=62),
        child(device_width_cm=50, turning_cm=160),
        lambda files: files["room"]["stations"][1].update(width=100),
        clear(2, right=0, front=0),
    ],
)
def test_what_looks_near_a_fault_and_is_none(plant: Plant) -> None:
    files = sound()
    plant(files)
    assert found(files) == []


def test_nobody_on_wheels_needs_no_wide_way() -> None:
    files = sound()
    child(gets_about="on_foot", device_width_cm=70, turning_cm=200)(files)
    files["room"]["route_half_width"] = 40
    assert found(files) == []


def test_the_command_checks_a_course_beside_its_plan(tmp_path: Path) -> None:
    files = sound()
    clear(0, left=49)(files)
    for name, content in files.items():
        (tmp_path / f"{name}.json").write_text(json.dumps(content))
    beside = [f"--{name}={tmp_path / name}.json" for name in ("room", "plan", "caseload")]
    done = CliRunner().invoke(app, ["check", str(tmp_path / "course.json"), *beside])
    assert done.exit_code == 4
    assert "toss_aboard: too little floor beside a child" in done.output
