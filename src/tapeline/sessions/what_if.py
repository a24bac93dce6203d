"""What would change a part of a plan, or what one child does in it.

Each change is made to what the session was planned from, and the part is solved anew with all
other parts as they are; nothing is guessed. What is held back now is read from the same rules.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tapeline.activities.models import Version
from tapeline.caseload.caseload import Caseload
from tapeline.planner.board import Board
from tapeline.planner.given import Given
from tapeline.planner.lay_out import lay_out
from tapeline.planner.plan import PartPlan, SessionPlan
from tapeline.planner.solve import WORK_FOR_A_SWAP, Choice, choose
from tapeline.planner.words import Names
from tapeline.sessions.prepare import given_for, names_for
from tapeline.sessions.what_if_changes import NO_CHANGE, Change, blocked, changes_worth_trying

WORTH_SAYING = 0.005
SHOWN = 4


@dataclass(frozen=True, kw_only=True)
class WhatIf:
    """What was tried, and what came of it here; `outcome` is empty where nothing did."""

    change: str
    outcome: str = ""


@dataclass(frozen=True, kw_only=True)
class Asked:
    """A part of a plan, or one child in it, beside what the plan was made from."""

    plan: SessionPlan
    place: int
    child: str | None
    given: Given
    board: Board
    names: Names

    @property
    def part(self) -> PartPlan:
        """The part that is asked about."""
        return self.plan.parts[self.place]


def asked_about(
    caseload: Caseload, plan: SessionPlan, *, place: int, child: str | None = None
) -> Asked:
    """The question; a child who is not in the part asks about the whole part."""
    given = _given(caseload, plan)
    rows = {row.id for row in plan.parts[place].children}
    return Asked(
        plan=plan,
        place=place,
        child=child if child in rows else None,
        given=given,
        board=lay_out(given),
        names=names_for(caseload, given.library, given.book),
    )


def held_back(asked: Asked) -> tuple[str, ...]:
    """What the rules keep from being here now, a sentence for each rule."""
    if asked.child is None:
        return tuple(_held_in_part(asked))
    return tuple(_held_for_child(asked))


def what_would_change(asked: Asked) -> Iterator[WhatIf]:
    """Each change worth trying, solved one after the other.

    Where the plan itself leaves something better here, that comes first: it was taken early,
    or something changed since it was made.
    """
    now = _solved(asked, asked.board)
    if now is None:
        return
    if asked.child is None and _here(asked, now) != (asked.part.activity,):
        yield WhatIf(change="With everything as it is", outcome=_others(asked, now))
    for change in changes_worth_trying(asked.given, asked.plan, asked.place, asked.child):
        tried = _solved(asked, _laid_out(asked, _given(asked.given.caseload, asked.plan, change)))
        if tried is None:
            yield WhatIf(
                change=change.words, outcome="no session fits with the other parts as they are."
            )
        else:
            yield WhatIf(change=change.words, outcome=_outcome(asked, now, tried))


def _given(caseload: Caseload, plan: SessionPlan, change: Change = NO_CHANGE) -> Given:
    """What a plan was made from, with a change."""
    request = plan.request
    given = given_for(
        change.caseload or caseload,
        group=request.group,
        on=request.date,
        wishes=change.wishes or request.wishes,
        adults=request.adults if change.adults is None else change.adults,
    )
    seconds = request.seconds + 60 * change.more_minutes
    return replace(given, request=replace(given.request, seconds=seconds))


def _laid_out(asked: Asked, given: Given) -> Board:
    """The board with the games of the plan, and those that this part may have, alone."""
    wanted = {part.activity for part in asked.plan.parts}
    if asked.child is None:
        wanted |= {
            one.id for one in given.library.activities.values() if asked.part.part in one.uses
        }
    wishes = given.request.wishes
    others = {*given.library.activities} - wanted | {*wishes.left_out}
    narrow = replace(wishes, left_out=tuple(sorted(others)))
    board = lay_out(replace(given, request=replace(given.request, wishes=narrow)))
    floors = {one.id: one for one in asked.board.children}
    return replace(
        board,
        request=given.request,
        children=tuple(floors.get(one.id, one) for one in board.children),
    )


def _solved(asked: Asked, board: Board) -> Choice | None:
    """The best choice for this part, the others staying; for a child, this game stays too."""
    part = asked.part
    stay = frozenset(
        (other.part, other.activity)
        for other in asked.plan.parts
        if asked.child is not None or other.activity != part.activity
    )
    candidates = tuple(
        one
        for one in board.candidates
        if (one.part, one.activity) in stay or (asked.child is None and one.part == part.part)
    )
    if not stay <= {(one.part, one.activity) for one in candidates}:
        return None
    return choose(replace(board, candidates=candidates), fixed=stay, work=WORK_FOR_A_SWAP)


def _here(asked: Asked, choice: Choice) -> tuple[str, ...]:
    others = {part.activity for part in asked.plan.parts} - {asked.part.activity}
    return tuple(
        one.candidate.activity
        for one in choice.chosen
        if one.candidate.part == asked.part.part and one.candidate.activity not in others
    )


def _outcome(asked: Asked, now: Choice, tried: Choice) -> str:
    if asked.child is not None:
        return _version_of(asked, tried) if _row(asked, tried) != _row(asked, now) else ""
    if _here(asked, tried) == _here(asked, now):
        return ""
    return _others(asked, tried) + _gain(now, tried)


def _others(asked: Asked, choice: Choice) -> str:
    here = _here(asked, choice)
    if not here:
        return f"this part would be left out, {asked.names.activity(asked.part.activity)} with it."
    named = " and ".join(asked.names.activity(one) for one in here)
    if asked.part.activity in here:
        return f"{named}."
    return f"{named} in place of {asked.names.activity(asked.part.activity)}."


def _gain(now: Choice, tried: Choice) -> str:
    share = tried.worth / max(1, now.worth) - 1
    if abs(share) < WORTH_SAYING:
        return ""
    more = "more" if share > 0 else "less"
    return f" The group would have {abs(share):.0%} {more} from the session.".replace("%", " %")


def _row(asked: Asked, choice: Choice) -> tuple[str, int]:
    for one in choice.chosen:
        if one.candidate.activity == asked.part.activity and asked.child in one.options:
            option = one.options[asked.child]
            return option.version, option.amount * one.level.rounds
    return "", 0


def _version_of(asked: Asked, choice: Choice) -> str:
    version, amount = _row(asked, choice)
    if not version:
        return "the child would not be in it."
    found = asked.names.library.find_version(version)
    return f"{found.do} {amount} {found.unit}."


def _held_in_part(asked: Asked) -> Iterator[str]:
    by_rule: dict[tuple[str, str], list[str]] = {}
    for one in asked.board.hindrances:
        if one.part == asked.part.part and one.rules:
            by_rule.setdefault((one.rules[0], one.child), []).append(one.activity)
    for (rule, child), activities in sorted(by_rule.items()):
        whose = f" ({asked.names.child(child)})" if child else ""
        yield f"{_capital(asked.names.rule(rule))}{whose}: {_list(activities, asked)}."


def _held_for_child(asked: Asked) -> Iterator[str]:
    found = blocked(asked.given, asked.plan, asked.place, asked.child)
    by_rule: dict[str, list[Version]] = {}
    for version, rules in {version.id: (version, rules) for _, version, rules in found}.values():
        by_rule.setdefault(rules[0], []).append(version)
    for rule, versions in by_rule.items():
        yield f"{_capital(asked.names.rule(rule))}: {' '.join(one.do for one in versions[:SHOWN])}"


def _list(activities: list[str], asked: Asked) -> str:
    named = [asked.names.activity(one) for one in dict.fromkeys(activities)]
    more = len(named) - SHOWN
    return ", ".join(named[:SHOWN]) + (f" and {more} more" if more > 0 else "")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
