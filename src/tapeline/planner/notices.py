"""What she is told beside a plan: cautions, what was assumed, and what it does to the children."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.activities.values import planning_values
from tapeline.planner.board import Board
from tapeline.planner.given import Given, Slot
from tapeline.planner.held import held_units
from tapeline.planner.plan import PartPlan, Reason
from tapeline.planner.tries import tries_planned

Parts = tuple[PartPlan, ...]


def notices_of(given: Given, board: Board, parts: Parts) -> tuple[Reason, ...]:
    """All notices of a plan, in the order she reads them."""
    return tuple(notice for tell in NOTICES for notice in tell(given, board, parts))


def _assumed(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    """Homes and a room that are not on file, with the floor that was counted on."""
    for taking in given.taking:
        floor = {"length_cm": taking.here.length_cm, "width_cm": taking.here.width_cm}
        if taking.member.place != "room" and taking.child.home is None:
            yield Reason(code="home_not_on_file", values={"child": taking.child.id, **floor})
    room = next((taking.here for taking in given.taking if taking.member.place == "room"), None)
    if room is not None and given.caseload.room_of(given.group) is None:
        floor = {"length_cm": room.length_cm, "width_cm": room.width_cm}
        yield Reason(code="room_not_on_file", values={**floor})


def _many(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    """Many children for the adults in the room, and the longest that they wait."""
    many_each = int(planning_values()["adults"]["many_each"])
    if given.in_room <= many_each * given.request.adults:
        return
    waits_s, doing_s, activity = max(
        (_waiting(given, part, parts) for part in parts), default=(0, 0, None)
    )
    yield Reason(
        code="many_children",
        values={
            "children": given.in_room,
            "adults": given.request.adults,
            "activity": activity if waits_s else None,
            "doing_s": doing_s,
            "waits_s": waits_s,
        },
    )


def _waiting(given: Given, part: PartPlan, parts: Parts) -> tuple[int, int, str]:
    """Seconds that a child in the room waits and moves in a part, and what is played."""
    stations = sum(other.part == part.part for other in parts)
    slot = Slot(
        activity=given.library.activities[part.activity],
        part=part.part,
        practice_s=part.practice_s,
        stations=stations,
    )
    doing_s = round(part.practice_s * slot.share(given.in_room))
    return part.practice_s - doing_s, doing_s, part.activity


def _parts_left_out(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    """Parts of a session of this length that this one has not."""
    played = {part.part for part in parts}
    possible = {candidate.part for candidate in board.candidates}
    for shape in board.parts:
        if shape.part not in played:
            why = "time" if shape.part in possible else "nothing"
            yield Reason(code="part_left_out", values={"part": shape.part, "why": why})


def _seen_less(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    for child, skills in given.losing.items():
        for skill, stage in skills.items():
            values = {"child": child, "skill": skill, "stage": stage}
            yield Reason(code=_caution(given), values={**values})


def _caution(given: Given) -> str:
    """What the plan keeps for a child who seems to be losing a skill."""
    if given.allows_load:
        return "skill_seen_less_not_kept"
    return "skill_seen_less_step_not_kept" if given.allows_too_hard else "skill_seen_less"


def _hard_steps(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    if given.allows_too_hard:
        yield Reason(code="hard_steps")


def _let_go(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    """Children who were held until now and are let go, with an adult free for them."""
    by_id = {taking.child.id: taking for taking in given.taking}
    for part in parts:
        activity = given.library.activities[part.activity]
        skill = given.library.skill_of(part.activity)
        for row in part.children:
            taking = by_id.get(row.id)
            if skill is None or taking is None or row.place != "room":
                continue
            version = given.library.find_version(row.version)
            if held_units(given, taking, activity, skill, version):
                yield Reason(code="lets_go", values={"child": row.id, "activity": part.activity})


def _far(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    """Children far from the others who have the fewest tries all the same."""
    tries = _tries(given, parts)
    for child in sorted(given.far & tries.keys()):
        others = [count for name, count in tries.items() if name not in given.far]
        if others and tries[child] < min(others):
            yield Reason(code="far_child_has_least", values={"child": child})


def _tries(given: Given, parts: Parts) -> dict[str, int]:
    """Tries by child, 0 for one who has none."""
    tries = {row.id: 0 for part in parts for row in part.children}
    for row, _, count in tries_planned(parts, given.library):
        tries[row.id] += count
    return tries


def _spare(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    spare = given.request.seconds // 60 - sum(part.seconds for part in parts) // 60
    if spare:
        yield Reason(code="minutes_spare", values={"minutes": spare})


def _to_check(given: Given, board: Board, parts: Parts) -> Iterator[Reason]:
    flagged = {
        (child.id, flag) for part in parts for child in part.children for flag in child.flags
    }
    for child, rule in sorted(flagged):
        yield Reason(code="check_with", values={"child": child, "rule": rule})


NOTICES = (
    _assumed,
    _many,
    _parts_left_out,
    _seen_less,
    _hard_steps,
    _let_go,
    _far,
    _spare,
    _to_check,
)
