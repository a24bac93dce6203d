"""Why nothing fits: a set of wishes and limits that clash, none of which can be left out.

Found by leaving rules out one at a time; what is said last is solved once more, and each
way out is a changed request that was really planned.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from tapeline.errors import NoFeasiblePlan
from tapeline.planner.board import Board, Hindrance
from tapeline.planner.plan import PlanRequest, Wishes
from tapeline.planner.solve import does_it_fit, rule_names, rules_that_clash
from tapeline.planner.words import (
    Names,
    held_in_words,
    next_step_in_words,
    parts_in_words,
    rule_in_words,
    wish_in_words,
)

MOST_WAYS = 3
MORE_ADULTS = (1, 2)
MORE_MINUTES = (5, 10, 15)
GIVE_WITH_TIME = {"minutes", "floor", "part"}


def refuse_with_reason(
    board: Board, *, lay_out_again: Callable[[PlanRequest], Board], names: Names
) -> NoFeasiblePlan:
    """The error that says which wishes and limits clash, with ways out that were tried.

    Where none was found, it says what else she can do.
    """
    absent = _without_candidates(board)
    clash = absent or _smallest_clash(board)
    sentences = _absent_in_words(board, absent, names) if absent else _told(board, clash, names)
    message = "No session fits. " + " ".join(sentences)
    if not clash:
        message = "No session was found in the time allowed; it was not proved impossible."
    ways = _ways_out(board, clash, lay_out_again, names)
    return NoFeasiblePlan(
        message,
        clash=clash,
        ways_out=[words for words, _ in ways],
        requests=[request for _, request in ways],
        hint=_next_step(board, absent, names),
    )


def _without_candidates(board: Board) -> tuple[str, ...]:
    """Locks and needed parts for which the library has nothing these children may do."""
    there = {(candidate.part, candidate.activity) for candidate in board.candidates}
    parts = {part for part, _ in there}
    locked = [
        f"locked:{lock.activity}"
        for lock in board.request.wishes.locked
        if not any(
            activity == lock.activity and lock.part in (None, part) for part, activity in there
        )
    ]
    empty = [
        f"part:{shape.part}" for shape in board.parts if shape.always and shape.part not in parts
    ]
    return tuple(dict.fromkeys(locked + empty))


def _smallest_clash(board: Board) -> tuple[str, ...]:
    """Names that clash together; leaving any one of them out, a session fits.

    The solver's own proof is the start, where it names rules and they clash by themselves.
    """
    names = rule_names(board)
    without = frozenset(names) - frozenset(rules_that_clash(board) or names)
    if does_it_fit(board, without=without) != "impossible":
        without = frozenset()
        if does_it_fit(board) != "impossible":
            return ()
    for name in names:
        if name in without:
            continue
        if does_it_fit(board, without=without | {name}) == "impossible":
            without |= {name}
    return tuple(name for name in names if name not in without)


def _told(board: Board, clash: tuple[str, ...], names: Names) -> list[str]:
    """One sentence for each that clashes, and who would be let go for want of an adult."""
    sentences = [_sentence(board, name, names) for name in clash]
    let_go = _would_be_let_go(board, clash) if "adults" in clash else []
    return [*sentences, held_in_words(let_go, names)] if let_go else sentences


def _would_be_let_go(board: Board, clash: tuple[str, ...]) -> list[str]:
    """Children whom a locked activity would let go of, though they were held until now."""
    locked = {name.partition(":")[2] for name in clash if name.startswith("locked:")}
    return [
        child.id
        for child in board.children
        if any(
            option.held
            for candidate in board.candidates
            if candidate.activity in locked
            for level in candidate.levels
            for option in level.options[child.id]
        )
    ]


def _absent_in_words(board: Board, absent: tuple[str, ...], names: Names) -> list[str]:
    """A sentence for each lock, and one for all parts that have nothing for the same reason."""
    locks = [name for name in absent if name.startswith("locked:")]
    sentences = [
        rule_in_words(name, names, hindrance=nearest)
        if (nearest := _nearest(board, name)) and not _is_left_out(board, name)
        else _sentence(board, name, names)
        for name in locks
    ]
    alike: dict[tuple[str, str] | None, list[str]] = {}
    for name in absent[len(locks) :]:
        nearest = _nearest(board, name)
        why = (nearest.child, nearest.rules[0]) if nearest else None
        alike.setdefault(why, []).append(name)
    for parts in alike.values():
        about = [name.partition(":")[2] for name in parts]
        sentences.append(parts_in_words(about, names, _nearest(board, parts[0])))
    return sentences


def _next_step(board: Board, absent: tuple[str, ...], names: Names) -> str:
    """What she can do where no changed request gave a plan."""
    if absent:
        return next_step_in_words(_nearest(board, absent[0]), names)
    return "Ask for less at once: fewer locks, more minutes, or another date."


def _is_left_out(board: Board, name: str) -> bool:
    return name.partition(":")[2] in board.request.wishes.left_out


def _sentence(board: Board, name: str, names: Names) -> str:
    kind, _, about = name.partition(":")
    if kind == "locked" and _is_left_out(board, name):
        return f"{names.activity(about)} is both locked and left out."
    return rule_in_words(name, names, request=board.request)


def _nearest(board: Board, name: str) -> Hindrance | None:
    """What stands in the way of a lock or a part that is nearest to being possible."""
    kind, _, about = name.partition(":")
    return _nearest_hindrance(board.hindrances, kind, about)


def _nearest_hindrance(hindrances: Iterable[Hindrance], kind: str, about: str) -> Hindrance | None:
    fitting = [
        one
        for one in hindrances
        if (one.activity if kind == "locked" else one.part) == about and one.rules
    ]
    return min(fitting, key=lambda one: (len(one.rules), one.activity, one.child), default=None)


def _ways_out(
    board: Board,
    clash: tuple[str, ...],
    lay_out_again: Callable[[PlanRequest], Board],
    names: Names,
) -> list[tuple[str, PlanRequest]]:
    ways: dict[str, tuple[str, PlanRequest]] = {}
    for kind, words, changed in _changes(board, clash, names):
        if kind in ways:
            continue
        other = lay_out_again(changed)
        if not _without_candidates(other) and does_it_fit(other) == "fits":
            ways[kind] = (words, changed)
        if len(ways) == MOST_WAYS:
            break
    return list(ways.values())


def _changes(
    board: Board, clash: tuple[str, ...], names: Names
) -> Iterable[tuple[str, str, PlanRequest]]:
    """Changed requests worth trying, the gentlest first; one of each kind is enough."""
    request = board.request
    wishes = request.wishes
    for lock in wishes.locked:
        rest = tuple(other for other in wishes.locked if other != lock)
        yield (
            f"unlock:{lock.activity}",
            wish_in_words("unlock", lock.activity, names),
            _with(request, replace(wishes, locked=rest)),
        )
    for activity in wishes.left_out:
        rest_out = tuple(other for other in wishes.left_out if other != activity)
        yield (
            f"take_in:{activity}",
            wish_in_words("take_in", activity, names),
            _with(request, replace(wishes, left_out=rest_out)),
        )
    for amount in wishes.amounts:
        rest_amounts = tuple(other for other in wishes.amounts if other != amount)
        yield (
            f"free_amount:{amount.activity}:{amount.child}",
            wish_in_words("free_amount", amount.activity, names),
            _with(request, replace(wishes, amounts=rest_amounts)),
        )
    for child in _short_of_tries(clash):
        yield (
            f"any_skill:{child}",
            wish_in_words("any_skill", child, names),
            _with(request, replace(wishes, any_skill=(*wishes.any_skill, child))),
        )
    kinds = {name.partition(":")[0] for name in clash}
    for more in MORE_ADULTS if "adults" in kinds else ():
        changed = replace(request, adults=request.adults + more)
        yield "adult", wish_in_words("adult", str(more), names), changed
    for minutes in MORE_MINUTES if kinds & GIVE_WITH_TIME else ():
        changed = replace(request, seconds=request.seconds + 60 * minutes)
        yield "minutes", wish_in_words("minutes", str(minutes), names), changed
    for child in _children_in(board, clash) if len(board.children) > 1 else ():
        yield (
            f"away:{child}",
            wish_in_words("away", child, names),
            _with(request, replace(wishes, away=(*wishes.away, child))),
        )


def _short_of_tries(clash: tuple[str, ...]) -> list[str]:
    """Children whose floor of tries on an own goal is part of the clash."""
    return [name.partition(":")[2] for name in clash if name.startswith("floor:")]


def _with(request: PlanRequest, wishes: Wishes) -> PlanRequest:
    return replace(request, wishes=wishes)


def _children_in(board: Board, clash: tuple[str, ...]) -> list[str]:
    """Children the clash names, or who hold back all that it asks for; else all of them."""
    named = [name.partition(":")[2] for name in clash if name.startswith(("floor:", "new:"))]
    if named:
        return list(dict.fromkeys(named))
    if set(clash) <= set(_without_candidates(board)):
        about = {name.partition(":")[2] for name in clash}
        held = [one.child for one in board.hindrances if {one.activity, one.part} & about]
        return sorted(set(held) - {""})
    return [child.id for child in board.children]
