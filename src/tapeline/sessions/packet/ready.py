"""What to have ready in the room and at each home, and what to check before this session."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from tapeline.activities.emergencies import load_emergencies
from tapeline.activities.models import Need
from tapeline.activities.rules import Rule
from tapeline.activities.shipped import shipped_yaml
from tapeline.documents.packet import Check, HomeList, Ready, ReadyThing
from tapeline.planner.places import Taking, at_it_at_once
from tapeline.planner.plan import ChildPlan, PartPlan
from tapeline.sessions.packet.amounts import thing_name
from tapeline.sessions.packet.basis import Basis, row_of

NOBODY = "look round the home first"
PLACES = {"home": "live", "home_later": "recorded"}


def what_to_have_ready(basis: Basis) -> Ready:
    """Room list, a list per home, today's checks and the official cautions."""
    rows = [row for part in basis.plan.parts for row in part.children]
    staff = shipped_yaml("safety/emergency.yaml")["staff"]
    return Ready(
        room=_room_list(basis),
        homes=tuple(_home_list(one, basis) for one in basis.at("home", "home_later")),
        checks=_checks(basis),
        cautions=basis.cautions_for(rows),
        before_start=tuple(said.en for said in load_emergencies().before_start),
        staff=tuple(row["en"] for row in staff),
    )


def things_of(child_id: str, basis: Basis) -> dict[str, int]:
    """The things one child at home uses in the whole session, and how many of each at once."""
    counts: dict[str, int] = {}
    for part in basis.plan.parts:
        row = row_of(part, child_id)
        if row is None:
            continue
        needs = basis.version(row).things
        for need, thing in zip(needs, row.things, strict=True):
            counts[thing] = max(counts.get(thing, 0), need.count)
    return counts


def said_count(count: int, name: str) -> str:
    """A thing with its number, where it is more than one."""
    return name if count == 1 else f"{name} × {count}"


def _home_list(one: Taking, basis: Basis) -> HomeList:
    counts = things_of(one.child.id, basis)
    return HomeList(
        who=basis.who(one.child.id),
        place=PLACES[one.member.place],
        things=tuple(
            said_count(count, thing_name(thing, basis.library, "en"))
            for thing, count in counts.items()
        ),
    )


def _room_list(basis: Basis) -> tuple[ReadyThing, ...]:
    """Each thing once: parts one after another share it, stations side by side do not."""
    needed: dict[str, int] = {}
    side_by_side: dict[str, int] = {}
    used: dict[str, list[str]] = {}
    for part in basis.plan.parts:
        for thing, count in _things_in_room(part, basis).items():
            if part.part == "course":
                side_by_side[thing] = side_by_side.get(thing, 0) + count
                count = side_by_side[thing]
            needed[thing] = max(needed.get(thing, 0), count)
            used.setdefault(thing, []).append(basis.activity(part).name)
    return tuple(
        ReadyThing(
            name=thing_name(thing, basis.library, "en"),
            count=str(count),
            used_for=", ".join(dict.fromkeys(used[thing])),
            note=basis.library.materials[thing].note,
        )
        for thing, count in needed.items()
    )


def _things_in_room(part: PartPlan, basis: Basis) -> dict[str, int]:
    rows = [row for row in part.children if row.place == "room"]
    stations = sum(1 for other in basis.plan.parts if other.part == "course")
    sharing = ceil(len(rows) / stations) if part.part == "course" and stations else len(rows)
    at_once = at_it_at_once(basis.activity(part).lanes, sharing)
    each: dict[str, list[int]] = {}
    fixed: dict[str, int] = {}
    for need, thing in _served(rows, basis):
        if need.each:
            each.setdefault(thing, []).append(need.count)
        else:
            fixed[thing] = max(fixed.get(thing, 0), need.count)
    wanted = {thing: sum(sorted(counts)[-at_once:]) for thing, counts in each.items()}
    return {
        thing: wanted.get(thing, 0) + fixed.get(thing, 0)
        for thing in dict.fromkeys((*wanted, *fixed))
    }


def _served(rows: Iterable[ChildPlan], basis: Basis) -> list[tuple[Need, str]]:
    return [
        (need, thing)
        for row in rows
        for need, thing in zip(basis.version(row).things, row.things, strict=True)
    ]


def _checks(basis: Basis) -> tuple[Check, ...]:
    """The flags of the plan by rule: whose, what, with whom, at which activities."""
    rules = {rule.id: rule for rule in basis.book.rules}
    found: dict[str, tuple[list[str], list[str]]] = {}
    for part in basis.plan.parts:
        for row in part.children:
            for flag in row.flags:
                children, activities = found.setdefault(flag, ([], []))
                children.append(row.id)
                activities.append(basis.activity(part).name)
    return tuple(
        Check(
            who=tuple(basis.who(child) for child in dict.fromkeys(children)),
            sentence=rules[flag].sentence,
            check_with=check_with(rules[flag], basis),
            activities=", ".join(dict.fromkeys(activities)),
        )
        for flag, (children, activities) in found.items()
        if flag in rules
    )


def check_with(rule: Rule, basis: Basis) -> str:
    """Whom to check a rule with; a rule by age has nobody to ask."""
    if rule.precaution is None:
        return NOBODY
    return basis.book.precautions[rule.precaution].check_with
