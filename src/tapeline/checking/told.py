"""Notices: what has to be said is said, and what is said is so.

A notice about skills that are seen less rests on a judgement of the record and is not
reckoned again here; all others are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import Any

from tapeline.checking.amounts import tries_of
from tapeline.checking.far import far_children
from tapeline.checking.fault import Fault
from tapeline.checking.hands import is_let_go
from tapeline.checking.people import FLOOR_WITHOUT_A_ROOM_CM, PRESETS_CM
from tapeline.checking.scene import Scene
from tapeline.checking.timing import practice_s, share

Values = dict[str, Any]
WITHIN_S = 1


def what_has_to_be_said_is_said(scene: Scene) -> Iterator[Fault]:
    """Each notice that the caseload and the parts call for stands in the plan."""
    for code, wanted in _called_for(scene):
        if not any(_agree(wanted, values) for values in said(code, scene)):
            words = ", ".join(f"{key} {value}" for key, value in wanted.items())
            yield _fault(wanted, f"The notice {code} ({words}) is missing.")


def what_is_said_is_so(scene: Scene) -> Iterator[Fault]:
    """No notice says what the caseload or the parts do not bear out."""
    for notice in scene.plan["notices"]:
        holds = SAID_SO.get(notice["code"])
        if holds and not holds(notice["values"], scene):
            values = notice["values"]
            words = ", ".join(f"{key} {value}" for key, value in values.items())
            yield _fault(values, f"The notice {notice['code']} ({words}) is not so.")


def said(code: str, scene: Scene) -> list[Values]:
    """Values of the notices of a code."""
    return [notice["values"] for notice in scene.plan["notices"] if notice["code"] == code]


def _called_for(scene: Scene) -> Iterator[tuple[str, Values]]:
    for child in _without_a_home(scene):
        yield "home_not_on_file", {"child": child, **_floor(PRESETS_CM["room"])}
    if _has_no_room(scene):
        yield "room_not_on_file", _floor(FLOOR_WITHOUT_A_ROOM_CM)
    if _is_many(scene):
        yield "many_children", _crowd(scene)
    for part in _parts_not_there(scene):
        yield "part_left_out", {"part": part}
    for one in scene.played:
        if one.person.place == "room" and is_let_go(one, scene):
            yield "lets_go", {"child": one.person.id, "activity": one.activity.id}
        for rule in one.row["flags"]:
            yield "check_with", {"child": one.person.id, "rule": rule}
    for child in sorted(far_children(scene, sure=True)):
        if _has_least(child, scene, ties=False):
            yield "far_child_has_least", {"child": child}


def _without_a_home(scene: Scene) -> list[str]:
    return [
        person.id
        for person in scene.people
        if person.place != "room" and person.record["home"] is None
    ]


def _has_no_room(scene: Scene) -> bool:
    return scene.room is None and scene.crowd("arrival") > 0


def _is_many(scene: Scene) -> bool:
    most = scene.book.practice.many_each * scene.request["adults"]
    return bool(0 < most < scene.crowd("arrival"))


def _crowd(scene: Scene) -> Values:
    return {"children": scene.crowd("arrival"), "adults": scene.request["adults"]}


def _parts_not_there(scene: Scene) -> list[str]:
    """Parts of a session of this length that are not played; those of a rest are not asked."""
    if scene.is_a_rest:
        return []
    played = {part["part"] for part in scene.parts}
    shape = scene.book.practice.shape_of(scene.request["seconds"])
    return [part for part in shape.doing_s if part not in played]


def _has_least(child: str, scene: Scene, *, ties: bool) -> bool:
    found = {name: sum(skills.values()) for name, skills in tries_of(scene).items()}
    others = [found.get(person.id, 0) for person in scene.people if person.id != child]
    own = found.get(child, 0)
    return bool(others) and (own <= min(others) if ties else own < min(others))


def _waits(scene: Scene) -> dict[str, tuple[Fraction, Fraction]]:
    """By activity of the room, the seconds one child is at it and waits, once through."""
    times = {}
    for one in scene.played:
        if one.person.place == "room":
            own = share(one, scene)
            doing = practice_s(one.part) * own
            times[one.activity.id] = (doing, practice_s(one.part) - doing)
    return times


def _many_holds(values: Values, scene: Scene) -> bool:
    waits = {name: times for name, times in _waits(scene).items() if times[1] > 0}
    if not _is_many(scene) or not _agree(_crowd(scene), values):
        return False
    if values.get("activity") is None or not waits:
        return values.get("activity") is None and not waits
    doing, waiting = waits.get(values["activity"], (Fraction(-1), Fraction(-1)))
    longest = max(wait for _, wait in waits.values())
    near = (values["doing_s"] - doing, values["waits_s"] - waiting, longest - waiting)
    return all(abs(gap) <= WITHIN_S for gap in near)


def _was_ever_held(values: Values, scene: Scene) -> bool:
    """Whether a notice that a child is let go can be so, read as kindly as may be."""
    both_hands = scene.book.practice.both_hands
    for one in scene.played:
        if (one.person.id, one.activity.id) == (values.get("child"), values.get("activity")):
            helped = (
                trial["child"] == one.person.id and trial["help"] in both_hands
                for trial in scene.caseload["trials"]
            )
            held = (version.adult_need == "hands_on" for version in one.activity.versions)
            return one.version.adult_need != "hands_on" and (any(helped) or any(held))
    return False


def _far_has_least(values: Values, scene: Scene) -> bool:
    child = values.get("child")
    return child in far_children(scene, sure=False) and _has_least(str(child), scene, ties=True)


def _minutes_are_spare(values: Values, scene: Scene) -> bool:
    end = sum(part["seconds"] for part in scene.parts)
    end += scene.parts[0]["start_s"] if scene.parts else 0
    return bool(60 * values.get("minutes", 0) <= scene.request["seconds"] - end)


SAID_SO: dict[str, Callable[[Values, Scene], bool]] = {
    "home_not_on_file": lambda values, scene: (
        values.get("child") in _without_a_home(scene) and _agree(_floor(PRESETS_CM["room"]), values)
    ),
    "room_not_on_file": lambda values, scene: (
        _has_no_room(scene) and _agree(_floor(FLOOR_WITHOUT_A_ROOM_CM), values)
    ),
    "many_children": _many_holds,
    "part_left_out": lambda values, scene: (
        values.get("part") not in {part["part"] for part in scene.parts}
    ),
    "lets_go": _was_ever_held,
    "far_child_has_least": _far_has_least,
    "minutes_spare": _minutes_are_spare,
    "check_with": lambda values, scene: any(
        one.person.id == values.get("child") and values.get("rule") in one.row["flags"]
        for one in scene.played
    ),
}


def _floor(size: Iterable[int]) -> Values:
    return dict(zip(("length_cm", "width_cm"), size, strict=True))


def _agree(wanted: Values, values: Values) -> bool:
    return all(values.get(key) == value for key, value in wanted.items())


def _fault(values: Values, sentence: str) -> Fault:
    child, activity = values.get("child"), values.get("activity")
    return Fault(
        kind="notice",
        child=child if isinstance(child, str) else None,
        activity=activity if isinstance(activity, str) else None,
        sentence=sentence,
    )
