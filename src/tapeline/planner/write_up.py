"""From a choice to the plan that is handed over."""

from __future__ import annotations

import datetime as dt

from tapeline import __version__
from tapeline.activities.models import PartName
from tapeline.caseload.caseload import fingerprint, fingerprints_of
from tapeline.caseload.own_library import texts_of
from tapeline.planner.board import Board, BoardChild, Option
from tapeline.planner.given import Given
from tapeline.planner.let_go import would_be_let_go
from tapeline.planner.notices import notices_of
from tapeline.planner.plan import (
    Binding,
    Bound,
    ChildPlan,
    Dropped,
    MadeFrom,
    PartPlan,
    Reason,
    SessionPlan,
    Swap,
    Value,
)
from tapeline.planner.prune import spread
from tapeline.planner.solve import Choice, Chosen
from tapeline.planner.turns import order_of_turns, takes_turns


def write_up(given: Given, board: Board, choice: Choice, swaps: tuple[Swap, ...]) -> SessionPlan:
    """The plan with its parts in order, what was dropped, what binds, and how good it is."""
    parts = parts_in_order(board, choice)
    return SessionPlan(
        program=f"tapeline {__version__}",
        made_from=_made_from(given, parts),
        request=given.request,
        parts=parts,
        dropped=_dropped(given, board, parts),
        binding=_binding(board),
        swaps=swaps,
        bound=Bound(
            status="proved" if choice.proved else "good",
            gap=gap_of(choice),
            number=choice.number,
        ),
        notices=notices_of(given, board, parts),
    )


def parts_in_order(board: Board, choice: Choice) -> tuple[PartPlan, ...]:
    """Parts one after the other from second 0; a course as its stations, side by side.

    Children stand in the order of their turns.
    """
    found: list[PartPlan] = []
    start_s = turns = 0
    used = {one.candidate.part: one.level.minutes for one in choice.chosen}
    minutes = spread(board.minutes, board.parts, used)
    for shape in board.parts:
        chosen = [one for one in choice.chosen if one.candidate.part == shape.part]
        pieces = _pieces(chosen, minutes.get(shape.part, 0))
        for one, seconds, explain_s, setup_s, change_s in pieces:
            children = order_of_turns(board, one.candidate, before=turns)
            turns += takes_turns(board, one.candidate)
            found.append(
                _part(board, one, children, start_s, seconds, explain_s, setup_s, change_s)
            )
            start_s += seconds
    return tuple(found)


Piece = tuple[Chosen, int, int, int, int]


def _pieces(chosen: list[Chosen], minutes: int) -> list[Piece]:
    """A part as one piece, a course as one piece per station of the same practice time."""
    if not chosen:
        return []
    level = chosen[0].level
    setup_s = level.setup_s
    each = (60 * minutes - level.explain_s - level.change_s) // len(chosen)
    talk_s = 60 * minutes - level.change_s - each * len(chosen)
    last = len(chosen) - 1
    pieces = []
    for place, one in enumerate(_families_apart(chosen)):
        before = talk_s if place == 0 else 0
        after = level.change_s if place == last else 0
        pieces.append((one, each + before + after, before, setup_s, after))
    return pieces


def _families_apart(chosen: list[Chosen]) -> list[Chosen]:
    """Stations so that neighbours are of different families where that can be."""
    left = list(chosen)
    ordered = [left.pop(0)]
    while left:
        other = next(
            (one for one in left if one.candidate.family != ordered[-1].candidate.family), left[0]
        )
        left.remove(other)
        ordered.append(other)
    return ordered


def _part(
    board: Board,
    one: Chosen,
    children: tuple[BoardChild, ...],
    start_s: int,
    seconds: int,
    explain_s: int,
    setup_s: int,
    change_s: int,
) -> PartPlan:
    return PartPlan(
        part=one.candidate.part,
        activity=one.candidate.activity,
        start_s=start_s,
        seconds=seconds,
        explain_s=explain_s,
        setup_s=setup_s,
        change_s=change_s,
        rounds=one.level.rounds,
        children=tuple(
            ChildPlan(
                id=child.id,
                place=child.place,
                version=option.version,
                amount=_amount(board, one, child, option),
                unit=option.unit,
                new=option.new,
                reason=option.reason,
                things=option.things,
                flags=option.flags,
            )
            for child in children
            for option in (one.options[child.id],)
        ),
    )


def _amount(board: Board, one: Chosen, child: BoardChild, option: Option) -> int:
    """The option's amount; a part without a skill goes at the pace of the slowest in the room."""
    if one.candidate.skill or child.place != "room":
        return option.amount
    return min(
        one.options[mate].amount for mate in board.in_room if one.options[mate].unit == option.unit
    )


def _made_from(given: Given, parts: tuple[PartPlan, ...]) -> MadeFrom:
    room = given.caseload.room_of(given.group)
    return MadeFrom(
        library=given.library.version,
        rules=given.book.date,
        children={
            taking.child.id: fingerprints_of(given.caseload, taking.child)
            for taking in given.taking
        },
        place=fingerprint([given.group, room]),
        texts=texts_of((part.activity for part in parts), given.library),
    )


def _dropped(given: Given, board: Board, parts: tuple[PartPlan, ...]) -> tuple[Dropped, ...]:
    """Goals whose skill is nowhere in the session, to come back a week later."""
    played = {given.library.activities[part.activity].skill for part in parts}
    back = given.request.date + dt.timedelta(days=7)
    return tuple(
        Dropped(
            child=taking.child.id,
            goal=goal.id,
            reason=_why_dropped(board, goal.skill, {part.part for part in parts}),
            back=back,
        )
        for taking in given.taking
        for goal in taking.child.goals
        if goal.skill not in played
    )


def _why_dropped(board: Board, skill: str, played: set[PartName]) -> Reason:
    """No game of the skill for everybody, or no room; then the part it could have been in."""
    possible = {candidate.part for candidate in board.candidates if candidate.skill == skill}
    missing = [shape.part for shape in board.parts if shape.part in possible - played]
    values: dict[str, Value] = {"skill": skill}
    if missing:
        values["part"] = missing[0]
    return Reason(code="no_room_today" if possible else "not_for_all", values=values)


def _binding(board: Board) -> tuple[Binding, ...]:
    """Rules that took an activity away from everybody because of one child, by rule."""
    by_rule: dict[str, tuple[set[str], set[str]]] = {}
    for hindrance in board.hindrances:
        for rule in hindrance.rules[:1]:
            children, activities = by_rule.setdefault(rule, (set(), set()))
            children.update({hindrance.child} - {""})
            activities.add(hindrance.activity)
    for candidate in board.candidates:
        if let_go := would_be_let_go(board, candidate):
            children, activities = by_rule.setdefault("held", (set(), set()))
            children.update(let_go)
            activities.add(candidate.activity)
    return tuple(
        Binding(rule=rule, children=tuple(sorted(children)), activities=tuple(sorted(activities)))
        for rule, (children, activities) in sorted(by_rule.items())
    )


def gap_of(choice: Choice) -> float:
    """What share of the most that is possible a choice falls short of; 1 while nothing is known."""
    if choice.at_most is None:
        return 1.0
    if choice.at_most <= 0:
        return 0.0
    return round(max(0, choice.at_most - choice.worth) / choice.at_most, 4)
