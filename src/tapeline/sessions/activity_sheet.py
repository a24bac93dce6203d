"""One activity of the library as a sheet to keep, in one language."""

from __future__ import annotations

import datetime as dt
from functools import cache
from typing import Any

import yaml

from tapeline.activities.allowed import candidates_for, rules_on
from tapeline.activities.models import Activity, Library, Step, Version
from tapeline.activities.rules import RuleBook
from tapeline.activities.spanish import FamilyText, Language, skill_text_in, text_in
from tapeline.documents.activity import ActivitySheet, ActivityStep, ActivityWay, print_activity
from tapeline.documents.packet import Drawing, Figure
from tapeline.documents.pictures import can_show, three_pictures
from tapeline.documents.typesetting import documents_folder
from tapeline.sessions.packet.amounts import thing_name
from tapeline.units import length_in_words

AN_AGE_YEARS = 5.0
A_SEED = 1


def activity_pdf(
    activity: Activity,
    library: Library,
    book: RuleBook,
    *,
    tape: str,
    language: Language,
    lengths: str,
    today: dt.date,
) -> bytes:
    """The activity as one tagged PDF on A5.

    Parameters
    ----------
    tape
        Kind of tape of its family.
    lengths
        ``cm`` or ``feet``.
    """
    texts = {one.id: text_in(language, activity, one) for one in activity.versions}
    read = [one for one in texts.values() if one.language == language] or [*texts.values()]
    first = read[0]
    words: dict[str, Any] = _words()[first.language]
    common = tuple(line for line in first.adult if all(line in text.adult for text in read))
    skill = library.skill_of(activity.id)
    steps: list[Step | None] = list(skill.steps) if skill else [None]
    sheet = ActivitySheet(
        title=first.name,
        language=first.language,
        tape=tape,
        lead=activity.lead if first.language == "en" else "",
        so_that=_so_that(library, activity, first.language, words),
        cautions=_cautions(activity, library, book, words),
        adult=common,
        cues=_each_once(text.cues for text in read),
        watch=_each_once(text.watch for text in read),
        sibling=first.sibling,
        steps=tuple(
            found
            for step in steps
            if (found := _step(activity, step, texts, library, lengths, words, common)).ways
        ),
        source=activity.source,
        to_be_read=_notes(tuple(texts.values()), words),
        words={key: str(value) for key, value in words.items()},
        day=today.isoformat(),
    )
    return print_activity(sheet, _pictures(activity, first.language))


def _notes(texts: tuple[FamilyText, ...], words: Any) -> str:
    """That a person has to read it still, and what of it has no Spanish yet."""
    notes = [words["to_be_read"]] if any(one.to_be_read_by_a_person for one in texts) else []
    in_english = sum(one.state == "missing" for one in texts)
    if in_english:
        notes.append(words["no_spanish" if in_english == len(texts) else "some_english"])
    return " ".join(notes)


def _so_that(library: Library, activity: Activity, language: Language, words: Any) -> str:
    skill = library.skill_of(activity.id)
    if skill is None:
        return ""
    text = skill_text_in(language, skill)
    return str(words["so_that"]).format(skill=text.name, what=text.so_that)


def _step(
    activity: Activity,
    step: Step | None,
    texts: dict[str, FamilyText],
    library: Library,
    lengths: str,
    words: Any,
    common: tuple[str, ...],
) -> ActivityStep:
    wanted = step.id if step else None
    in_english = words["language"] == "en"
    return ActivityStep(
        text=(step.text if in_english else words["step"]) if step else "",
        counts_when=step.criterion if step and in_english else "",
        ways=tuple(
            _way(version, texts[version.id], library, lengths, words, common)
            for version in activity.versions
            if version.step == wanted
        ),
    )


def _way(
    version: Version,
    text: FamilyText,
    library: Library,
    lengths: str,
    words: Any,
    common: tuple[str, ...],
) -> ActivityWay:
    own: dict[str, Any] = _words()[text.language]
    things = []
    for need in version.things:
        names = [thing_name(one, library, text.language) for one in candidates_for(need, library)]
        count = f"{need.count} × " if need.count > 1 else ""
        things.append(count + f" {own['or']} ".join(names[:3]))
    long = length_in_words(version.length_cm + 2 * version.clear_cm, unit=lengths)
    wide = length_in_words(version.width_cm + 2 * version.clear_cm, unit=lengths)
    is_other = text.language != words["language"]
    return ActivityWay(
        language=text.language,
        words={key: str(value) for key, value in own.items()},
        note=str(words["still_english"]) if is_other else "",
        do=text.do,
        steps=text.steps,
        adult=tuple(line for line in text.adult if line not in common),
        things=", ".join(things),
        floor=str(own["floor"]).format(floor=f"{long} × {wide}"),
        too_hard=text.too_hard,
        too_easy=text.too_easy,
    )


def _cautions(activity: Activity, library: Library, book: RuleBook, words: Any) -> tuple[str, ...]:
    """What rules say of its movements and things for the young, and who is checked first."""
    rules = rules_on(activity, library, book)
    by_age = [rule for rule in rules if rule.precaution is None]
    in_spanish = words["language"] == "es"
    found = [one.sentence_es if in_spanish else one.sentence for one in by_age]
    kinds = [book.precautions[one.precaution] for one in rules if one.precaution is not None]
    names = sorted({one.name_es if in_spanish else one.name for one in kinds})
    if names:
        found.append(str(words["check_first"]).format(names="; ".join(names)))
    return tuple(dict.fromkeys(found))


def _pictures(activity: Activity, language: Language) -> tuple[Drawing, ...]:
    for version in activity.versions:
        if version.move is not None:
            figure = Figure(
                move=version.move,
                parameters=version.move_parameters,
                age_years=AN_AGE_YEARS,
                gets_about="on_foot",
                seed=A_SEED,
                language=language,
            )
            if can_show(figure):
                return three_pictures(figure)
    return ()


def _each_once(several: Any) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text for some in several for text in some))


@cache
def _words() -> dict[str, dict[str, Any]]:
    path = documents_folder() / "activity_words.yaml"
    found: dict[str, dict[str, Any]] = yaml.safe_load(path.read_text(encoding="utf-8"))
    return found
