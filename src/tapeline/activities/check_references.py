"""Do the records fit together? References, progressions, hazards: one sentence a fault."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from tapeline.activities.allowed import Here, Stock, Who, candidates_for, what_is_allowed
from tapeline.activities.icf import icf_codes
from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.models import Activity, Library, Material, Skill, Version, Where
from tapeline.activities.rules import RuleBook

AGE_CHECKED_MONTHS = 60
ACTIVITIES_A_STEP = 2
SAID_OF_A_SKILL = ("so_that", "success", "errors", "watch", "source")


def unknown_things(library: Library, activities: Iterable[Activity] | None = None) -> set[str]:
    """Ids of things that are named and not there, in the whole library or in some activities."""
    chosen = library.activities.values() if activities is None else activities
    named = {name for thing in library.materials.values() for name in thing.substitutes}
    for activity in chosen:
        for version in activity.versions:
            named |= {name for need in version.things for name in need.any_of}
    return named - library.materials.keys()


def faults_in_rules(book: RuleBook) -> Iterator[str]:
    """Rules and precautions that name what is not there."""
    for rule in book.rules:
        if rule.touches not in book.touches:
            yield f"Rule {rule.id} looks at {rule.touches}, which is no word of touches.yaml."
        if rule.precaution is not None and rule.precaution not in book.precautions:
            yield f"Rule {rule.id} names the precaution {rule.precaution}, which is not there."
        if rule.precaution is None and not rule.sentence_es.strip():
            yield f"Rule {rule.id} is read by families and has no Spanish."
    kinds = content_of(data_file("safety/emergency.yaml"))["kinds"]
    for precaution in book.precautions.values():
        for kind in precaution.emergencies:
            if kind not in kinds:
                yield f"Precaution {precaution.id} calls for {kind}, which emergency.yaml lacks."
        if len(precaution.stop_signs) != len(precaution.stop_signs_es):
            yield f"Precaution {precaution.id} has stop signs in one language only."


def faults_in_materials(library: Library, book: RuleBook) -> Iterator[str]:
    """Things with unknown hazards or substitutes, or that are called a landing."""
    for thing in library.materials.values():
        for word in thing.touches:
            if word not in book.touches:
                yield f"Material {thing.id} touches {word}, which is no word of touches.yaml."
        for name in thing.substitutes:
            other = library.materials.get(name)
            if other is None:
                yield f"Material {thing.id} has the substitute {name}, which is not there."
            elif not _stands_in(other, thing):
                yield f"Material {name} stands in for {thing.id} but is not for the same."
        if not thing.name.strip() or not thing.name_es.strip():
            yield f"Material {thing.id} wants a name in English and in Spanish."
        if not thing.functions:
            yield f"Material {thing.id} serves for nothing; name what it can do in a game."
        if "landing" in thing.functions:
            yield f"Material {thing.id} is called a landing; no thing of the library is one."


def _stands_in(other: Material, thing: Material) -> bool:
    """Whether it does what the thing is mainly for, and at least half of all it does."""
    shared = set(thing.functions) & set(other.functions)
    if not thing.functions:
        return False
    return thing.functions[0] in shared and 2 * len(shared) >= len(thing.functions)


def faults_in_skills(library: Library) -> Iterator[str]:
    """Progressions that cannot be climbed: each step changes one thing and has activities."""
    words = content_of(data_file("rules/grading.yaml"))["changes"]
    codes = icf_codes()
    serving = _activities_by_step(library)
    for skill in library.skills.values():
        if skill.icf not in codes:
            yield f"Skill {skill.id} has the ICF code {skill.icf}, which the table lacks."
        for name in SAID_OF_A_SKILL:
            if not getattr(skill, name):
                yield f"Skill {skill.id} says nothing under {name}."
        yield from _faults_in_progression(skill, words)
        for step in skill.steps:
            found = serving.get(step.id, set())
            if not found:
                yield f"Step {step.id} has no version, so no child can practise it."
            elif len(found) < ACTIVITIES_A_STEP:
                only = ", ".join(sorted(found))
                yield f"Step {step.id} has only the activity {only}; give it a second one."


def _activities_by_step(library: Library) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for activity in library.activities.values():
        for version in activity.versions:
            if version.step is not None:
                found.setdefault(version.step, set()).add(activity.id)
    return found


def _faults_in_progression(skill: Skill, words: list[str]) -> Iterator[str]:
    first, *later = skill.steps
    if first.changes is not None:
        yield f"Step {first.id} is the first one, so it cannot change {first.changes}."
    for before, step in zip(skill.steps, later, strict=False):
        if step.changes not in words:
            yield f"Step {step.id} changes {step.changes!r}; name one word of grading.yaml."
        if step.difficulty <= before.difficulty:
            yield f"Step {step.id} is not harder than {before.id}, which stands before it."
    for step in skill.steps:
        if not step.id.startswith(f"{skill.id}."):
            yield f"Step {step.id} must begin with {skill.id} and a dot."


def faults_in_versions(activity: Activity, library: Library, book: RuleBook) -> Iterator[str]:
    """Versions that name what is not there, or contradict themselves."""
    skill = library.skill_of(activity.id)
    steps = {step.id for step in skill.steps} if skill else {None}
    for version in activity.versions:
        if version.step not in steps:
            yield f"{version.id} names the step {version.step}, which is not in its progression."
        if not all(need.any_of and need.count > 0 for need in version.things):
            yield f"{version.id} has a need that names no thing, or none of it."
        unknown = {thing for need in version.things for thing in need.any_of}
        for thing in sorted(unknown - library.materials.keys()):
            yield f"{version.id} needs {thing}, which is no material."
        for word in version.touches:
            if word not in book.touches:
                yield f"{version.id} touches {word}, which is no word of touches.yaml."
        if version.whole_turns and not {"turn", "roll"} & set(version.touches):
            yield f"{version.id} counts whole turns but touches neither turn nor roll."
        if version.whole_turns * version.least > book.turn_cap:
            yield f"{version.id} needs more turns than the cap of {book.turn_cap} allows."


def faults_in_hazards(activity: Activity, library: Library, book: RuleBook) -> Iterator[str]:
    """Versions that no child could ever do, because their own needs forbid them."""
    for version in activity.versions:
        for where in version.where:
            ruling = what_is_allowed(
                version,
                who=_a_child(version),
                here=_place_it_asks_for(version, where, library),
                library=library,
                book=book,
                on=date.fromisoformat(book.date),
            )
            if ruling.status == "blocked":
                yield f"{version.id} is blocked by {', '.join(ruling.rules)} with what it needs."


def _a_child(version: Version) -> Who:
    return Who(
        id="anyone",
        age_months=AGE_CHECKED_MONTHS,
        gets_about=version.gets_about[0],
        precautions=frozenset(),
    )


def _place_it_asks_for(version: Version, where: Where, library: Library) -> Here:
    owned = {thing for need in version.things for thing in candidates_for(need, library)}
    return Here(
        where=where,
        length_cm=version.length_cm + 2 * version.clear_cm,
        width_cm=version.width_cm + 2 * version.clear_cm,
        things={thing: Stock() for thing in owned},
        hands=version.hands,
        loudest=version.noise,
        youngest_months=AGE_CHECKED_MONTHS,
    )
