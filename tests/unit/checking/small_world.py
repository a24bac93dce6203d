"""A tiny library, a caseload of three children and a sound plan, to plant faults in."""

from __future__ import annotations

from copy import deepcopy
from pathlib import Path
from typing import Any

from tapeline.checking.read import shaped_caseload
from tapeline.checking.stale import fingerprint, fingerprints_of

ON = "2026-03-10"
FILES = {
    "library/sending/toss.yaml": """
skill: {id: toss, steps: [{id: toss.drop}, {id: toss.near}, {id: toss.far}, {id: toss.called}]}
activities:
  - id: box_toss
    uses: [revisit, practice, course]
    lanes: 0
    all: &usual
      unit: tries
      seconds_per_unit: [6, 4]
      least: 2
      most: 20
      try_size: 1
      length_cm: 150
      width_cm: 100
      clear_cm: 50
      things: [{any_of: [beanbag], count: 2, each: true}, {any_of: [box]}]
      adult_need: within_sight
      hands: 0
      noise: usual
      touches: [throw]
      whole_turns: 0
      gets_about: [on_foot, wheelchair]
      where: [room, home]
    versions:
      - step: toss.drop
      - step: toss.near
      - step: toss.far
      - step: toss.called
      - {step: toss.near, variant: loud, noise: loud}
      - {step: toss.near, variant: held, hands: 2, adult_need: hands_on}
      - {step: toss.near, variant: hall, where: [room]}
      - {step: toss.near, variant: long, length_cm: 500}
      - {step: toss.near, variant: broad, length_cm: 300, width_cm: 340}
      - {step: toss.near, variant: on_foot, gets_about: [on_foot]}
      - {step: toss.near, variant: climbing, touches: [throw, climb]}
      - {step: toss.near, variant: pushing, touches: [throw, strain]}
      - {step: toss.near, variant: turning, whole_turns: 1}
      - {step: toss.near, variant: rubber, things: [{any_of: [rubber_ball]}]}
      - {step: toss.near, variant: marbles, things: [{any_of: [marbles]}]}
      - {step: toss.near, variant: slow, try_size: 4}
      - {step: toss.near, variant: bare, things: []}
  - id: raft
    uses: [practice]
    lanes: 0
    all: *usual
    versions:
      - {step: toss.near, adult_need: hands_on}
      - {step: toss.near, variant: wheels, gets_about: [wheelchair]}
      - step: toss.far
  - id: post
    uses: [course]
    lanes: 0
    all:
      <<: *usual
      length_cm: 50
      width_cm: 50
      clear_cm: 0
      things: [{any_of: [box]}]
    versions:
      - step: toss.drop
      - {step: toss.drop, variant: held, adult_need: beside}
      - {step: toss.drop, variant: boxes, things: [{any_of: [box], count: 2}]}
      - {step: toss.drop, variant: wide, length_cm: 500, width_cm: 400}
      - {step: toss.drop, variant: bare, things: []}
""",
    "library/balance/walk.yaml": """
skill: {id: walk, steps: [{id: walk.lane}, {id: walk.tape}]}
activities:
  - id: quay
    uses: [revisit, practice, course]
    lanes: 1
    all: &usual
      unit: tries
      seconds_per_unit: [9, 7.5]
      least: 2
      most: 12
      try_size: 1
      length_cm: 200
      width_cm: 60
      clear_cm: 20
      things: [{any_of: [tape], count: 1, each: true}]
      adult_need: within_sight
      hands: 0
      noise: quiet
      touches: []
      whole_turns: 0
      gets_about: [on_foot, wheelchair]
      where: [room, home]
    versions:
      - step: walk.lane
      - step: walk.tape
      - {step: walk.lane, variant: held, adult_need: beside}
      - {step: walk.lane, variant: boxed, things: [{any_of: [box]}]}
      - {step: walk.lane, variant: wide, length_cm: 560, width_cm: 360}
      - {step: walk.lane, variant: bare, things: []}
  - id: pier
    uses: [revisit]
    lanes: 1
    all: *usual
    versions:
      - step: walk.lane
""",
    "library/balance/thread.yaml": """
skill: {id: thread, steps: [{id: thread.pull}]}
activities:
  - id: ropes
    uses: [fine_motor]
    lanes: 0
    all:
      unit: tries
      seconds_per_unit: [9, 7.5]
      most: 12
      length_cm: 50
      width_cm: 50
      adult_need: within_sight
      noise: quiet
      gets_about: [on_foot]
      where: [room, home]
    versions:
      - step: thread.pull
""",
    "library/parts/all.yaml": """
activities:
  - id: hello
    uses: [arrival]
    lanes: 0
    all: &usual
      unit: rounds
      seconds_per_unit: [10, 10]
      least: 1
      most: 3
      length_cm: 60
      width_cm: 60
      adult_need: within_sight
      noise: quiet
      gets_about: [on_foot, wheelchair, walking_frame]
      where: [room, home]
    versions: [{}]
  - id: bye
    uses: [closing]
    all: {<<: *usual}
    versions: [{}]
""",
    "library/materials.yaml": """
beanbag: {may_contain_latex: "no", touches: [], substitutes: [sock]}
sock: {may_contain_latex: "no", substitutes: [rag]}
rag: {may_contain_latex: "no"}
box: {may_contain_latex: "no", substitutes: [basket]}
basket: {may_contain_latex: "no"}
tape: {may_contain_latex: "no"}
rubber_ball: {may_contain_latex: unknown}
marbles: {may_contain_latex: "no", touches: [small_parts]}
""",
    "rules/rules.yaml": """
date: 2026-01-02
rules:
  - {id: heart.climb, precaution: heart, touches: climb, effect: blocks, lifted_by: go_ahead, sentence: Wait for the level.}
  - {id: heart.strain, precaution: heart, touches: strain, effect: flags, lifted_by: go_ahead, sentence: Take breaks.}
  - {id: heart.run, precaution: heart, touches: run, effect: blocks, lifted_by: nothing, sentence: Never.}
  - {id: latex.latex, precaution: latex, touches: latex, effect: blocks, lifted_by: nothing, scope: room, sentence: No rubber here.}
  - {id: under_36.small_parts, youngest_under_months: 36, touches: small_parts, effect: blocks, lifted_by: nothing, sentence: Nothing to choke on.}
""",
    "practice/timing.yaml": """
values:
  - {key: explain_known_s, ages: any, value: 25}
  - {key: change_s, ages: 3-4, value: 60}
  - {key: change_s, ages: 5-8, value: 45}
""",
    "practice/session_shape.yaml": """
real_parts: {doing_to_the_rest: 1, not_asked_of: [arrival, closing]}
shapes:
  - up_to_minutes: 25
    parts: {arrival: {least: 1}, practice: {least: 3, doing: 1.5}, course: {least: 4}, closing: {least: 1}}
  - up_to_minutes: 120
    parts: {arrival: {}, practice: {doing: 1.5}, course: {}, fine_motor: {}, closing: {}}
""",
    "practice/planning.yaml": """
adults: {both_hands: [full_physical], many_each: 2}
""",
    "practice/preferences.yaml": """
far: {behind: 0.25}
""",
}
CASELOAD: dict[str, Any] = {
    "format": 1,
    "sites": [
        {
            "id": "quay_school",
            "name": "Quay school",
            "rooms": [
                {
                    "id": "hall",
                    "name": "Hall",
                    "length_cm": 600,
                    "width_cm": 400,
                    "things": [
                        {"material": "beanbag", "count": 4},
                        {"material": "box", "count": 2},
                        {"material": "tape", "count": 1},
                        {"material": "rubber_ball"},
                        {"material": "marbles"},
                    ],
                }
            ],
        }
    ],
    "groups": [
        {
            "id": "g",
            "name": "Tuesday",
            "weekday": "tuesday",
            "start": "09:30",
            "minutes": 20,
            "site": "quay_school",
            "room": "hall",
            "members": [
                {"child": "c1"},
                {"child": "c2", "starts": "2026-01-01", "ends": "2026-12-31"},
                {"child": "c3", "place": "home"},
                {"child": "gone", "ends": "2026-03-09"},
                {"child": "resting"},
            ],
        }
    ],
    "children": [
        {
            "id": "c1",
            "name": "Ada",
            "born": "2021-09",
            "skills": [{"skill": "toss", "step": "toss.near"}],
            "goals": [
                {"id": "g1", "name": "Toss", "skill": "toss", "step": "toss.near", "k": 4, "n": 5}
            ],
        },
        {
            "id": "c2",
            "name": "Bo",
            "born": "2019-05",
            "skills": [{"skill": "toss", "step": "toss.near"}],
            "precautions": [{"kind": "heart"}],
        },
        {"id": "c3", "name": "Cy", "born": "2020-01", "home": "h3"},
        {"id": "gone", "name": "Di", "born": "2020-01"},
        {"id": "resting", "name": "Ed", "born": "2020-01", "active": False},
    ],
    "homes": [
        {
            "id": "h3",
            "space": "own_size",
            "length_cm": 300,
            "width_cm": 250,
            "hands": 1,
            "things": [
                {"material": "beanbag", "count": 2},
                {"material": "basket"},
                {"material": "tape"},
                {"material": "rubber_ball"},
                {"material": "marbles"},
            ],
        }
    ],
    "trials": [
        {
            "id": "t1",
            "session": "s1",
            "child": "c3",
            "version": "box_toss.near.usual",
            "step": "toss.near",
            "outcome": "alone",
        }
    ],
}
THINGS = {
    "box_toss": {"room": ["beanbag", "box"], "home": ["beanbag", "basket"]},
    "quay": {"room": ["tape"], "home": ["tape"]},
    "post": {"room": ["box"], "home": ["basket"]},
}


def write_data(folder: Path) -> Path:
    """Write the tiny library, rules and timing into a folder."""
    for name, text in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def a_caseload() -> dict[str, Any]:
    """Two children in the hall, one at home; one has left, one is not active."""
    return deepcopy(CASELOAD)


def a_row(
    child: str, activity: str, version: str, amount: int, unit: str = "tries"
) -> dict[str, Any]:
    """A child's row with the things that serve it."""
    place = "home" if child == "c3" else "room"
    return {
        "id": child,
        "place": place,
        "version": f"{activity}.{version}",
        "amount": amount,
        "unit": unit,
        "new": False,
        "things": list(THINGS.get(activity, {}).get(place, ())),
        "flags": [],
        "reason": {"code": "revisit", "values": {}},
    }


def a_part(
    part: str, activity: str, version: str, amount: int, seconds: int, **more: Any
) -> dict[str, Any]:
    """A part in which all three children do the same version."""
    unit = "rounds" if activity in ("hello", "bye") else "tries"
    row = {
        "part": part,
        "activity": activity,
        "start_s": 0,
        "seconds": seconds,
        "explain_s": 25,
        "setup_s": 5,
        "change_s": 60,
        "rounds": 1,
        "children": [a_row(child, activity, version, amount, unit) for child in ("c1", "c2", "c3")],
    }
    return {**row, **more}


def a_plan(caseload: dict[str, Any] | None = None) -> dict[str, Any]:
    """A sound plan: arrival, practice, a course of two stations, closing."""
    plan = {
        "format": 1,
        "program": "tapeline 0",
        "made_from": {},
        "request": {
            "group": "g",
            "date": ON,
            "seconds": 1200,
            "adults": 1,
            "wishes": {"locked": [], "left_out": [], "amounts": [], "away": []},
            "limits": {"floor_of_trials": 5, "turn_cap": 3, "new_things": 1},
        },
        "parts": [
            a_part("arrival", "hello", "any.usual", 1, 110),
            a_part("practice", "box_toss", "near.usual", 10, 200),
            a_part("course", "quay", "lane.usual", 2, 120, change_s=0, rounds=3),
            a_part("course", "post", "drop.usual", 2, 120, explain_s=0, rounds=2),
            a_part("closing", "bye", "any.usual", 1, 60, change_s=0),
        ],
        "dropped": [],
        "binding": [],
        "swaps": [],
        "bound": {"status": "good", "gap": 0},
        "notices": [],
    }
    run_the_clock(plan)
    return stamp(plan, caseload or a_caseload())


def run_the_clock(plan: dict[str, Any]) -> None:
    """Let the parts follow each other."""
    start_s = 0
    for part in plan["parts"]:
        part["start_s"] = start_s
        start_s += part["seconds"]


def stamp(plan: dict[str, Any], caseload: dict[str, Any]) -> dict[str, Any]:
    """The plan as made from this caseload."""
    shaped = shaped_caseload(caseload)
    has_room = shaped["groups"][0]["room"] is not None
    room = shaped["sites"][0]["rooms"][0] if has_room else None
    rows = {row["id"] for part in plan["parts"] for row in part["children"]}
    plan["made_from"] = {
        "library": "0",
        "rules": "2026-01-02",
        "place": fingerprint([shaped["groups"][0], room]),
        "children": {
            child["id"]: fingerprints_of(shaped, child)
            for child in shaped["children"]
            if child["id"] in rows
        },
    }
    return plan
