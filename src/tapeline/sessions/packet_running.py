"""Her running order: the session on one page, each child's version in its line."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from tapeline.documents.packet import Does, RunningOrder, RunPart
from tapeline.planner.plan import ChildPlan, PartPlan, Reason
from tapeline.planner.words import PART_NAMES, notices_in_words
from tapeline.sessions.packet_amounts import amount_in_words, thing_names
from tapeline.sessions.packet_basis import Basis
from tapeline.units import SECONDS_A_MINUTE, whole_minutes

PLACE_NAMES = {"room": "", "home": "live", "home_later": "recorded"}
NEED_NAMES = {"beside": "beside", "hands_on": "hands on"}
SHORT_REASONS = {
    "one_new_step": "next step up",
    "success_first": "known step",
    "easier_here": "easier step fits here",
    "first_look": "first look",
    "steady_step": "starting step",
}
VARIANTS_NOT_SAID = ("usual",)


def running_order(basis: Basis) -> RunningOrder:
    """The one page she runs the session from."""
    plan = basis.plan
    return RunningOrder(
        minutes=plan.request.seconds // SECONDS_A_MINUTE,
        strip=tuple((basis.tape(part), part.seconds) for part in plan.parts),
        who=tuple(basis.who(one.child.id, _place_tag(one.member.place)) for one in basis.taking),
        adults=plan.request.adults if basis.at("room") else 0,
        notes=_notes(basis),
        parts=tuple(_run_part(part, basis) for part in plan.parts),
    )


def _place_tag(place: str) -> tuple[str, ...]:
    return (PLACE_NAMES[place],) if PLACE_NAMES[place] else ()


def _notes(basis: Basis) -> tuple[str, ...]:
    plan = basis.plan
    other = (notice for notice in plan.notices if notice.code != "check_with")
    notes = list(notices_in_words(other, basis.names))
    notes += _goals_without_room(basis)
    away = [basis.names.child(child) for child in plan.request.wishes.away]
    if away:
        notes.append(f"Away today: {', '.join(away)}.")
    return tuple(note for note in notes if note)


def _goals_without_room(basis: Basis) -> list[str]:
    """The goals this session does not serve, one sentence for each day they come back."""
    by_day: dict[dt.date | None, list[str]] = {}
    for dropped in basis.plan.dropped:
        goal = basis.names.goal(dropped.child, dropped.goal)
        by_day.setdefault(dropped.back, []).append(f"{basis.names.child(dropped.child)}, {goal}")
    return [
        f"No room today for: {'; '.join(goals)}."
        + (f" Back from {back.day} {back:%B}." if back else "")
        for back, goals in by_day.items()
    ]


def _run_part(part: PartPlan, basis: Basis) -> RunPart:
    activity = basis.activity(part)
    starts = dt.datetime.strptime(basis.group.start, "%H:%M") + dt.timedelta(seconds=part.start_s)
    rounds = f", {part.rounds} rounds" if part.rounds > 1 else ""
    things = {row.things for row in part.children}
    return RunPart(
        clock=f"{starts:%H:%M}",
        minute=whole_minutes(part.start_s),
        minutes=whole_minutes(part.start_s + part.seconds) - whole_minutes(part.start_s),
        part=PART_NAMES[part.part].capitalize() + rounds,
        activity=activity.name,
        tape=basis.tape(part),
        lead=activity.lead,
        adults=_adults(part, basis),
        things=thing_names(next(iter(things)), basis.library, "en") if len(things) == 1 else "",
        does=_groups(part, basis, say_things=len(things) > 1),
    )


def _adults(part: PartPlan, basis: Basis) -> str:
    """Which children in the room need an adult close, by how close."""
    said = []
    for need, words in NEED_NAMES.items():
        names = [
            basis.names.child(row.id)
            for row in part.children
            if row.place == "room" and basis.version(row).adult_need == need
        ]
        if names:
            said.append(f"Adult {words}: {', '.join(names)}.")
    return " ".join(said)


def _groups(part: PartPlan, basis: Basis, *, say_things: bool) -> tuple[Does, ...]:
    """Children who do the same version with the same things in the same place, together."""
    groups: dict[tuple[object, ...], list[ChildPlan]] = {}
    for row in part.children:
        groups.setdefault((row.version, row.things, row.place), []).append(row)
    return tuple(_does(rows, basis, say_things) for rows in groups.values())


def _does(rows: list[ChildPlan], basis: Basis, say_things: bool) -> Does:
    first = rows[0]
    version = basis.version(first)
    variant = version.variant.replace("_", " ")
    said = "" if version.variant in VARIANTS_NOT_SAID else f" ({variant})"
    return Does(
        who=tuple(basis.who(row.id, _tags(row)) for row in rows),
        what=f"{version.do.rstrip('.')}{said}",
        amount=_amounts(rows, basis),
        things=thing_names(first.things, basis.library, "en") if say_things else "",
        why=_whys(rows),
        where=PLACE_NAMES[first.place],
    )


def _amounts(rows: list[ChildPlan], basis: Basis) -> str:
    """How many most of these children do, then by name who does another number."""
    said = {
        row.id: amount_in_words(row.amount, row.unit, lengths=basis.therapist.lengths)
        for row in rows
    }
    usual = max(said.values(), key=list(said.values()).count)
    others = [
        f"{basis.names.child(child)} {amount}" for child, amount in said.items() if amount != usual
    ]
    return ", ".join([usual, *others])


def _tags(row: ChildPlan) -> tuple[str, ...]:
    return (("New",) if row.new else ()) + (("Check",) if row.flags else ())


def _whys(rows: Iterable[ChildPlan]) -> str:
    """The short reasons of a line, each once, with the span of their chances."""
    chances: dict[str, list[int]] = {}
    for row in rows:
        short = _why(row.reason)
        if short:
            chance = row.reason.values.get("chance_in_ten")
            chances.setdefault(short, []).extend([int(chance)] if chance else [])
    said = [f"{short}{_in_ten(found)}" for short, found in chances.items()]
    return "; ".join(said).capitalize()


def _why(reason: Reason) -> str:
    short = SHORT_REASONS.get(reason.code, "")
    return f"own goal, {short}" if short and reason.values.get("goal") else short


def _in_ten(chances: list[int]) -> str:
    if not chances:
        return ""
    low, high = min(chances), max(chances)
    return f", {low} in 10" if low == high else f", {low} to {high} in 10"
