"""A story as a therapist writes it, told: the caseload it speaks of, and what planning answers."""

from __future__ import annotations

import copy
import datetime as dt
import json
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import yaml

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, parse_caseload
from tapeline.checking import check_plan
from tapeline.errors import TapelineError
from tapeline.planner.plan import Amount, Lock, SessionPlan, Wishes, plan_as_data
from tapeline.sessions.prepare import plan_session

Told = dict[str, Any]
DAY = dt.date(2026, 12, 1)  # a Tuesday
PLACES = {"in_the_room": "room", "at_home": "home", "recorded": "home_later"}
HERE = Path(__file__).parent
TOWN = yaml.safe_load((HERE / "town.yaml").read_text(encoding="utf-8"))


@dataclass(frozen=True, kw_only=True)
class Telling:
    """A story's caseload and what came of it: a plan, or the refusal."""

    caseload: Caseload
    plan: SessionPlan | None
    refusal: TapelineError | None
    after: Caseload

    @cached_property
    def faults(self) -> list[str]:
        """What the independent checker finds in the plan, against what is on file."""
        return self._faults_against(self.caseload)

    @cached_property
    def faults_after(self) -> list[str]:
        """The same against what is on file after the change that the story tells."""
        return self._faults_against(self.after)

    def _faults_against(self, caseload: Caseload) -> list[str]:
        if self.plan is None:
            return [f"There is no plan: {self.refusal}"]
        found = check_plan(plan_as_data(self.plan), json.loads(caseload_json(caseload)))
        return [fault.sentence for fault in found]


def tell(story: Told) -> Telling:
    """Plan the story's session."""
    caseload = caseload_of(story, story.get("but", {}))
    after = caseload_of(story, _merged(story.get("but", {}), story.get("then", {})))
    try:
        plan = plan_session(
            caseload, group="group", on=DAY, wishes=_wishes(story), adults=story.get("adults_today")
        )
    except TapelineError as refusal:
        return Telling(caseload=caseload, plan=None, refusal=refusal, after=after)
    return Telling(caseload=caseload, plan=plan, refusal=None, after=after)


def caseload_of(story: Told, changes: Told) -> Caseload:
    """The people of the town who are in the story, with what differs that day."""
    town = _merged({key: TOWN[key] for key in ("children", "homes", "rooms")}, changes)
    members = _members(story["who"])
    named = [member["child"] for member in members]
    children = {name: town["children"][name] for name in named}
    for number in range(len(named), story["who"].get("until_there_are", 0)):
        name = named[number % len(named)]
        members.append({**members[number % len(named)], "child": f"{name}{number}"})
        children[f"{name}{number}"] = town["children"][name]
    homes = {child["home"] for child in children.values() if child.get("home")}
    content = {
        "format": 1,
        "children": [_child(name, told) for name, told in children.items()],
        "homes": [{"id": name, **_with_things(town["homes"][name])} for name in sorted(homes)],
        "groups": [_group(story, members)],
        **changes.get("caseload", {}),
    }
    if "where" in story:
        room = {"id": "room", **_with_things(town["rooms"][story["where"]])}
        content["sites"] = [{"id": "site", "name": "Tamberwick", "rooms": [room]}]
    return parse_caseload(json.dumps(content, default=str), name=story["story"])


def _merged(below: Told, above: Told) -> Told:
    """What lies above wins; within a table, line by line."""
    whole = copy.deepcopy(below)
    for key, value in above.items():
        both = isinstance(value, dict) and isinstance(whole.get(key), dict)
        whole[key] = _merged(whole[key], value) if both else copy.deepcopy(value)
    return whole


def _members(who: Told) -> list[Told]:
    return [
        {"child": name, "place": place}
        for words, place in PLACES.items()
        for name in who.get(words, [])
    ]


def _group(story: Told, members: list[Told]) -> Told:
    group = {
        "id": "group",
        "name": "Tuesday group",
        "weekday": "tuesday",
        "start": "14:10",
        "minutes": story.get("minutes", 45),
        "adults": story.get("adults", 2),
        "members": members,
    }
    return group | ({"site": "site", "room": "room"} if "where" in story else {})


def _child(name: str, told: Told) -> Told:
    child = {key: value for key, value in told.items() if key != "months"}
    year, month = divmod(DAY.year * 12 + DAY.month - 1 - told["months"], 12)
    child.update(id=name, name=name.capitalize(), born=f"{year}-{month + 1:02d}")
    child["skills"] = [
        {"skill": skill, "step": f"{skill}.{step}"}
        for skill, step in told.get("skills", {}).items()
    ]
    child["goals"] = [_goal(number, one) for number, one in enumerate(told.get("goals", []), 1)]
    return child


def _goal(number: int, told: str | Told) -> Told:
    given = {"step": told} if isinstance(told, str) else told
    step = given["step"]
    usual = {"id": f"goal{number}", "name": f"Goal {step}", "skill": step.split(".")[0]}
    return {**usual, "k": 4, "n": 5, **given}


def _with_things(place: Told) -> Told:
    things = [
        {"material": one} if isinstance(one, str) else _thing(one)
        for one in place.get("things", [])
    ]
    return {**place, "things": things}


def _thing(told: Told) -> Told:
    if "material" in told:
        return told
    [(material, count)] = told.items()
    return {"material": material, "count": count}


def _wishes(story: Told) -> Wishes:
    wish = story.get("wish", {})
    return Wishes(
        locked=tuple(_lock(one) for one in wish.get("lock", [])),
        left_out=tuple(wish.get("leave_out", [])),
        amounts=tuple(Amount(**one) for one in wish.get("amounts", [])),
        away=tuple(wish.get("away", [])),
        any_skill=tuple(wish.get("any_skill", [])),
    )


def _lock(told: str | Told) -> Lock:
    return Lock(activity=told) if isinstance(told, str) else Lock(**told)
