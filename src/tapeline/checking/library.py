"""The library as the checker reads it: versions, steps in order, materials.

Reads the YAML files of ``data/library`` and the caseload's own activities; only what a rule
of a plan looks at is kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from importlib.resources.abc import Traversable
from typing import Any

import yaml

from tapeline.checking.readers import (
    anything,
    by_id,
    maybe,
    number,
    one_of,
    record,
    refuse,
    rows,
    text,
    whole,
    yes_no,
)
from tapeline.checking.shapes import LATEX, NOISES, PARTS, words
from tapeline.errors import InputError

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
ENOUGH = record({"any_of": words, "count": (whole, 1), "each": (yes_no, False)})
VERSION = record(
    {
        "step": (maybe(text), None),
        "variant": (text, "usual"),
        "unit": text,
        "seconds_per_unit": rows(number),
        "most": whole,
        "try_size": (whole, 1),
        "length_cm": whole,
        "width_cm": whole,
        "clear_cm": (whole, 0),
        "things": (rows(ENOUGH), []),
        "adult_need": one_of("within_sight", "beside", "hands_on"),
        "hands": (whole, 0),
        "noise": one_of(*NOISES),
        "touches": (words, []),
        "whole_turns": (whole, 0),
        "position": (text, "standing"),
        "gets_about": words,
        "where": words,
    },
    extra=True,
)
ACTIVITY = record(
    {
        "id": text,
        "uses": rows(one_of(*PARTS)),
        "lanes": (whole, 0),
        "skill": (text, None),
        "all": (by_id(anything), {}),
        "versions": rows(by_id(anything)),
    },
    extra=True,
)
MATERIAL = record(
    {
        "may_contain_latex": one_of(*LATEX),
        "touches": (words, []),
        "substitutes": (words, []),
    },
    extra=True,
)


@dataclass(frozen=True, kw_only=True)
class Need:
    """One line of `things`: any of these materials, this many, for each child or the place."""

    any_of: tuple[str, ...]
    count: int
    each: bool


@dataclass(frozen=True, kw_only=True)
class Version:
    """What the rules of a plan look at in one version.

    `length_cm` and `width_cm` hold the clear space on every side.
    """

    id: str
    activity: str
    skill: str | None
    step: str | None
    unit: str
    seconds_young: Fraction
    seconds_older: Fraction
    most: int
    try_size: int
    length_cm: int
    width_cm: int
    needs: tuple[Need, ...]
    adult_need: str
    hands: int
    noise: str
    touches: frozenset[str]
    whole_turns: int
    position: str
    gets_about: tuple[str, ...]
    where: tuple[str, ...]

    @property
    def floor_cm2(self) -> int:
        """Floor with its clear space, in square centimetres."""
        return self.length_cm * self.width_cm

    def seconds_each(self, age_months: int) -> Fraction:
        """Seconds one unit takes a child of this age."""
        return self.seconds_young if age_months < 60 else self.seconds_older


@dataclass(frozen=True, kw_only=True)
class Activity:
    """An activity: where it may stand, how many are at it at once, its versions."""

    id: str
    skill: str | None
    uses: tuple[str, ...]
    lanes: int
    versions: tuple[Version, ...]


@dataclass(frozen=True, kw_only=True)
class Material:
    """A thing: the words it touches, what stands in for it, and whether it is rubber."""

    latex: str
    touches: frozenset[str]
    substitutes: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Library:
    """Steps per skill, easiest first; activities and materials by id."""

    steps: dict[str, tuple[str, ...]]
    activities: dict[str, Activity]
    materials: dict[str, Material]

    def version(self, version_id: str) -> Version | None:
        """The version with this id, or None."""
        activity = self.activities.get(version_id.split(".", 1)[0])
        own = activity.versions if activity else ()
        return next((version for version in own if version.id == version_id), None)

    def serves(self, material: str, need: Need) -> bool:
        """Whether a material is one of a need's, or a direct substitute of one."""
        return any(
            material == wanted
            or (wanted in self.materials and material in self.materials[wanted].substitutes)
            for wanted in need.any_of
        )

    def serving(self, need: Need) -> tuple[str, ...]:
        """All materials that serve a need, the named ones first."""
        known = [self.materials[name] for name in need.any_of if name in self.materials]
        spare = (name for material in known for name in material.substitutes)
        return tuple(dict.fromkeys((*need.any_of, *spare)))

    def with_own(self, own: Iterable[dict[str, Any]]) -> Library:
        """This library with the caseload's own activities."""
        more = [_activity(found, f"own activity {place}") for place, found in enumerate(own, 1)]
        for activity in more:
            self._refuse_unknown_steps(activity)
        return replace(self, activities={**self.activities, **{each.id: each for each in more}})

    def _refuse_unknown_steps(self, activity: Activity) -> None:
        if activity.skill is not None and activity.skill not in self.steps:
            raise InputError(
                f"Own activity {activity.id} names the skill {activity.skill}, which the "
                "library does not have.",
                field="own_activities",
            )
        order = self.steps.get(activity.skill or "", ())
        for version in activity.versions:
            if version.step is not None and version.step not in order:
                raise InputError(
                    f"Own activity {activity.id} names the step {version.step}, which is not "
                    f"one of skill {activity.skill}.",
                    field="own_activities",
                )


def read_library(folder: Traversable) -> Library:
    """The library in a folder laid out as ``data/library``.

    Raises
    ------
    InputError
        A file is no YAML, or lacks what a rule needs.
    """
    steps: dict[str, tuple[str, ...]] = {}
    activities: dict[str, Activity] = {}
    for name, content in _skill_files(folder):
        skill = content.get("skill")
        if skill:
            steps[skill["id"]] = tuple(step["id"] for step in skill.get("steps", ()))
        for found in content.get("activities") or ():
            named = {**found, "skill": skill["id"]} if skill else found
            one = _activity(named, name)
            activities[one.id] = one
    return Library(steps=steps, activities=activities, materials=_materials(folder))


def read_yaml(file: Traversable) -> dict[str, Any]:
    """The mapping in a YAML file."""
    try:
        content = yaml.load(file.read_text(encoding="utf-8"), Loader=LOADER)
    except yaml.YAMLError as error:
        raise InputError(f"{file.name} is not YAML: {error}.") from None
    if not isinstance(content, dict):
        raise InputError(f"{file.name} holds no mapping.")
    return content


def _skill_files(folder: Traversable) -> Iterator[tuple[str, dict[str, Any]]]:
    for family in sorted(folder.iterdir(), key=lambda entry: entry.name):
        if not family.is_dir():
            continue
        for file in sorted(family.iterdir(), key=lambda entry: entry.name):
            if file.name.endswith(".yaml") and not file.name.endswith(".es.yaml"):
                yield file.name, read_yaml(file)


def _materials(folder: Traversable) -> dict[str, Material]:
    read = by_id(MATERIAL)(read_yaml(folder.joinpath("materials.yaml")), "materials.yaml")
    return {
        name: Material(
            latex=found["may_contain_latex"],
            touches=frozenset(found["touches"]),
            substitutes=tuple(found["substitutes"]),
        )
        for name, found in read.items()
    }


def _activity(found: Any, where: str) -> Activity:
    read = ACTIVITY(found, where)
    versions = (
        _version({**read["all"], **own}, read, f"{where}, {read['id']}") for own in read["versions"]
    )
    return Activity(
        id=read["id"],
        skill=read["skill"],
        uses=tuple(read["uses"]),
        lanes=read["lanes"],
        versions=tuple(versions),
    )


def own_version(found: dict[str, Any], activity: Activity, where: str) -> Version:
    """A version that the therapist added to an activity."""
    return _version(found, {"id": activity.id, "skill": activity.skill}, where)


def _version(merged: dict[str, Any], activity: dict[str, Any], where: str) -> Version:
    read = VERSION(merged, where)
    tail = read["step"].split(".", 1)[-1] if read["step"] else "any"
    clear = 2 * read["clear_cm"]
    young, older = _two_numbers(read["seconds_per_unit"], where)
    same = (
        "step",
        "unit",
        "most",
        "try_size",
        "adult_need",
        "hands",
        "noise",
        "whole_turns",
        "position",
    )
    return Version(
        id=f"{activity['id']}.{tail}.{read['variant']}",
        activity=activity["id"],
        skill=activity["skill"],
        seconds_young=young,
        seconds_older=older,
        length_cm=read["length_cm"] + clear,
        width_cm=read["width_cm"] + clear,
        needs=tuple(Need(**{**need, "any_of": tuple(need["any_of"])}) for need in read["things"]),
        touches=frozenset(read["touches"]),
        gets_about=tuple(read["gets_about"]),
        where=tuple(read["where"]),
        **{name: read[name] for name in same},
    )


def _two_numbers(found: list[float], where: str) -> tuple[Fraction, Fraction]:
    if len(found) != 2:
        refuse(f"{where}, seconds_per_unit", found, "a pair of numbers")
    return Fraction(str(found[0])), Fraction(str(found[1]))
