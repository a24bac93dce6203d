"""What one child can take of one version at one length: amount, cost, worth, reason."""

from __future__ import annotations

import math

from tapeline.activities.allowed import Ruling
from tapeline.activities.models import PARTS_WITH_TRIALS, PartName, Skill, Version
from tapeline.planner.benefit import (
    freshness,
    routine_value,
    saturating,
    skill_weight,
    time_away,
    usefulness_in,
)
from tapeline.planner.board import BESIDE_UNITS, HANDS_ON_UNITS, Option
from tapeline.planner.given import Given, Slot
from tapeline.planner.places import Taking
from tapeline.planner.plan import Reason

ADULT_UNITS = {"within_sight": 0, "beside": BESIDE_UNITS, "hands_on": HANDS_ON_UNITS}
A_LITTLE = 5


def option_for(
    given: Given, slot: Slot, taking: Taking, version: Version, ruling: Ruling
) -> Option | None:
    """The option, or None when the time allows no fair amount of it."""
    amount = _amount(given, slot, taking, version)
    if amount is None:
        return None
    units = amount * slot.rounds
    with_trials = slot.part in PARTS_WITH_TRIALS and version.step is not None
    tries = units // version.try_size if with_trials else 0
    in_room = taking.member.place == "room"
    skill = given.library.skills[slot.activity.skill] if slot.activity.skill else None
    new = skill is not None and _is_new(given, taking, skill, version)
    value, reason = (
        _worth_of_skill(given, slot, taking, version, ruling, skill, tries, new)
        if skill is not None
        else _worth_of_routine(given, slot, version)
    )
    return Option(
        version=version.id,
        amount=amount,
        unit=version.unit,
        tries=tries,
        new=new,
        turns=version.whole_turns * units,
        adult=ADULT_UNITS[version.adult_need] if in_room else 0,
        value=value,
        floor_cm2=_floor_cm2(version) if in_room else 0,
        things=ruling.things,
        counts=_counts(given, slot, version, ruling) if in_room else (),
        flags=ruling.rules,
        reason=reason,
    )


def _amount(given: Given, slot: Slot, taking: Taking, version: Version) -> int | None:
    """Units in one round: as many as fit up to the version's most, or what she asked."""
    share = slot.share(given.in_room) if taking.member.place == "room" else 1.0
    able = math.floor(slot.practice_s * share / version.seconds_each(taking.who.age_months))
    asked = _asked(given, slot.activity.id, taking.child.id)
    if asked is not None:
        return asked if 0 < asked * slot.rounds <= able else None
    amount = min(able, version.most) // slot.rounds
    if amount >= version.try_size:
        amount -= amount % version.try_size
    fair = 1 if slot.part == "course" else min(version.least, version.try_size)
    return amount if amount >= fair else None


def _asked(given: Given, activity: str, child: str) -> int | None:
    for wish in given.request.wishes.amounts:
        if wish.activity == activity and wish.child in (None, child):
            return wish.amount
    return None


def _floor_cm2(version: Version) -> int:
    return (version.length_cm + 2 * version.clear_cm) * (version.width_cm + 2 * version.clear_cm)


def _counts(
    given: Given, slot: Slot, version: Version, ruling: Ruling
) -> tuple[tuple[str, int], ...]:
    counts: dict[str, int] = {}
    at_once = slot.at_once(given.in_room)
    for thing, need in zip(ruling.things, version.things, strict=True):
        counts[thing] = counts.get(thing, 0) + need.count * (at_once if need.each else 1)
    return tuple(counts.items())


def _is_new(given: Given, taking: Taking, skill: Skill, version: Version) -> bool:
    if version.step is None:
        return False
    return skill.index_of(version.step) > given.highest_seen.get((taking.child.id, skill.id), 0)


def _worth_of_routine(given: Given, slot: Slot, version: Version) -> tuple[int, Reason]:
    running = given.past.times_running(slot.activity.id)
    preferred = A_LITTLE if version.variant == "usual" else 0
    return routine_value(slot.activity, given.past) + preferred, Reason(
        code="routine" if running else "opens_the_part", values={"times": running}
    )


def _worth_of_skill(
    given: Given,
    slot: Slot,
    taking: Taking,
    version: Version,
    ruling: Ruling,
    skill: Skill,
    tries: int,
    new: bool,
) -> tuple[int, Reason]:
    step = version.step or skill.steps[0].id
    weight, goal = skill_weight(taking.child, skill.id)
    worth = given.worth[taking.child.id]
    weeks = given.weeks_away.get(skill.id)
    value = (
        weight
        * usefulness_in(slot.part, worth, step)
        / 1000
        * saturating(tries)
        * time_away(weeks)
        * freshness(slot.activity.id, given.past)
    )
    preferred = A_LITTLE if version.variant == "usual" else 0
    start = taking.child.start_of(skill.id)
    reason = Reason(
        code=_reason_code(
            slot.part, skill.index_of(step), skill.index_of(start) if start else None, new
        ),
        values={
            "chance_in_ten": worth[step].chance_in_ten,
            "flag": ruling.rules[0] if ruling.rules else None,
            "goal": goal,
            "skill": skill.id,
            "step": step,
            "variant": version.variant,
            "weeks": weeks,
        },
    )
    return round(value) + preferred, reason


def _reason_code(part: PartName, index: int, started: int | None, new: bool) -> str:
    if new:
        return "one_new_step"
    if started is None:
        return "first_look"
    if index < started:
        return "success_first" if part in ("revisit", "course") else "easier_here"
    return "steady_step"
