"""The library as pages show it: by family, found by words, and one activity with its versions."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from tapeline.activities.allowed import candidates_for, rules_on
from tapeline.activities.find import Wanted, matches
from tapeline.activities.icf import icf_title
from tapeline.activities.models import Activity, Library, Need, Skill, Step, Version
from tapeline.activities.rules import Precaution, Rule, RuleBook
from tapeline.figures.tokens import TAPES
from tapeline.units import length_in_words
from tapeline.web.selectors.drawn import Drawn, commonest_drawn

WITHOUT_SKILL = {
    "arrival": "arrival_closing",
    "closing": "arrival_closing",
    "warm_up": "warm_up_cool_down",
    "cool_down": "warm_up_cool_down",
}


@dataclass(frozen=True, kw_only=True)
class ActivityLine:
    """One activity in a list; `fitting` of its versions are as asked for."""

    activity: Activity
    skill: str
    fitting: int


@dataclass(frozen=True, kw_only=True)
class FamilyShelf:
    """The activities of one family, or of the parts without a skill."""

    kind: str
    name: str
    lines: tuple[ActivityLine, ...]


def shelves(library: Library, wanted: Wanted, *, words: str = "") -> tuple[FamilyShelf, ...]:
    """What matches, family by family in the order of the tapes.

    Every word must stand in the name, the skill, a sentence to do or a thing of the activity.
    """
    looked_for = words.casefold().split()
    index = _index(library)
    found: dict[str, list[ActivityLine]] = {kind: [] for kind in TAPES}
    for match in matches(library, wanted):
        activity = match.activity
        if all(word in index[activity.id] for word in looked_for):
            skill = library.skill_of(activity.id)
            line = ActivityLine(
                activity=activity, skill=skill.name if skill else "", fitting=len(match.versions)
            )
            found[kind_of(activity, library)].append(line)
    return tuple(
        FamilyShelf(kind=kind, name=TAPES[kind].english, lines=tuple(_by_skill(lines)))
        for kind, lines in found.items()
        if lines
    )


def _by_skill(lines: list[ActivityLine]) -> list[ActivityLine]:
    return sorted(lines, key=lambda line: (line.skill, line.activity.name.casefold()))


def things_to_choose(library: Library) -> tuple[tuple[str, str], ...]:
    """Ids and names of the things some version is played with, by name."""
    used = {
        thing
        for activity in library.activities.values()
        for version in activity.versions
        for need in version.things
        for thing in candidates_for(need, library)
    }
    found = ((name, library.materials[name].name) for name in used)
    return tuple(sorted(found, key=lambda pair: pair[1].casefold()))


def kind_of(activity: Activity, library: Library) -> str:
    """The tape of an activity: its family, or that of its part."""
    skill = library.skill_of(activity.id)
    if skill is not None:
        return skill.family
    return next(
        (WITHOUT_SKILL[use] for use in activity.uses if use in WITHOUT_SKILL), "arrival_closing"
    )


_kept: dict[str, dict[str, str]] = {}


def _index(library: Library) -> dict[str, str]:
    """Activity id to everything that is searched, in small letters; one index is kept."""
    if library.version not in _kept:
        _kept.clear()
        _kept[library.version] = {
            name: _text_of(one, library) for name, one in library.activities.items()
        }
    return _kept[library.version]


def _text_of(activity: Activity, library: Library) -> str:
    skill = library.skill_of(activity.id)
    texts = [activity.name, activity.lead, skill.name if skill else ""]
    for version in activity.versions:
        texts.append(version.do)
        for need in version.things:
            texts += [library.materials[thing].name for thing in need.any_of]
    return " ".join(texts).casefold()


@dataclass(frozen=True, kw_only=True)
class VersionView:
    """One version in words."""

    version: Version
    things: tuple[str, ...]
    floor: str
    touches: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class StepShelf:
    """The versions for one step of the progression; no step for a part without a skill."""

    step: Step | None
    place: int
    versions: tuple[VersionView, ...]


@dataclass(frozen=True, kw_only=True)
class Caution:
    """What a precaution does with this activity."""

    precaution: Precaution
    blocks: tuple[str, ...]
    flags: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class ActivityView:
    """An activity with its versions along the progression and what to be careful with."""

    activity: Activity
    kind: str
    skill: Skill | None
    icf: str
    steps: tuple[StepShelf, ...]
    move: Drawn | None
    by_age: tuple[str, ...]
    cautions: tuple[Caution, ...]


def activity_view(activity_id: str, library: Library, book: RuleBook) -> ActivityView | None:
    """One activity, or None where the library has none with this id."""
    activity = library.activities.get(activity_id)
    if activity is None:
        return None
    skill = library.skill_of(activity_id)
    rules = rules_on(activity, library, book)
    return ActivityView(
        activity=activity,
        kind=kind_of(activity, library),
        skill=skill,
        icf=f"{skill.icf} {icf_title(skill.icf)}" if skill else "",
        steps=_steps(activity, skill, library, book),
        move=commonest_drawn(activity.versions),
        by_age=tuple(rule.sentence for rule in rules if rule.precaution is None),
        cautions=_cautions(rules, book),
    )


def _steps(
    activity: Activity, skill: Skill | None, library: Library, book: RuleBook
) -> tuple[StepShelf, ...]:
    steps: list[Step | None] = list(skill.steps) if skill else [None]
    found = []
    for place, step in enumerate(steps, 1):
        wanted = step.id if step else None
        views = tuple(
            _version_view(version, library, book)
            for version in activity.versions
            if version.step == wanted
        )
        if views:
            found.append(StepShelf(step=step, place=place, versions=views))
    return tuple(found)


def _version_view(version: Version, library: Library, book: RuleBook) -> VersionView:
    return VersionView(
        version=version,
        things=tuple(_need_in_words(need, library) for need in version.things),
        floor=f"{length_in_words(version.length_cm)} × {length_in_words(version.width_cm)}",
        touches=tuple(book.touches[word] for word in version.touches),
    )


def _need_in_words(need: Need, library: Library) -> str:
    names = [library.materials[thing].name for thing in candidates_for(need, library)]
    text = names[0] if len(names) == 1 else _("one of %(things)s") % {"things": ", ".join(names)}
    return f"{need.count} × {text}" if need.count > 1 else text


def _cautions(rules: list[Rule], book: RuleBook) -> tuple[Caution, ...]:
    by_precaution: dict[str, list[Rule]] = {}
    for rule in rules:
        if rule.precaution is not None:
            by_precaution.setdefault(rule.precaution, []).append(rule)
    found = (
        Caution(
            precaution=book.precautions[name],
            blocks=tuple(rule.sentence for rule in ours if rule.effect == "blocks"),
            flags=tuple(rule.sentence for rule in ours if rule.effect == "flags"),
        )
        for name, ours in by_precaution.items()
    )
    return tuple(sorted(found, key=lambda one: (not one.blocks, one.precaution.name)))
