"""Her running order: the session on one page, each child's version in its line."""

from __future__ import annotations

import datetime as dt

from tapeline.activities.models import PARTS_WITH_TRIALS
from tapeline.documents.packet import Does, RunningOrder, RunPart
from tapeline.planner.plan import ChildPlan, PartPlan
from tapeline.planner.words import PART_NAMES, notices_in_words
from tapeline.sessions.packet.amounts import amount_in_words, minutes_of, thing_names
from tapeline.sessions.packet.basis import Basis
from tapeline.units import SECONDS_A_MINUTE, whole_minutes

PLACE_NAMES = {"room": "", "home": "live", "home_later": "recorded"}
NEED_NAMES = {"beside": "beside", "hands_on": "hands on"}
TAG_OF_REASON = {"first_look": "First", "easier_here": "Easier"}
KEY = {
    "Goal": "own goal",
    "New": "next step up",
    "First": "first look, no starting step given",
    "Easier": "one step easier fits here",
    "Check": "see the next page",
}
VARIANTS_NOT_SAID = ("usual",)


def running_order(basis: Basis) -> RunningOrder:
    """The one page she runs the session from."""
    plan = basis.plan
    parts = tuple(_run_part(part, basis) for part in plan.parts)
    return RunningOrder(
        minutes=plan.request.seconds // SECONDS_A_MINUTE,
        strip=tuple((basis.tape(part), part.seconds) for part in plan.parts),
        who=tuple(basis.who(one.child.id, _place_tag(one.member.place)) for one in basis.taking),
        adults=plan.request.adults if basis.at("room") else 0,
        key=_key(parts),
        notes=_notes(basis),
        parts=parts,
    )


def _place_tag(place: str) -> tuple[str, ...]:
    return (PLACE_NAMES[place],) if PLACE_NAMES[place] else ()


def _key(parts: tuple[RunPart, ...]) -> str:
    """What the tags and the numbers on this page mean; only those that stand on it."""
    who = [one for part in parts for does in part.does for one in does.who]
    used = {tag for one in who for tag in one.tags}
    said = [f"{tag}: {meaning}." for tag, meaning in KEY.items() if tag in used]
    if any(one.chance for one in who):
        said.insert(0, "8/10: likely to manage 8 of 10 alone.")
    return " ".join(said)


def _notes(basis: Basis) -> tuple[str, ...]:
    plan = basis.plan
    other = (notice for notice in plan.notices if notice.code != "check_with")
    notes = list(notices_in_words(other, basis.names))
    notes += _goals_without_room(basis)
    away = [basis.names.child(child) for child in plan.away]
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
    shared = _shared_things(part)
    return RunPart(
        clock=f"{starts:%H:%M}",
        minute=whole_minutes(part.start_s),
        minutes=minutes_of(part),
        part=PART_NAMES[part.part].capitalize() + rounds,
        activity=activity.name,
        tape=basis.tape(part),
        lead="" if _has_wall_card(part) else activity.lead,
        adults=_adults(part, basis),
        things=thing_names(shared, basis.library, "en"),
        does=_groups(part, basis, shared),
    )


def _has_wall_card(part: PartPlan) -> bool:
    """Whether a card in the room says what to do, so that this page need not."""
    return part.part in PARTS_WITH_TRIALS and any(row.place == "room" for row in part.children)


def _shared_things(part: PartPlan) -> tuple[str, ...]:
    """The things that every child in the room uses in a part."""
    rows = [row for row in part.children if row.place == "room"]
    if not rows:
        return ()
    return tuple(
        thing for thing in dict.fromkeys(rows[0].things) if all(thing in row.things for row in rows)
    )


def _adults(part: PartPlan, basis: Basis) -> str:
    """Which children in the room need an adult close, by how close."""
    said = []
    in_room = sum(1 for row in part.children if row.place == "room")
    for need, words in NEED_NAMES.items():
        names = [
            basis.names.child(row.id)
            for row in part.children
            if row.place == "room" and basis.version(row).adult_need == need
        ]
        if names:
            whom = "all" if len(names) == in_room and in_room > 1 else ", ".join(names)
            said.append(f"Adult {words}: {whom}.")
    return " ".join(said)


def _groups(part: PartPlan, basis: Basis, shared: tuple[str, ...]) -> tuple[Does, ...]:
    """Children who do the same version with the same own things, together."""
    groups: dict[tuple[object, ...], list[ChildPlan]] = {}
    for row in part.children:
        groups.setdefault((row.version, _own_things(row, shared)), []).append(row)
    return tuple(_does(part, rows, own, basis) for (_, own), rows in groups.items())


def _own_things(row: ChildPlan, shared: tuple[str, ...]) -> tuple[str, ...]:
    """What a child in the room uses that the others do not; a home has a list of its own."""
    if row.place != "room":
        return ()
    return tuple(thing for thing in dict.fromkeys(row.things) if thing not in shared)


def _does(part: PartPlan, rows: list[ChildPlan], own: object, basis: Basis) -> Does:
    version = basis.version(rows[0])
    who = tuple(
        basis.who(row.id, _tags(row), chance=int(row.reason.values.get("chance_in_ten") or 0))
        for row in rows
    )
    variant = version.variant.replace("_", " ")
    said = "" if version.variant in VARIANTS_NOT_SAID else f" ({variant})"
    return Does(
        who=who,
        is_all=1 < len(rows) == len(basis.taking) and not any(w.tags or w.chance for w in who),
        what=f"{version.do.rstrip('.')}{said}",
        amount=_amounts(part, rows, basis),
        things=thing_names(own, basis.library, "en") if isinstance(own, tuple) else "",
    )


def _amounts(part: PartPlan, rows: list[ChildPlan], basis: Basis) -> str:
    """How many most of these children do, then by name who does another number.

    A part without tries has its minutes in the first column.
    """
    if part.part not in PARTS_WITH_TRIALS:
        return ""
    amounts = [row.amount for row in rows]
    usual = max(amounts, key=amounts.count)
    said = amount_in_words(usual, rows[0].unit, lengths=basis.therapist.lengths)
    if part.rounds > 1:
        said = f"{part.rounds} × {said}"
    others = [f"{basis.names.child(row.id)} {row.amount}" for row in rows if row.amount != usual]
    return f"{said} ({', '.join(others)})" if others else said


def _tags(row: ChildPlan) -> tuple[str, ...]:
    """Own goal, new, why another step than her own, and whether something is to be checked."""
    reason = TAG_OF_REASON.get(row.reason.code)
    return (
        *(("Goal",) if row.reason.values.get("goal") else ()),
        *(("New",) if row.new else ()),
        *((reason,) if reason else ()),
        *(("Check",) if row.flags else ()),
    )
