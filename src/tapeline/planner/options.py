"""What one child can take of one version: an offer in general, an option at one length."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tapeline.activities.allowed import Ruling
from tapeline.activities.models import PARTS_WITH_TRIALS, PartName, Skill, Version
from tapeline.planner.benefit import (
    freshness,
    routine_value,
    saturating,
    skill_weight,
    time_away,
    usefulness_in,
    variant_factor,
)
from tapeline.planner.board import BESIDE_UNITS, HANDS_ON_UNITS, Option, Rank, unbeaten
from tapeline.planner.given import Given, Slot
from tapeline.planner.held import held_units
from tapeline.planner.load import most_units
from tapeline.planner.places import Taking
from tapeline.planner.plan import Reason

ADULT_UNITS = {"within_sight": 0, "beside": BESIDE_UNITS, "hands_on": HANDS_ON_UNITS}
A_LITTLE = 5


@dataclass(frozen=True, kw_only=True)
class Offer:
    """A version for a child in a part, before its length is known.

    `worth` is its benefit in thousandths if enough tries are had; `extra` is added as it is;
    `most` units at most; `held` as in an option.
    """

    version: Version
    ruling: Ruling
    in_room: bool
    seconds_each: float
    makes_tries: bool
    new: bool
    adult: int
    held: int
    floor_cm2: int
    worth: float
    extra: int
    most: int
    asked: int | None
    reason: Reason

    @property
    def rank(self) -> Rank:
        """What it gives at any length, and less its costs: more is better in each place."""
        version = self.version
        return (
            self.worth,
            self.extra,
            -self.seconds_each,
            self.most,
            -version.try_size,
            -min(version.least, version.try_size),
            -self.new,
            -version.whole_turns,
            -self.adult,
            -self.held,
            -self.floor_cm2,
        )


def offers_for(
    given: Given, slot: Slot, taking: Taking, free: list[tuple[Version, Ruling]]
) -> list[Offer]:
    """A child's offers of an activity, without those that another beats at any length."""
    offers = (_offer(given, slot, taking, version, ruling) for version, ruling in free)
    return [offer for _, offer in unbeaten((one.rank, one) for one in offers)]


def without_too_hard(
    given: Given, slot: Slot, taking: Taking, free: list[tuple[Version, Ruling]]
) -> list[tuple[Version, Ruling]]:
    """Versions whose step is not likelier than not too hard for the child.

    What she locked stays, and so does everything where the request had no plan without it.
    """
    locked = {lock.activity for lock in given.request.wishes.locked}
    if slot.activity.skill is None or slot.activity.id in locked or given.allows_too_hard:
        return free
    worth = given.worth[taking.child.id]
    return [pair for pair in free if pair[0].step is None or worth[pair[0].step].practice > 0]


def _offer(given: Given, slot: Slot, taking: Taking, version: Version, ruling: Ruling) -> Offer:
    skill = given.library.skills[slot.activity.skill] if slot.activity.skill else None
    in_room = taking.member.place == "room"
    new = skill is not None and _is_new(given, taking, skill, version)
    worth, extra, reason = (
        _worth_of_skill(given, slot, taking, version, ruling, skill, new)
        if skill is not None
        else _worth_of_routine(given, slot)
    )
    return Offer(
        version=version,
        ruling=ruling,
        in_room=in_room,
        seconds_each=version.seconds_each(taking.who.age_months),
        makes_tries=slot.part in PARTS_WITH_TRIALS and version.step is not None,
        new=new,
        adult=ADULT_UNITS[version.adult_need] if in_room else 0,
        held=held_units(given, taking, slot.activity, skill, version) if in_room and skill else 0,
        floor_cm2=_floor_cm2(version) if in_room else 0,
        worth=worth,
        extra=extra + (A_LITTLE if version.variant == "usual" else 0),
        most=most_units(given, slot, taking, version),
        asked=_asked(given, slot.activity.id, taking.child.id),
        reason=reason,
    )


def option_at(offer: Offer, slot: Slot, in_room: int) -> Option | None:
    """The offer at one length, or None when the time allows no fair amount of it."""
    amount = _amount(offer, slot, in_room)
    if amount is None:
        return None
    units = amount * slot.rounds
    version = offer.version
    tries = units // version.try_size if offer.makes_tries else 0
    return Option(
        version=version.id,
        amount=amount,
        unit=version.unit,
        tries=tries,
        new=offer.new,
        turns=version.whole_turns * units,
        adult=offer.adult,
        held=offer.held,
        tries_made=tries,
        value=round(offer.worth * saturating(tries)) + offer.extra,
        floor_cm2=offer.floor_cm2,
        things=offer.ruling.things,
        counts=_counts(offer, slot, in_room) if slot.part == "course" and offer.in_room else (),
        flags=offer.ruling.rules,
        reason=offer.reason,
    )


def _amount(offer: Offer, slot: Slot, in_room: int) -> int | None:
    """Units in one round: as many as fit up to the version's most, or what she asked."""
    version = offer.version
    share = slot.share(in_room) if offer.in_room else 1.0
    able = math.floor(slot.practice_s * share / offer.seconds_each)
    if offer.asked is not None:
        return offer.asked if 0 < offer.asked * slot.rounds <= able else None
    amount = min(able, offer.most) // slot.rounds
    if amount >= version.try_size:
        amount -= amount % version.try_size
    fair = 1 if slot.part == "course" else min(version.least, version.try_size)
    if slot.activity.skill is None:
        fair = version.least
    return amount if amount >= fair else None


def idle_seconds(offer: Offer, slot: Slot, in_room: int) -> int:
    """Seconds of practice time the child would stand about at the most of this version."""
    share = slot.share(in_room) if offer.in_room else 1.0
    doing = min(offer.most * offer.seconds_each / share, slot.practice_s)
    return max(0, round(slot.practice_s - doing))


def _asked(given: Given, activity: str, child: str) -> int | None:
    for wish in given.request.wishes.amounts:
        if wish.activity == activity and wish.child in (None, child):
            return wish.amount
    return None


def _floor_cm2(version: Version) -> int:
    return (version.length_cm + 2 * version.clear_cm) * (version.width_cm + 2 * version.clear_cm)


def _counts(offer: Offer, slot: Slot, in_room: int) -> tuple[tuple[str, int], ...]:
    counts: dict[str, int] = {}
    at_once = slot.at_once(in_room)
    for thing, need in zip(offer.ruling.things, offer.version.things, strict=True):
        counts[thing] = counts.get(thing, 0) + need.count * (at_once if need.each else 1)
    return tuple(counts.items())


def _is_new(given: Given, taking: Taking, skill: Skill, version: Version) -> bool:
    if version.step is None:
        return False
    return skill.index_of(version.step) > given.highest_seen.get((taking.child.id, skill.id), 0)


def _worth_of_routine(given: Given, slot: Slot) -> tuple[float, int, Reason]:
    running = given.past.times_running(slot.activity.id)
    reason = Reason(code="routine" if running else "opens_the_part", values={"times": running})
    return 0.0, routine_value(slot.activity, given.past), reason


def _worth_of_skill(
    given: Given,
    slot: Slot,
    taking: Taking,
    version: Version,
    ruling: Ruling,
    skill: Skill,
    new: bool,
) -> tuple[float, int, Reason]:
    step = version.step or skill.steps[0].id
    weight, goal = skill_weight(taking.child, skill.id, given.request.date)
    worth = given.worth[taking.child.id]
    weeks = given.weeks_away.get(skill.id)
    value = (
        weight
        * usefulness_in(slot.part, worth, step)
        / 1000
        * time_away(weeks, is_goal=goal is not None)
        * freshness(slot.activity.id, given.past)
        * variant_factor(version, taking.child.gets_about)
    )
    start = taking.child.start_of(skill.id)
    started = skill.index_of(start) if start else None
    reason = Reason(
        code=_reason_code(slot.part, skill.index_of(step), started, new),
        values={
            "chance_in_ten": worth[step].chance_in_ten,
            "flag": ruling.rules[0] if ruling.rules else None,
            "goal": goal,
            "skill": skill.id,
            "step": step,
            "variant": version.variant,
            "weeks": weeks,
            **worth[step].seen,
        },
    )
    return value, 0, reason


def _reason_code(part: PartName, index: int, started: int | None, new: bool) -> str:
    if new:
        return "one_new_step"
    if started is None:
        return "first_look"
    if index < started:
        return "success_first" if part in ("revisit", "course") else "easier_here"
    return "tried_step" if index > started else "steady_step"
