"""The middle of a note: goals, games, tries as n of N, what was changed, blanks, what is next."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tapeline.ability.loss_words import loss_fact
from tapeline.ability.words import proposal_in_words
from tapeline.activities.models import Library, Skill, Step, Version
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Trial, standing_trials
from tapeline.caseload.notes import NoteSentence
from tapeline.caseload.people import Child
from tapeline.errors import InputError
from tapeline.planner.plan import Reason
from tapeline.planner.words import Names, reason_in_words
from tapeline.sessions.learn import SkillLearned
from tapeline.sessions.learned import learned_so_far
from tapeline.sessions.part_taken import PartTaken, planned_rows

BLANKS = {
    "not_offered": "Not offered",
    "refused": "Refused",
    "absent": "Absent for",
    "not_seen": "Not seen",
}


@dataclass(frozen=True, kw_only=True)
class Played:
    """What a child did of one version: its trials in the order of recording."""

    activity: str
    version: str
    trials: tuple[Trial, ...]

    @property
    def tries(self) -> int:
        """N."""
        return sum(trial.count for trial in self.trials)

    @property
    def ids(self) -> tuple[str, ...]:
        """Its trials, as sentences rest on them."""
        return tuple(f"trial:{trial.id}" for trial in self.trials)


def result_sentences(
    caseload: Caseload, part: PartTaken, *, library: Library, names: Names
) -> Iterator[NoteSentence]:
    """Goals, games with their tries, own versions, blanks, and the next step per goal."""
    found = played_of(part.trials)
    skills = {skill.id for one in found if (skill := _skill(one, library))}
    yield from _goals(part.child, skills, caseload, names)
    for one in found:
        yield from _game(one, part, caseload, library, names)
    yield from _blanks(part, names)
    if found:
        yield from _next(caseload, part, skills, library)


def played_of(trials: Iterable[Trial]) -> tuple[Played, ...]:
    """Trials by version, in the order in which each version came first."""
    by_version: dict[str, list[Trial]] = {}
    for trial in trials:
        by_version.setdefault(trial.version, []).append(trial)
    return tuple(
        Played(activity=version.split(".")[0], version=version, trials=tuple(rows))
        for version, rows in by_version.items()
    )


def results_in_words(trials: Iterable[Trial], level_names: dict[str, str]) -> str:
    """Tries as n of N, with the help given: ``alone 3 of 8, with help (word) 4 of 8``.

    "Not yet" names the help that was in force; what did not happen is not said.
    """
    rows = tuple(trials)
    total = sum(trial.count for trial in rows)
    alone = sum(trial.count for trial in rows if trial.outcome == "alone")
    helped: Counter[str] = Counter()
    not_yet: Counter[str] = Counter()
    for trial in rows:
        if trial.outcome == "with_help":
            helped[trial.help] += trial.count
        elif trial.outcome == "not_yet":
            not_yet[trial.help] += trial.count
    said = [f"alone {alone} of {total}"] if alone else []
    said += [
        f"with help ({_level(help, level_names)}) {n} of {total}" for help, n in helped.items()
    ]
    said += [
        f"not yet {n} of {total} (help: {_level(help, level_names)})" for help, n in not_yet.items()
    ]
    return ", ".join(said)


def level_names_of(caseload: Caseload) -> dict[str, str]:
    """Prompt levels by id, over all lists she ever used."""
    return {level.id: level.name for prompts in caseload.prompt_lists for level in prompts.levels}


def _level(help_id: str, level_names: dict[str, str]) -> str:
    return level_names.get(help_id, help_id).lower()


def _goals(
    child: Child, skills: set[str], caseload: Caseload, names: Names
) -> Iterator[NoteSentence]:
    levels = level_names_of(caseload)
    for goal in child.goals:
        if goal.skill in skills:
            running = f" in {goal.m} sessions running" if goal.m > 1 else ""
            yield NoteSentence(
                text=f"Goal: {goal.name} ({goal.k} of {goal.n} tries, "
                f"{_level(goal.help_at_most, levels)}{running}).",
                rests_on=(f"goal:{child.id}/{goal.id}",),
            )


def _game(
    one: Played, part: PartTaken, caseload: Caseload, library: Library, names: Names
) -> Iterator[NoteSentence]:
    skill = _skill(one, library)
    step = f", {skill.name} step {_step(one, skill)} of {len(skill.steps)}" if skill else ""
    game = names.activity(one.activity) or (skill.name if skill else "Tries")
    does = _does(one, library)
    found = results_in_words(one.trials, level_names_of(caseload))
    yield NoteSentence(
        text=f"{game}{step}{f' ({does})' if does else ''}: {found}.", rests_on=one.ids
    )
    yield from _own_version(one, part, caseload, library)
    yield from _why(one, part, names)


def _why(one: Played, part: PartTaken, names: Names) -> Iterator[NoteSentence]:
    """Why the plan chose this version, where it was for an own goal or new."""
    for row in planned_rows(part.session, part.child.id):
        reason = Reason(code=row["reason"]["code"], values=row["reason"].get("values", {}))
        if row["version"] == one.version and (row["new"] or reason.values.get("goal")):
            said = reason_in_words(reason, names)
            if said:
                yield NoteSentence(
                    text=f"Why this version: {said}", rests_on=(f"plan:{part.session.id}",)
                )


def _skill(one: Played, library: Library) -> Skill | None:
    """The skill whose step was tried; None where the library does not have it any more."""
    step = one.trials[0].step
    return next(
        (skill for skill in library.skills.values() if step in {each.id for each in skill.steps}),
        None,
    )


def _does(one: Played, library: Library) -> str:
    version = _version(one.version, library)
    if version is not None:
        return version.do.rstrip(".")
    return f"version {one.version}" if one.version else ""


def _step(one: Played, skill: Skill) -> str:
    known = [step.id for step in skill.steps]
    places = sorted({known.index(row.step) + 1 for row in one.trials if row.step in known})
    return " and ".join(str(place) for place in places)


def _version(version_id: str, library: Library) -> Version | None:
    try:
        return library.find_version(version_id)
    except InputError:
        return None


def _own_version(
    one: Played, part: PartTaken, caseload: Caseload, library: Library
) -> Iterator[NoteSentence]:
    """What was changed for this child, where the other children did another version."""
    others = Counter(trial.version for trial in _versions_of_others(one, part, caseload))
    if not others or one.version in others:
        return
    usual, _ = others.most_common(1)[0]
    theirs, own = _version(usual, library), _version(one.version, library)
    if theirs is None or own is None:
        return
    seated = " (seated)" if own.variant == "seated" and theirs.variant != "seated" else ""
    yield NoteSentence(
        text=f"Own version for {part.child.name}{seated}; others in the same game: {theirs.do}",
        rests_on=(f"version:{one.version}", f"version:{usual}", *one.ids),
    )


def _versions_of_others(one: Played, part: PartTaken, caseload: Caseload) -> tuple[Trial, ...]:
    """One trial of each other child and version in the same game of the same session."""
    rows = standing_trials(
        trial
        for trial in caseload.trials
        if trial.session == part.session.id and trial.child != part.child.id
    )
    same = [trial for trial in rows if trial.version.split(".")[0] == one.activity]
    return tuple({(trial.child, trial.version): trial for trial in same}.values())


def _blanks(part: PartTaken, names: Names) -> Iterator[NoteSentence]:
    by_kind: dict[str, list[str]] = {}
    for blank in part.blanks:
        if blank.activity is not None:
            by_kind.setdefault(blank.kind, []).append(blank.activity)
        elif blank.kind != "absent":
            by_kind.setdefault(blank.kind, []).append("")
    for kind, activities in by_kind.items():
        what = ", ".join(names.activity(one) if one else "the session" for one in activities)
        yield NoteSentence(
            text=f"{BLANKS[kind]}: {what}.",
            rests_on=tuple(f"blank:{part.session.id}/{part.child.id}/{one}" for one in activities),
        )


def _next(
    caseload: Caseload, part: PartTaken, skills: set[str], library: Library
) -> Iterator[NoteSentence]:
    """The step proposed for each goal that was worked on, from all tries up to that day.

    A skill that seems to be lost is told as a fact, with no next step.
    """
    learned = {
        one.skill.id: one
        for one in learned_so_far(caseload, library, part.child, on=part.session.date)
    }
    for one in learned.values():
        if one.skill.id in skills and one.matter is not None:
            yield NoteSentence(
                text=loss_fact(one.matter, one.skill, one.days),
                rests_on=(f"ability:{one.skill.id}",),
            )
    for goal in part.child.goals:
        found = learned.get(goal.skill)
        if goal.skill in skills and found is not None and found.belief.tries and not found.matter:
            step, why = proposed(found, caseload)
            yield NoteSentence(
                text=f"Next for {goal.name}: {step.text} {why}",
                rests_on=(f"goal:{part.child.id}/{goal.id}", f"ability:{goal.skill}"),
            )


def proposed(learned: SkillLearned, caseload: Caseload) -> tuple[Step, str]:
    """The step proposed at a skill, and the sentence that says why."""
    levels = caseload.prompt_levels
    by_place = {place: level.name for place, level in enumerate(levels, start=1)}
    skill = learned.skill
    step = skill.steps[skill.index_of(learned.proposal.step)]
    return step, proposal_in_words(learned.proposal, skill, by_place)
