"""What she is told beside the plan: one sentence per code of notice."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

from tapeline.planner.part_names import PART_NAMES
from tapeline.planner.plan import Reason, Value

if TYPE_CHECKING:
    from tapeline.planner.words import Names

Values = Mapping[str, Value]
ASKS = {
    "raised": "Talk with the family and their doctor soon.",
    "after_illness": "Ask the family first whether the child is well again.",
}
KEPT = {
    "skill_seen_less": (
        "Until you decide its step stays, and nothing new that jumps or tires is added."
    ),
    "skill_seen_less_step_not_kept": (
        "Nothing fitted that keeps its step: look at the step before you run this. Nothing new "
        "that jumps or tires is added."
    ),
    "skill_seen_less_not_kept": (
        "Nothing fitted without something new that jumps or tires: look at each game of this "
        "child before you run it, and swap what you do not want."
    ),
}


def _part_left_out(values: Values, who: str, names: Names) -> str:
    part = PART_NAMES[str(values["part"])]
    if values.get("why") == "time":
        return f"No {part} today: the time goes to fewer, longer parts."
    return f"No {part} today: nothing fitted every child in the time."


def _seen_less(kept: str) -> Callable[[Values, str, Names], str]:
    def sentence(values: Values, who: str, names: Names) -> str:
        skill = names.skill(str(values["skill"]))
        todo = ASKS.get(str(values.get("stage")), ASKS["raised"])
        return f"{who}: {skill} is seen less than before on several days. {todo} {kept}"

    return sentence


def _hard_steps(values: Values, who: str, names: Names) -> str:
    return (
        "Nothing fitted without a step that is still hard for somebody: look at the chances first."
    )


def _minutes_spare(values: Values, who: str, names: Names) -> str:
    count = values["minutes"]
    left = "1 minute is" if count == 1 else f"{count} minutes are"
    return f"{left} left for arriving late or a rest."


def _check_with(values: Values, who: str, names: Names) -> str:
    return f"{who}: {names.rule(str(values['rule']))}."


def _lets_go(values: Values, who: str, names: Names) -> str:
    game = names.activity(str(values["activity"]))
    return f"{who}: {game} without both hands for the first time. Keep an adult's hands free."


def _many_children(values: Values, who: str, names: Names) -> str:
    adults = "1 adult" if values["adults"] == 1 else f"{values['adults']} adults"
    told = f"{values['children']} children are many for {adults}"
    ways = "Ask more adults, or make two groups."
    if not values.get("activity"):
        return f"{told}: all move at once, and nobody can look at each. {ways}"
    game = names.activity(str(values["activity"]))
    return (
        f"{told}. In {game} each child moves about {_time(values['doing_s'])} and waits about "
        f"{_time(values['waits_s'])}. {ways}"
    )


def _time(seconds: Value) -> str:
    """Seconds up to a minute and a half, else whole minutes."""
    count = int(seconds or 0)
    return f"{count} seconds" if count < 90 else f"{round(count / 60)} minutes"


def _home_not_on_file(values: Values, who: str, names: Names) -> str:
    return (
        f"{who}: no home is on file. The plan counts on {_floor(values)} of free floor, nothing "
        "to play with, and a helper with two free hands. Type the home, and plan again."
    )


def _room_not_on_file(values: Values, who: str, names: Names) -> str:
    return (
        f"No room is on file for this group. The plan counts on {_floor(values)} of free floor "
        "and nothing to play with. Type the room, and plan again."
    )


def _floor(values: Values) -> str:
    length, width = (int(values[side] or 0) / 100 for side in ("length_cm", "width_cm"))
    return f"{length:g} by {width:g} m"


def _far_child_has_least(values: Values, who: str, names: Names) -> str:
    return f"{who}: the fewest tries of all today. Give some more where there is time."


# The sentence of each code, from its values and the name of whom it is about.
NOTICES: dict[str, Callable[[Values, str, Names], str]] = {
    "part_left_out": _part_left_out,
    **{code: _seen_less(kept) for code, kept in KEPT.items()},
    "hard_steps": _hard_steps,
    "minutes_spare": _minutes_spare,
    "many_children": _many_children,
    "home_not_on_file": _home_not_on_file,
    "room_not_on_file": _room_not_on_file,
    "lets_go": _lets_go,
    "far_child_has_least": _far_child_has_least,
    "check_with": _check_with,
}
# Children with the same of these share one sentence.
SHARED = frozenset({"home_not_on_file", "lets_go", "far_child_has_least", "check_with"})


def notices_in_words(notices: Iterable[Reason], names: Names) -> tuple[str, ...]:
    """One sentence per notice; children with the same thing to check or to know share one."""
    told: dict[tuple[object, ...], list[Reason]] = {}
    for place, notice in enumerate(notices):
        same = sorted((name, value) for name, value in notice.values.items() if name != "child")
        key = (notice.code, *same) if notice.code in SHARED else (place,)
        told.setdefault(key, []).append(notice)
    return tuple(
        NOTICES[alike[0].code](alike[0].values, _who(alike, names), names)
        for alike in told.values()
    )


def _who(alike: list[Reason], names: Names) -> str:
    children = (one.values.get("child") for one in alike)
    return ", ".join(names.child(str(child)) for child in children if child)
