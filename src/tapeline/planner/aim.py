"""What a session is chosen for: what it gives each child, and below that what is preferred.

Benefit is concave, so that the child who gets least gains most. Preferences decide between
sessions that give about the same: together they count for a stated share of the benefit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tapeline.activities.values import planning_values
from tapeline.planner.model import Frame
from tapeline.planner.preferences import preferred

if TYPE_CHECKING:
    from ortools.sat.python.cp_model import IntVar


def benefit_of(frame: Frame) -> list[IntVar]:
    """One whole number per child: what the session gives it, in thousandths."""
    found = []
    for child in frame.board.children:
        total = frame.model.new_int_var(0, 100_000, f"benefit.{child.id}")
        frame.model.add(
            total == sum(option.value * taken for *_, option, taken in frame.options_of(child.id))
        )
        found.append(total)
    return found


def aim(frame: Frame) -> None:
    """Maximise what the session gives the children, then what is preferred."""
    weights = planning_values()["weights"]
    benefit = _benefit_of_all(frame)
    terms: list[Any] = [benefit, *_same_skill_again(frame), preferred(frame, benefit)]
    for near in frame.board.request.wishes.stay_near:
        terms.append(weights["stay_near"] * sum(frame.played(near.activity, near.part)))
    terms += _idling(frame)
    for shape in frame.board.parts:
        terms.append(weights["part_left_out"] * _used(frame, shape.part))
    frame.model.maximize(sum(terms))


def _benefit_of_all(frame: Frame) -> Any:
    """The children's benefits, concave, and once more that of the child who gets least."""
    benefits = benefit_of(frame)
    terms: list[Any] = [_concave(frame, benefit, place) for place, benefit in enumerate(benefits)]
    if benefits:
        least = frame.model.new_int_var(0, 100_000, "least")
        for benefit in benefits:
            frame.model.add(least <= benefit)
        terms.append(planning_values()["weights"]["least_child"] * least)
    return sum(terms)


def _concave(frame: Frame, benefit: IntVar, place: int) -> Any:
    pieces = []
    for number, (width, weight) in enumerate(planning_values()["weights"]["steps_of_concavity"]):
        piece = frame.model.new_int_var(0, width, f"piece{place}.{number}")
        pieces.append((piece, weight))
    frame.model.add(benefit == sum(piece for piece, _ in pieces))
    return sum(weight * piece for piece, weight in pieces)


def _same_skill_again(frame: Frame) -> list[Any]:
    """What a skill's second game of a session gives less, for all children.

    Each game's tries do their good as if they were the first of the day; they are not.
    """
    less = planning_values()["weights"]["same_skill_again"] * len(frame.board.children)
    by_skill: dict[str, list[IntVar]] = {}
    for index, candidate, level in frame.levels():
        if candidate.family and candidate.skill:
            by_skill.setdefault(candidate.skill, []).append(frame.plays[index, level.key])
    terms: list[Any] = []
    for skill, plays_of in sorted(by_skill.items()):
        again = frame.model.new_int_var(0, 12, f"again.{skill}")
        frame.model.add(again >= sum(plays_of) - 1)
        terms.append(-less * again)
    return terms


def _idling(frame: Frame) -> list[Any]:
    """What standing about costs, for all children."""
    price = planning_values()["weights"]["idle_minute"] * len(frame.board.children)
    return [
        -(price * level.idle_s // 60) * frame.plays[index, level.key]
        for index, candidate, level in frame.levels()
        if candidate.skill and level.idle_s
    ]


def _used(frame: Frame, part: str) -> Any:
    if part == "course":
        return sum(frame.courses.values())
    return sum(frame.in_part(part))
