"""What is preferred among sessions that give the children about the same.

Each preference is one short function of `PREFERENCES` with its sentence. It yields terms that
are never below nothing, for one child; weights stand in ``data/practice/preferences.yaml``.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from tapeline.planner.board import Candidate
from tapeline.planner.model import Frame
from tapeline.planner.values import preference_values

if TYPE_CHECKING:
    from ortools.sat.python.cp_model import IntVar

Shown = dict[str, list["IntVar"]]


def families_in_the_session(frame: Frame) -> Iterator[Any]:
    """Many families of skills come up in a session, its course included."""
    shown: Shown = defaultdict(list)
    for index, candidate, level in frame.levels():
        if candidate.family and candidate.skill:
            shown[candidate.family].append(frame.plays[index, level.key])
    yield _number_shown(frame, "family", shown) * _weight("families_in_the_session")


def families_of_the_parts(frame: Frame) -> Iterator[Any]:
    """The parts that everybody plays together are of different families."""
    shown: Shown = defaultdict(list)
    for index, candidate, level in frame.levels():
        if candidate.family and candidate.skill and candidate.part != "course":
            shown[candidate.family].append(frame.plays[index, level.key])
    yield _number_shown(frame, "family_together", shown) * _weight("families_of_the_parts")


def body_positions(frame: Frame) -> Iterator[Any]:
    """Children are in different positions of the body in one session."""
    shown: Shown = defaultdict(list)
    for index, candidate, level in frame.levels():
        if candidate.manner and candidate.skill:
            shown[candidate.manner.position].append(frame.plays[index, level.key])
    yield _number_shown(frame, "position", shown) * _weight("body_positions")


def not_sitting_on(frame: Frame) -> Iterator[Any]:
    """No two parts, one after the other, are both played sitting or lying."""
    values = preference_values()["not_sitting_on"]
    parts = [shape.part for shape in frame.board.parts if shape.part in values["parts"]]
    for before, after in pairwise(parts):
        sat = [
            frame.plays[index, level.key]
            for index, candidate, level in frame.levels(before, after)
            if candidate.manner and candidate.manner.position in values["still"]
        ]
        moved = frame.model.new_bool_var(f"moved.{before}.{after}")
        frame.model.add(sum(sat) + moved <= 2)
        yield _weight("not_sitting_on") * moved


def arousal_order(frame: Frame) -> Iterator[Any]:
    """A session comes together, wakes up, works and settles, in this order."""
    wanted = preference_values()["arousal_order"]["parts"]
    yield from _for_each(
        frame,
        "arousal_order",
        lambda one: bool(one.manner and one.manner.arousal in wanted.get(one.part, ())),
    )


def few_set_ups(frame: Frame) -> Iterator[Any]:
    """Little has to be set up while children wait."""
    quick_s = preference_values()["few_set_ups"]["quick_s"]
    yield from _for_each(
        frame, "few_set_ups", lambda one: bool(one.manner and one.manner.setup_s <= quick_s)
    )


def few_materials(frame: Frame) -> Iterator[Any]:
    """Few things have to be fetched, and what is out is used again."""
    yield from _for_each(
        frame, "few_materials", lambda one: bool(one.manner and len(one.manner.things) <= 1)
    )
    again = preference_values()["few_materials"]["again"]
    shown: Shown = defaultdict(list)
    for index, candidate, level in frame.levels():
        for thing in candidate.manner.things if candidate.manner else ():
            shown[thing].append(frame.plays[index, level.key])
    for thing, plays in sorted(shown.items()):
        if len(plays) > 1:
            most = len(frame.board.parts)
            out = frame.model.new_bool_var(f"out.{thing}")
            more = frame.model.new_int_var(0, most, f"again.{thing}")
            frame.model.add(more <= sum(plays) - out)
            frame.model.add(more <= most * out)
            yield again * more


def still_out_at_home(frame: Frame) -> Iterator[Any]:
    """Families use again what they still have out from the last session."""
    children = max(1, len(frame.board.children))
    weight = _weight("still_out_at_home")
    for index, candidate, level in frame.levels():
        if candidate.out_for:
            yield weight * candidate.out_for // children * frame.plays[index, level.key]


def far_child_is_not_least(frame: Frame) -> Iterator[Any]:
    """A child far from the others has not the fewest tries of all."""
    far = [child.id for child in frame.board.children if child.is_far]
    if far and len(far) < len(frame.board.children):
        tries = {child.id: _tries_of(frame, child.id) for child in frame.board.children}
        for child in far:
            others = [number for name, number in tries.items() if name not in far]
            yield _weight("far_child_is_not_least") * _reaches_one(
                frame, child, tries[child], others
            )


PREFERENCES = (
    families_in_the_session,
    families_of_the_parts,
    body_positions,
    not_sitting_on,
    arousal_order,
    few_set_ups,
    few_materials,
    still_out_at_home,
    far_child_is_not_least,
)


def preferred(frame: Frame, benefit: Any) -> Any:
    """What all preferences count together: at most their share of the benefit."""
    terms = [term for preference in PREFERENCES for term in preference(frame)]
    children = len(frame.board.children)
    total = frame.model.new_int_var(0, 1_000_000, "preferred")
    frame.model.add(total <= children * sum(terms))
    frame.model.add(1000 * total <= int(preference_values()["most_cost"]["value"]) * benefit)
    return total


def _weight(name: str) -> int:
    return int(preference_values()[name]["weight"])


def _for_each(frame: Frame, name: str, is_met: Callable[[Candidate], bool]) -> Iterator[Any]:
    """The weight for every game that meets it."""
    met: dict[int, bool] = {}
    for index, candidate, level in frame.levels():
        if met.setdefault(index, is_met(candidate)):
            yield _weight(name) * frame.plays[index, level.key]


def _number_shown(frame: Frame, what: str, shown: Shown) -> Any:
    """How many kinds come up at least once."""
    there = []
    for kind, plays in sorted(shown.items()):
        one = frame.model.new_bool_var(f"{what}.{kind}")
        frame.model.add(one <= sum(plays))
        there.append(one)
    return sum(there)


def _tries_of(frame: Frame, child: str) -> Any:
    return sum(option.tries_made * taken for *_, option, taken in frame.options_of(child))


def _reaches_one(frame: Frame, child: str, own: Any, others: list[Any]) -> IntVar:
    """Whether a child has at least as many tries as one of the others."""
    reaches = frame.model.new_bool_var(f"not_least.{child}")
    ahead_of = []
    for place, other in enumerate(others):
        one = frame.model.new_bool_var(f"not_least.{child}.{place}")
        frame.model.add(own >= other).only_enforce_if(one)
        ahead_of.append(one)
    frame.model.add(reaches <= sum(ahead_of))
    return reaches
