"""Write eight past weeks of the invented caseload: src/tapeline/data/demo/history_*.yaml.

    python scripts/make_demo_history.py

Each week is planned as the program would have planned it; what the children then managed is
drawn from their own starting steps with a fixed seed. Run it again when the library loses a
version that the history names (a test says so).
"""

from __future__ import annotations

import datetime as dt
import math
import random
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import yaml

from tapeline.activities.loader import load_library
from tapeline.activities.models import PARTS_WITH_TRIALS
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.people import Child, Start
from tapeline.planner.plan import ChildPlan, PartPlan, SessionPlan, Wishes
from tapeline.sessions.demo import demo_caseload, next_meeting
from tapeline.sessions.prepare import plan_session

FOLDER = Path(__file__).parents[1] / "src" / "tapeline" / "data" / "demo"
TODAY = dt.date(2026, 11, 25)
WEEKS = range(8, 0, -1)
LADDER = ("word", "gesture", "model")
AT_START = 0.85  # logits: about 7 in 10
A_WEEK = 0.09  # logits gained in a week
MOST_COUNTED = 8
AWAY = {
    "hall": {7: ("c4",), 4: ("c2", "c6"), 2: ("c5",)},
    "home": {6: ("c9",), 5: ("c11",), 2: ("c7",)},
    "mixed": {7: ("c15",), 4: ("c13",), 3: ("c15",)},
}
REFUSED = {("hall", 6): "c2", ("hall", 3): "c6", ("home", 4): "c8", ("mixed", 6): "c12"}
CANCELLED = {
    ("hall", 5): {"side": "building", "reason": "A burst pipe flooded the hall"},
}
MOVED = {("home", 3): {"side": "provider", "reason": "The video line was down", "moved_days": 1}}
ANSWERS = {
    ("home", 8): [{"child": "c10", "days_done": 2, "went": "about_right"}],
    ("home", 7): [
        {"child": "c10", "days_done": 3, "went": "about_right"},
        {"child": "c11", "days_done": 1, "went": "too_easy"},
    ],
    ("home", 6): [{"child": "c10", "days_done": 1, "went": "too_hard"}],
    ("home", 4): [
        {"child": "c10", "days_done": 4, "went": "about_right"},
        {
            "child": "c11",
            "days_done": 2,
            "went": "about_right",
            "hurt_or_scary": "Bumped an elbow on the door frame. Fine after a minute.",
        },
    ],
    ("home", 2): [{"child": "c11", "days_done": 2, "went": "not_fun"}],
    ("home", 1): [{"child": "c10", "days_done": 3, "went": "too_easy"}],
}
HEAD = """\
# Eight past weeks of one invented group, planned by the program itself; what was managed is drawn
# with a fixed seed (scripts/make_demo_history.py). A row: version, step, then how many goes went how.
"""


def main() -> None:
    """Write one file per group."""
    for group in ("hall", "home", "mixed"):
        (FOLDER / f"history_{group}.yaml").write_text("weeks: []\n", encoding="utf-8")
    for group in ("hall", "home", "mixed"):
        weeks = list(_weeks(demo_caseload(TODAY), group))
        text = yaml.dump({"weeks": weeks}, sort_keys=False, default_flow_style=None, width=110)
        (FOLDER / f"history_{group}.yaml").write_text(HEAD + text, encoding="utf-8")


def _weeks(caseload: Caseload, group: str) -> Iterator[dict[str, Any]]:
    coming = next_meeting(caseload.group(group).weekday, TODAY)
    chance = random.Random(f"tamberwick {group}")
    for ago in WEEKS:
        row: dict[str, Any] = {"id": f"w{ago}", "weeks_ago": ago}
        if (group, ago) in CANCELLED:
            yield row | {"status": "cancelled"} | CANCELLED[group, ago]
            continue
        if (group, ago) in MOVED:
            yield row | {"status": "moved"} | MOVED[group, ago]
            row |= {"id": f"w{ago}-moved", "days_later": MOVED[group, ago]["moved_days"]}
        date = coming - dt.timedelta(weeks=ago, days=-row.get("days_later", 0))
        away = AWAY[group].get(ago, ())
        plan = plan_session(caseload, group=group, on=date, wishes=Wishes(away=away))
        played = tuple(dict.fromkeys(part.activity for part in plan.parts))
        yield row | _held(caseload, group, ago, plan, played, chance)
        held = Session(
            id=f"{group}-{row['id']}", group=group, date=date, status="held", activities=played
        )
        caseload = _a_little_further(caseload.with_session(held), ago)


def _held(
    caseload: Caseload,
    group: str,
    ago: int,
    plan: SessionPlan,
    played: tuple[str, ...],
    chance: random.Random,
) -> dict[str, Any]:
    away = plan.request.wishes.away
    blanks: list[dict[str, Any]] = [{"child": child, "kind": "absent"} for child in away]
    refused = _refused(group, ago, plan)
    if refused:
        blanks.append({"child": REFUSED[group, ago], "activity": refused, "kind": "refused"})
    trials: dict[str, dict[str, Any]] = {}
    for part in _counted(plan):
        for one in part.children:
            if (one.id, part.activity) == (REFUSED.get((group, ago)), refused):
                continue
            goes = _goes(caseload.child(one.id), one, part, 8 - ago, chance)
            if goes:
                trials.setdefault(one.id, {})[one.version] = goes
    start = dt.datetime.strptime(caseload.group(group).start, "%H:%M")
    began = start + dt.timedelta(minutes=chance.choice((0, 0, 2, 4)))
    ended = start + dt.timedelta(seconds=plan.request.seconds, minutes=chance.choice((-1, 2, 5)))
    row = {
        "status": "held",
        "began": f"{began:%H:%M}",
        "ended": f"{ended:%H:%M}",
        "activities": list(played),
        "blanks": blanks,
        "answers": ANSWERS.get((group, ago), []),
        "trials": {
            child: trials[child] for child in sorted(trials, key=lambda name: int(name[1:]))
        },
    }
    return {name: found for name, found in row.items() if found}


def _refused(group: str, ago: int, plan: SessionPlan) -> str | None:
    if (group, ago) not in REFUSED:
        return None
    return next(part.activity for part in plan.parts if part.part == "practice")


def _counted(plan: SessionPlan) -> Iterator[PartPlan]:
    """What she could keep count of: every game, but only the first station of a course."""
    stations = 0
    for part in plan.parts:
        if part.part == "course":
            stations += 1
        if part.part in PARTS_WITH_TRIALS and (part.part != "course" or stations == 1):
            yield part


def _goes(
    child: Child, one: ChildPlan, part: PartPlan, week: int, chance: random.Random
) -> dict[str, list[str]]:
    """Goes at one step, counted by what help they needed."""
    library = load_library()
    skill = library.skill_of(part.activity)
    version = library.find_version(one.version)
    if skill is None or version.step is None:
        return {}
    tries = min(MOST_COUNTED, one.amount * part.rounds // version.try_size)
    start = child.start_of(skill.id)
    place = skill.index_of(start) if start else 0
    now = skill.steps[place].difficulty + AT_START + A_WEEK * week
    gap = now + chance.gauss(0, 0.4) - skill.steps[skill.index_of(version.step)].difficulty
    counts: dict[str, int] = {}
    for _ in range(tries):
        went = _one_go(gap, chance)
        counts[went] = counts.get(went, 0) + 1
    order = ("alone", *LADDER, f"not_yet {LADDER[-1]}")
    rows = [f"{counts[went]} {went}" for went in order if went in counts]
    return {version.step: rows} if rows else {}


def _one_go(gap: float, chance: random.Random) -> str:
    drawn = chance.random()
    for step, help_given in enumerate(("alone", *LADDER)):
        if drawn < 1 / (1 + math.exp(-(gap + 0.9 * step))):
            return help_given
    return f"not_yet {LADDER[-1]}"


def _a_little_further(caseload: Caseload, ago: int) -> Caseload:
    """From half way on she asks a step more where a goal lies just above the start."""
    if ago != 4:
        return caseload
    return replace(caseload, children=tuple(_moved_up(child) for child in caseload.children))


def _moved_up(child: Child) -> Child:
    goals = {goal.skill: goal.step for goal in child.goals}
    starts = [
        Start(skill=start.skill, step=goals.get(start.skill, start.step)) for start in child.skills
    ]
    return replace(child, skills=tuple(starts))


if __name__ == "__main__":
    main()
