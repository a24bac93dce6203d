"""What a story may ask of a session: each condition answers with sentences that go against it.

Those of `ACCEPT` have to hold, those of `REFUSE` must not be met. All ask the plan and the
library only; none knows how the plan was found.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Any

from tapeline.activities.loader import load_library
from tapeline.activities.models import PARTS_WITH_TRIALS, Version
from tapeline.errors import NoFeasiblePlan
from tapeline.planner.plan import ChildPlan, PartPlan
from tapeline.sessions.prepare import plan_session
from tests.cases.telling import DAY, Telling

Condition = Callable[[Telling, Any], Iterable[str]]
LIBRARY = load_library()
LOUDNESS = ("quiet", "usual", "loud")


def rows(told: Telling, child: str | None = None) -> Iterator[tuple[PartPlan, ChildPlan, Version]]:
    """Every row of the plan, or those of one child, with its part and the version played."""
    for part in told.plan.parts if told.plan else ():
        for row in part.children:
            if child in (None, row.id):
                yield part, row, LIBRARY.find_version(row.version)


def people(told: Telling) -> list[str]:
    """Ids of those who take part."""
    away = told.plan.request.wishes.away if told.plan else ()
    group = told.caseload.group("group")
    return [one.child for one in group.members if one.child not in away]


def tries(told: Telling, child: str) -> dict[str, int]:
    """Tries by skill in the parts that count them."""
    found: dict[str, int] = {}
    for part, row, version in rows(told, child):
        skill = LIBRARY.activities[part.activity].skill
        if skill and part.part in PARTS_WITH_TRIALS:
            done = row.amount * part.rounds // version.try_size
            found[skill] = found.get(skill, 0) + done
    return found


def played(told: Telling) -> list[str]:
    """Ids of the activities, in order."""
    return [part.activity for part in told.plan.parts] if told.plan else []


def touched(row: ChildPlan, version: Version) -> set[str]:
    """What the child does in it, and the hazards of the things it is done with."""
    things = [LIBRARY.materials[name] for name in row.things]
    return set(version.touches).union(*(thing.touches for thing in things))


# Accept only if ...


def a_plan_is_made(told: Telling, wanted: bool) -> Iterator[str]:
    if wanted and told.plan is None:
        yield f"There is no plan: {told.refusal}"


def checker_finds(told: Telling, wanted: str) -> Iterator[str]:
    assert wanted == "nothing"
    yield from told.faults


def same_activity_for_all(told: Telling, wanted: bool) -> Iterator[str]:
    """Nobody watches: a row with something to do in every part, for everybody."""
    for part in told.plan.parts if told.plan else ():
        doing = sorted(row.id for row in part.children if row.amount > 0)
        if doing != sorted(people(told)):
            yield f"{part.activity} is played by {doing} alone"


def everybody_has_tries(told: Telling, least: int) -> Iterator[str]:
    """On one own goal; a child without goals on any one skill."""
    for child in told.caseload.children:
        if child.id in people(told):
            found = tries(told, child.id)
            own = {goal.skill for goal in child.goals} or set(found)
            most = max((found.get(skill, 0) for skill in own), default=0)
            if most < least:
                yield f"{child.id} has {most} tries at most on one of {sorted(own)}"


def plays(told: Telling, activities: list[str]) -> Iterator[str]:
    yield from (f"{one} is not played" for one in activities if one not in played(told))


def parts(told: Telling, wanted: list[str]) -> Iterator[str]:
    """Exactly these parts."""
    found = list(dict.fromkeys(part.part for part in told.plan.parts)) if told.plan else []
    if found != wanted:
        yield f"the parts are {found}"


def part_minutes(told: Telling, wanted: dict[str, list[int]]) -> Iterator[str]:
    """Least and most whole minutes of a part; a course counts all its stations."""
    for name, (least, most) in wanted.items():
        lasting = [part.seconds for part in told.plan.parts if part.part == name]
        if not 60 * least <= sum(lasting) <= 60 * most:
            yield f"{name} lasts {sum(lasting) / 60:.1f} minutes"


def fewest_minutes_of_practice(told: Telling, least: dict[str, int]) -> Iterator[str]:
    """Minutes of a part that are not explaining, setting up or changing."""
    for name, minutes in least.items():
        found = sum(part.practice_s for part in told.plan.parts if part.part == name)
        if found < 60 * minutes:
            yield f"{name} has {found / 60:.1f} minutes of practice"


def minutes_filled(told: Telling, wanted: list[int]) -> Iterator[str]:
    """Least and most minutes from beginning to end."""
    found = sum(part.seconds for part in told.plan.parts) if told.plan else 0
    if not 60 * wanted[0] <= found <= 60 * wanted[1]:
        yield f"the session lasts {found / 60:.1f} minutes"


def version_of(told: Telling, wanted: dict[str, dict[str, str]]) -> Iterator[str]:
    """A child plays this activity in this variant, such as seated."""
    for child, variants in wanted.items():
        found = {part.activity: version.variant for part, _, version in rows(told, child)}
        for activity, variant in variants.items():
            if found.get(activity) != variant:
                yield f"{child} plays {activity} as {found.get(activity)}"


def easier_than(told: Telling, wanted: dict[str, str]) -> Iterator[str]:
    """All that a child plays of the step's skill lies below the step."""
    for child, step in wanted.items():
        order = [one.id for one in LIBRARY.skills[step.split(".")[0]].steps]
        for _, _, version in rows(told, child):
            if version.step in order and order.index(version.step) >= order.index(step):
                yield f"{child} plays {version.id}"


def every_version_serves(told: Telling, wanted: dict[str, str]) -> Iterator[str]:
    """Each version of a child is written for this way of getting about."""
    for child, way in wanted.items():
        for _, _, version in rows(told, child):
            if way not in version.gets_about:
                yield f"{child} plays {version.id}, which is for {version.gets_about}"


def far_child_is_not_least(told: Telling, child: str) -> Iterator[str]:
    """In tries over the whole session, somebody else has as few."""
    found = {name: sum(tries(told, name).values()) for name in people(told)}
    if found[child] < min(count for name, count in found.items() if name != child):
        yield f"{child} has the fewest tries: {found}"


def far_child_is_not_last(told: Telling, child: str) -> Iterator[str]:
    """In the first game of turns somebody else is last, and in no two running is this child."""
    room = [one for one in people(told) if _is_in_the_room(told, one)]
    last = [
        [row.id for row in part.children if row.id in room][-1]
        for part in (told.plan.parts if told.plan else ())
        if part.part != "course" and 0 < LIBRARY.activities[part.activity].lanes < len(room)
    ]
    if not last:
        yield "nobody waits for a turn: choose another story"
    if last[:1] == [child] or (child, child) in pairwise(last):
        yield f"last are {last}"


def _is_in_the_room(told: Telling, child: str) -> bool:
    group = told.caseload.group("group")
    return any(one.child == child and one.place == "room" for one in group.members)


def real_parts(told: Telling, wanted: bool) -> Iterator[str]:
    """Each part but arrival and closing is played as long as it takes to begin it."""
    for name in {part.part for part in told.plan.parts} if told.plan else ():
        own = [part for part in told.plan.parts if part.part == name] if told.plan else []
        doing = sum(part.practice_s for part in own)
        rest = sum(part.seconds for part in own) - doing
        if wanted and name not in ("arrival", "closing") and doing < rest:
            yield f"{name} is played for {doing} s and takes {rest} s to begin"


def notice_of(told: Telling, wanted: dict[str, dict[str, Any]]) -> Iterator[str]:
    """The plan says this, with these values."""
    for code, values in wanted.items():
        found = [one.values for one in told.plan.notices if one.code == code] if told.plan else []
        if not any(values.items() <= one.items() for one in found):
            yield f"{code} says {found}"


def new_things_at_most(told: Telling, most: int) -> Iterator[str]:
    for child in people(told):
        new = [version.id for _, row, version in rows(told, child) if row.new]
        if len(new) > most:
            yield f"{child} meets {new}"


def turns_at_most(told: Telling, most: int) -> Iterator[str]:
    for child in people(told):
        turns = sum(v.whole_turns * row.amount * part.rounds for part, row, v in rows(told, child))
        if turns > most:
            yield f"{child} turns round {turns} times"


def helper_needs_hands_at_most(told: Telling, wanted: dict[str, int]) -> Iterator[str]:
    for child, most in wanted.items():
        for _, _, version in rows(told, child):
            if version.hands > most:
                yield f"{version.id} of {child} takes {version.hands} hands"


def no_louder_than(told: Telling, wanted: dict[str, str]) -> Iterator[str]:
    for child, most in wanted.items():
        for _, _, version in rows(told, child):
            if LOUDNESS.index(version.noise) > LOUDNESS.index(most):
                yield f"{version.id} of {child} is {version.noise}"


def fits_in_cm(told: Telling, wanted: dict[str, list[int]]) -> Iterator[str]:
    """The floor of each version with free space on every side, laid either way."""
    for child, floor in wanted.items():
        for _, _, version in rows(told, child):
            takes = (
                version.length_cm + 2 * version.clear_cm,
                version.width_cm + 2 * version.clear_cm,
            )
            if any(side > room for side, room in zip(sorted(takes), sorted(floor), strict=True)):
                yield f"{version.id} of {child} takes {takes[0]} by {takes[1]} cm"


def uses_only(told: Telling, wanted: dict[str, list[str]]) -> Iterator[str]:
    """No other things for a child, at home where nothing else is."""
    for child, things in wanted.items():
        for _, row, version in rows(told, child):
            more = sorted(set(row.things) - set(things))
            if more:
                yield f"{version.id} of {child} is played with {more}"


def plan_names_dropped_goal(told: Telling, wanted: dict[str, str]) -> Iterator[str]:
    """The goal of a child that this session does not serve, with a day when it comes back."""
    for child, skill in wanted.items():
        found = [one for one in told.plan.dropped if one.child == child] if told.plan else []
        named = [one for one in found if _skill(told, child, one.goal) == skill]
        if not named:
            yield f"no goal {skill} of {child} is named as dropped"
        yield from (f"{child}'s {skill} has no day" for one in named if not _later(one.back))


def _skill(told: Telling, child: str, goal: str) -> str:
    [skill] = [one.skill for one in told.caseload.child(child).goals if one.id == goal]
    return skill


def _later(back: dt.date | None) -> bool:
    return back is not None and back > DAY


def every_goal_is_played_or_named(told: Telling, wanted: bool) -> Iterator[str]:
    """No goal is forgotten: it has tries today, or the plan says that it has none."""
    dropped = {(one.child, one.goal) for one in told.plan.dropped} if told.plan else set()
    for name in people(told):
        for goal in told.caseload.child(name).goals:
            has_tries = tries(told, name).get(goal.skill, 0) > 0
            if has_tries is ((name, goal.id) in dropped):
                yield f"{goal.name} of {name}: tries {has_tries}, dropped {not has_tries}"


def flags(told: Telling, wanted: dict[str, str]) -> Iterator[str]:
    """This rule's caution stands beside this child's row somewhere."""
    for child, rule in wanted.items():
        if not any(rule in row.flags for _, row, _ in rows(told, child)):
            yield f"{rule} is not said for {child}"


def notice(told: Telling, wanted: list[str]) -> Iterator[str]:
    found = {one.code for one in told.plan.notices} if told.plan else set()
    yield from (f"no notice {code}: {sorted(found)}" for code in wanted if code not in found)


def rule_that_bound(told: Telling, wanted: list[str]) -> Iterator[str]:
    """The plan says that this rule took something away."""
    found = {one.rule for one in told.plan.binding} if told.plan else set()
    yield from (
        f"{rule} is not said to bind: {sorted(found)}" for rule in wanted if rule not in found
    )


def then_the_checker_says(told: Telling, words: str) -> Iterator[str]:
    """After the change, the plan that was made before is found out."""
    if not any(words in sentence for sentence in told.faults_after):
        yield f"the checker says {told.faults_after}"


def refused_because(told: Telling, wanted: list[str] | str) -> Iterator[str]:
    """No plan, and these are among the wishes and limits that clash."""
    clash = told.refusal.clash if isinstance(told.refusal, NoFeasiblePlan) else ()
    for one in [wanted] if isinstance(wanted, str) else wanted:
        if one not in clash:
            yield f"{one} is not in the clash {clash}: {told.refusal}"


def refused_in_words(told: Telling, words: list[str]) -> Iterator[str]:
    """Each of these words stands in the sentence, which names no line of code."""
    sentence = told.refusal.message if told.refusal else "a plan was made"
    yield from (f"{one!r} is not in: {sentence}" for one in words if one not in sentence)
    if told.refusal and not sentence.endswith("."):
        yield f"this is no sentence: {sentence}"


def way_out_says(told: Telling, words: list[str]) -> Iterator[str]:
    """One way out for each of these words, such as a name."""
    out = told.refusal.ways_out if isinstance(told.refusal, NoFeasiblePlan) else ()
    yield from (
        f"no way out says {one!r}: {out}" for one in words if not any(one in way for way in out)
    )


def ways_out_work(told: Telling, least: int) -> Iterator[str]:
    """At least so many ways out, and each of them gives a plan when it is taken."""
    out = told.refusal.requests if isinstance(told.refusal, NoFeasiblePlan) else ()
    if len(out) < least:
        yield f"there are {len(out)} ways out: {told.refusal}"
    for request, words in zip(out, getattr(told.refusal, "ways_out", ()), strict=True):
        try:
            plan_session(
                _for_minutes(told, request),
                group="group",
                on=request.date,
                wishes=request.wishes,
                adults=request.adults,
            )
        except NoFeasiblePlan as refusal:
            yield f"{words} But then: {refusal}"


def _for_minutes(told: Telling, request: Any) -> Any:
    [group] = told.caseload.groups
    floor = request.limits.floor_of_trials
    changed = replace(group, minutes=request.seconds // 60, floor_of_trials=floor)
    return replace(told.caseload, groups=(changed,))


# Refuse if ...


def activity_touches(told: Telling, wanted: dict[str, list[str]]) -> Iterator[str]:
    """What a child (or anybody) does, or plays with, touches one of these words."""
    for child, words in wanted.items():
        for _, row, version in rows(told, None if child == "anybody" else child):
            met = sorted(touched(row, version) & set(words))
            if met:
                yield f"{version.id} of {row.id} touches {met}"


def thing_used(told: Telling, wanted: dict[str, list[str]]) -> Iterator[str]:
    for child, things in wanted.items():
        for _, row, version in rows(told, None if child == "anybody" else child):
            met = sorted(set(row.things) & set(things))
            if met:
                yield f"{version.id} of {row.id} is played with {met}"


def in_plan(told: Telling, activities: list[str]) -> Iterator[str]:
    yield from (f"{one} is played" for one in activities if one in played(told))


def part_in_plan(told: Telling, names: list[str]) -> Iterator[str]:
    found = {part.part for part in told.plan.parts} if told.plan else set()
    yield from (f"there is a part {name}" for name in names if name in found)


def flagged_for(told: Telling, wanted: dict[str, list[str]]) -> Iterator[str]:
    """One of these rules stands beside a row of a child whom it does not concern."""
    for child, rules in wanted.items():
        for _, row, version in rows(told, child):
            yield from (f"{version.id} of {child} says {one}" for one in rules if one in row.flags)


def jargon(told: Telling, words: list[str]) -> Iterator[str]:
    """One of these words stands in what she reads when she is refused."""
    yield from (
        f"{one!r} is in: {told.refusal}" for one in words if one in str(told.refusal).lower()
    )


ACCEPT: dict[str, Condition] = {
    one.__name__: one
    for one in (
        a_plan_is_made,
        checker_finds,
        same_activity_for_all,
        everybody_has_tries,
        plays,
        parts,
        part_minutes,
        fewest_minutes_of_practice,
        minutes_filled,
        version_of,
        easier_than,
        every_version_serves,
        far_child_is_not_least,
        far_child_is_not_last,
        real_parts,
        new_things_at_most,
        turns_at_most,
        helper_needs_hands_at_most,
        no_louder_than,
        fits_in_cm,
        uses_only,
        plan_names_dropped_goal,
        every_goal_is_played_or_named,
        flags,
        notice,
        notice_of,
        rule_that_bound,
        then_the_checker_says,
        refused_because,
        refused_in_words,
        way_out_says,
        ways_out_work,
    )
}
REFUSE: dict[str, Condition] = {
    one.__name__: one
    for one in (activity_touches, thing_used, in_plan, part_in_plan, flagged_for, jargon)
}
# Of every session that a story accepts, said or not.
ALWAYS = {
    "a_plan_is_made": True,
    "checker_finds": "nothing",
    "same_activity_for_all": True,
    "new_things_at_most": 1,
    "turns_at_most": 3,
    "every_goal_is_played_or_named": True,
}
# A story that asks one of these wants no plan.
WANTS_NO_PLAN = {"refused_because", "refused_in_words", "way_out_says", "ways_out_work"}
