"""A child who was held until now is not let go unless an adult is free for it."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.checking.fault import Fault
from tapeline.checking.hall import CHILDREN_LIKE, SERVED_BY_ONE, lanes_of
from tapeline.checking.record import last_help, steps_begun
from tapeline.checking.scene import Played, Scene


def who_is_let_go_has_an_adult(scene: Scene) -> Iterator[Fault]:
    """In a part, a child who is let go takes an adult as one hands on does."""
    adults = scene.request["adults"]
    for part in scene.parts:
        if part["part"] == "course":
            continue
        there = scene.played_in_the_room(part)
        at_once = scene.at_once(part["part"], lanes_of(scene, part))
        usual = _most([CHILDREN_LIKE[one.version.adult_need] for one in there], at_once)
        needs = [_children_like(one, scene) for one in there]
        if usual <= SERVED_BY_ONE * adults < _most(needs, at_once):
            yield from _let_go(there, f"{adults} adults are there", scene)


def stations_that_let_go_have_an_adult(scene: Scene) -> Iterator[Fault]:
    """In a course, a station where a child is let go takes an adult."""
    adults = scene.request["adults"]
    needy, usual = [], 0
    for part in scene.stations:
        there = scene.played_in_the_room(part)
        usual += any(CHILDREN_LIKE[one.version.adult_need] for one in there)
        if any(_children_like(one, scene) for one in there):
            needy.append(there)
    if usual <= adults < len(needy):
        for there in needy:
            words = f"{len(needy)} stations need an adult and {adults} are there"
            yield from _let_go(there, words, scene)


def is_let_go(one: Played, scene: Scene) -> bool:
    """Whether a child who was held until now plays a version without hands on."""
    order = scene.library.steps.get(one.version.skill or "", ())
    in_hand = steps_begun(one.person, scene).get(one.version.skill or "")
    if one.version.adult_need == "hands_on" or in_hand is None:
        return False
    if one.version.step not in order or order.index(one.version.step) < in_hand:
        return False
    both_hands = scene.book.practice.both_hands
    return last_help(one.person, order[in_hand], scene) in both_hands or _is_always_held(
        one, order[in_hand]
    )


def _is_always_held(one: Played, step: str) -> bool:
    """Whether each version of the activity at a step, for this child, has hands on."""
    way = one.person.record["gets_about"]
    needs = {
        version.adult_need
        for version in one.activity.versions
        if version.step == step and way in version.gets_about
    }
    return needs == {"hands_on"}


def _children_like(one: Played, scene: Scene) -> int:
    return SERVED_BY_ONE if is_let_go(one, scene) else CHILDREN_LIKE[one.version.adult_need]


def _most(needs: list[int], at_once: int) -> int:
    return sum(sorted(needs, reverse=True)[:at_once])


def _let_go(there: tuple[Played, ...], words: str, scene: Scene) -> Iterator[Fault]:
    for one in there:
        if is_let_go(one, scene):
            yield Fault(
                kind="held",
                child=one.person.id,
                activity=one.activity.id,
                sentence=f"{one.words} was held until now and plays without hands; {words}.",
            )
