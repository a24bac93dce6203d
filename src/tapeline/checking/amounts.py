"""How much: amounts, new things, full turns, and the floor of trials."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from tapeline.checking.allowed import may_be_done
from tapeline.checking.fault import Fault
from tapeline.checking.own import is_left_out
from tapeline.checking.people import Person
from tapeline.checking.record import steps_tried
from tapeline.checking.scene import Played, Scene

WITH_TRIALS = ("revisit", "practice", "course", "fine_motor")


def amounts_are_worth_doing(scene: Scene) -> Iterator[Fault]:
    """At least 1, and at most what is worth doing, unless she asked for that amount."""
    for one in scene.played:
        amount, most = one.row["amount"], one.version.most
        if amount < 1 or one.part["rounds"] < 1:
            found = f"has {amount} {one.version.unit} in {one.part['rounds']} rounds."
        elif one.units > most and not _asked_for(one, scene):
            found = f"has {one.units} {one.version.unit} over all rounds; {most} at most."
        else:
            continue
        yield _fault("amount", one, found)


def new_things_are_few(scene: Scene) -> Iterator[Fault]:
    """New rows are marked, and no child has more of them than the limit.

    What was new when it was played counts as that, whatever was tried since.
    """
    ahead = scene.parts[scene.parts_played :]
    limit = scene.request["limits"]["new_things"]
    counts: Counter[str] = Counter()
    for one in scene.played:
        new = is_new(one, scene) if one.part in ahead else one.row["new"]
        counts[one.person.id] += new
        if new != one.row["new"]:
            found = "is a new step and not marked so." if new else "is marked new and is not."
            yield _fault("new", one, found)
    for child, count in counts.items():
        if count > limit:
            yield Fault(
                kind="new",
                child=child,
                sentence=f"{child} has {count} new rows; {limit} at most.",
            )


def turns_stay_under_the_cap(scene: Scene) -> Iterator[Fault]:
    """Full turns count over all parts and rounds of a child's session."""
    cap = scene.request["limits"]["turn_cap"]
    turns: Counter[str] = Counter()
    for one in scene.played:
        turns[one.person.id] += one.version.whole_turns * one.units
    for child, count in turns.items():
        if count > cap:
            yield Fault(
                kind="turns",
                child=child,
                sentence=f"{child} has {count} full turns in the session; {cap} at most.",
            )


def everybody_has_trials_on_a_goal(scene: Scene) -> Iterator[Fault]:
    """Each child has the floor of tries on the skill of one own goal, or on what stands for it."""
    floor = scene.request["limits"]["floor_of_trials"]
    tries = tries_of(scene)
    for person in scene.people:
        skills = skills_that_count(person, scene)
        own = tries[person.id]
        counted = {skill: own[skill] for skill in (own if skills is None else skills)}
        if max(counted.values(), default=0) < floor:
            on = "any one skill" if skills is None else " or ".join(sorted(skills))
            yield Fault(
                kind="trials",
                child=person.id,
                sentence=f"{person.id} has {max(counted.values(), default=0)} tries on {on}; "
                f"{floor} at least.",
            )


def is_new(one: Played, scene: Scene) -> bool:
    """Whether a row's step lies above the child's start and every step with a trial on record."""
    order = scene.library.steps.get(one.version.skill or "", ())
    if one.version.step not in order:
        return False
    known = {start["step"] for start in one.person.record["skills"]}
    known |= steps_tried(one.person.id, scene)
    reached = max((order.index(step) for step in known if step in order), default=0)
    return order.index(one.version.step) > reached


def skills_that_count(person: Person, scene: Scene) -> set[str] | None:
    """The skills on which the floor may be met; None where any skill will do."""
    if person.id in scene.request["wishes"]["any_skill"]:
        return None
    goals = person.record["goals"] or person.record["skills"]
    skills = {goal["skill"] for goal in goals}
    return skills if any(_is_for_all(skill, scene) for skill in skills) else None


def _is_for_all(skill: str, scene: Scene) -> bool:
    """Whether an activity of the skill, left out for nobody, has a version for everybody there."""
    left_out = scene.request["wishes"]["left_out"]
    return any(
        all(
            any(
                may_be_done(version, person, scene, at_once=scene.at_once(use, activity.lanes))
                for version in activity.versions
            )
            for person in scene.people
        )
        for activity in scene.library.activities.values()
        if activity.skill == skill and activity.id not in left_out
        if not any(is_left_out(scene.caseload, activity.id, person) for person in scene.people)
        for use in activity.uses
        if use in WITH_TRIALS
    )


def tries_of(scene: Scene) -> defaultdict[str, Counter[str]]:
    """Tries of each child by skill, in the parts that count them."""
    tries: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for one in scene.played:
        if one.version.skill and one.part["part"] in WITH_TRIALS:
            tries[one.person.id][one.version.skill] += one.units // one.version.try_size
    return tries


def _asked_for(one: Played, scene: Scene) -> bool:
    return any(
        asked["activity"] == one.activity.id
        and asked["child"] in (None, one.person.id)
        and asked["amount"] == one.row["amount"]
        for asked in scene.request["wishes"]["amounts"]
    )


def _fault(kind: str, one: Played, found: str) -> Fault:
    return Fault(
        kind=kind, child=one.person.id, activity=one.activity.id, sentence=f"{one.words} {found}"
    )
