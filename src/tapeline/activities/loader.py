"""The front door to the shipped library, materials and rules.

Files are read once per process. Every fault of every file is gathered into one
`ManyFaults`, each with its file and id.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

from tapeline.activities.build import build_activity, build_material, build_skill
from tapeline.activities.library_files import (
    LibraryFile,
    content_of,
    data_file,
    library_files,
    short_hash,
)
from tapeline.activities.models import Activity, Library, Material, Skill
from tapeline.activities.overlay import Hers, overlay, usable
from tapeline.activities.parsed_files import contents_of
from tapeline.activities.records import Faults
from tapeline.activities.rules import Precaution, Rule, RuleBook

MATERIALS = "library/materials.yaml"
PRECAUTIONS = "rules/precautions.yaml"
RULES = "rules/rules.yaml"


def load_library(own: Iterable[Mapping[str, Any]] = ()) -> Library:
    """The shipped library, with activities of the therapist's own on top.

    Parameters
    ----------
    own
        Activities in the shape of the shipped ones, each naming its `skill` (or none). One
        with the id of a shipped activity takes its place.

    Raises
    ------
    ManyFaults
        Something in the files or in `own` cannot be used; holds every fault.
    """
    return library_with(Hers(activities=tuple(own)))


def library_with(hers: Hers) -> Library:
    """The library in force: the shipped one with everything of hers on top.

    Returns
    -------
    Library
        `version` is a short hash of the English files, the materials and hers, so a plan
        can say what it was made from. Translations do not change it.

    Raises
    ------
    ManyFaults
        Something in the files or of hers cannot be used; holds every fault.
    """
    return overlay(_shipped_library(), hers)


def library_on_file(hers: Hers) -> Library:
    """The library in force, without what an update made unusable; see `overlay.usable`."""
    return usable(_shipped_library(), hers)[0]


@cache
def _shipped_library() -> Library:
    files = (*library_files("english"), data_file(MATERIALS))
    faults = Faults()
    *contents, things = contents_of("library", files, faults)
    skills, activities = _read_skills(zip(files[:-1], contents, strict=True), faults)
    materials = _read_materials(things, faults)
    faults.refuse("The library")
    return Library(
        skills=skills,
        activities=activities,
        materials=materials,
        version=short_hash(*(file.text for file in files)),
    )


def _read_skills(
    files: Iterable[tuple[LibraryFile, Any]], faults: Faults
) -> tuple[dict[str, Skill], dict[str, Activity]]:
    skills: list[tuple[Skill, str]] = []
    activities: list[tuple[Activity, str]] = []
    for file, found in files:
        content = faults.block(found, file.path)
        for name in content.keys() - {"skill", "activities"}:
            faults.add(file.path, f"nothing is called {name!r} at the top of a file.")
        skill = None
        if content.get("skill") is not None:
            skill = build_skill(content["skill"], file.path, faults)
            if skill is None:
                continue
            skills.append((skill, file.path))
        for row in faults.rows(content.get("activities"), file.path):
            activity = build_activity(row, file.path, faults, skill=skill)
            if activity is not None:
                activities.append((activity, file.path))
    faults.same_id(((skill.id, path) for skill, path in skills), "skill")
    faults.same_id(((activity.id, path) for activity, path in activities), "activity")
    return (
        {skill.id: skill for skill, _ in skills},
        {activity.id: activity for activity, _ in activities},
    )


def load_materials() -> dict[str, Material]:
    """Every thing a game may need, by id."""
    return _shipped_library().materials


def _read_materials(found: object, faults: Faults) -> dict[str, Material]:
    content = faults.block(found, MATERIALS)
    made = [build_material(name, row, MATERIALS, faults) for name, row in content.items()]
    return {material.id: material for material in made if material is not None}


@cache
def load_rule_book() -> RuleBook:
    """All rules, precautions and the words they look at.

    Source and mark of a rule are those of its precaution where the row has none.

    Raises
    ------
    ManyFaults
        A row cannot be used; holds every fault.
    """
    faults = Faults()
    files = (data_file(PRECAUTIONS), data_file(RULES))
    kinds, content = contents_of("rules", files, faults)
    precautions = _read_precautions(kinds, faults)
    rules = []
    for row in faults.rows(content.get("rules"), RULES):
        made = _read_rule(row, precautions, faults)
        if made is not None:
            rules.append(made)
    faults.same_id(((rule.id, RULES) for rule in rules), "rule")
    values = load_values()
    faults.refuse("The rules")
    return RuleBook(
        date=str(content["date"]),
        touches=touch_names("en"),
        precautions=precautions,
        rules=tuple(rules),
        turn_cap=int(values["turn_cap"]),
        floor_of_trials=int(values["floor_of_trials"]),
    )


def _read_precautions(kinds: object, faults: Faults) -> dict[str, Precaution]:
    made = {}
    for name, found in faults.block(kinds, PRECAUTIONS).items():
        where = f"{PRECAUTIONS}, {name}"
        block = {**faults.block(found, where), "id": name}
        precaution = faults.record(Precaution, block, where)
        if precaution is not None:
            made[name] = precaution
    return made


def _read_rule(row: object, precautions: Mapping[str, Precaution], faults: Faults) -> Rule | None:
    block = faults.block(row, RULES)
    where = f"{RULES}, {block.get('id', '?')}"
    precaution = precautions.get(str(block.get("precaution")))
    if precaution is not None:
        block = {"source": precaution.source, "mark": precaution.mark, **block}
    return faults.record(Rule, block, where)


@cache
def touch_names(language: str) -> dict[str, str]:
    """How each word that rules look at is said, ``en`` or ``es``."""
    content = content_of(data_file("rules/touches.yaml"))
    return {word: str(names[language]) for word, names in content.items()}


@cache
def load_values() -> dict[str, Any]:
    """The dated numbers of ``rules/values.yaml``, by name, without unit and source."""
    content = content_of(data_file("rules/values.yaml"))
    return {name: found["value"] for name, found in content.items()}


@cache
def plain_facts(field: str) -> dict[str, str]:
    """What stands in the way without any rule: ``because``, or ``next`` step, by fact."""
    content = content_of(data_file("rules/plain_facts.yaml"))
    return {name: str(found[field]) for name, found in content.items()}
