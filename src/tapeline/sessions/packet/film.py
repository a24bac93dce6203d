"""The recorded session: what is said, what is filmed, and the captions of what is said.

Watching is counted apart from doing. Spoken words are timed by the reading speed of captions,
and a game is shown four times over: once at speed, once slowly (taken as twice the time) and
once in its easier way, but for no longer than 40 s unless one go takes longer (our rule, no
source). Camera places are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tapeline.activities.emergencies import load_emergencies
from tapeline.activities.models import Position, Version
from tapeline.activities.readability import reading_limit
from tapeline.activities.spanish import FamilyText, text_in
from tapeline.caseload.people import Language
from tapeline.documents.captions import Caption, caption_file
from tapeline.documents.packet import Recorded, Scene, Script, Shot
from tapeline.planner.plan import ChildPlan, PartPlan
from tapeline.sessions.packet.amounts import part_amount, thing_name
from tapeline.sessions.packet.basis import Basis
from tapeline.sessions.packet.film_words import WORDS, FilmWords
from tapeline.sessions.release import release_list, shown_row
from tapeline.units import whole_minutes

SHOWN_TIMES = 4
LONGEST_SHOWN_S = 40
ALTERNATIVES = 2
CAMERA: dict[Position, tuple[str, str]] = {
    "standing": ("From the side, 3 m away, at the child's chest.", "Head to feet, all the time"),
    "moving": ("From the side, far back, at hip height.", "The whole way, start and end"),
    "sitting": ("From the front, a little to one side, 2 m away.", "Both hands and the task"),
    "kneeling": ("From the side, 2 m away, low.", "Head to knees, and the floor"),
    "lying": ("From the side, 2 m away, near the floor.", "The whole body, and the floor"),
    "all_fours": ("From the side, 2 m away, near the floor.", "Hands, knees and the floor"),
}


def recorded_session(basis: Basis) -> Recorded | None:
    """Script, captions, shots and release list; None where nobody follows a recording."""
    recorded = basis.at("home_later")
    if not recorded:
        return None
    read = {basis.caseload.home_of(one.child).language for one in recorded}
    languages: list[Language] = ["en", *sorted(read - {"en"})]
    filming = next(said for said in load_emergencies().before_start if said.id == "filming")
    return Recorded(
        scripts=tuple(_script(language, basis) for language in languages),
        shots=tuple(_shots(basis)),
        film_notes=(filming.en, "Show no name, no face of another child, no address."),
        release=release_list(basis),
    )


def _script(language: Language, basis: Basis) -> Script:
    words = WORDS[language]
    shown = [(part, row) for part in basis.plan.parts if (row := shown_row(part, basis))]
    texts = [text_in(language, basis.activity(part), basis.version(row)) for part, row in shown]
    scenes = (
        _opening(words, shown, basis, language),
        *_playing(words, shown, texts, basis),
        _ending(words, basis),
    )
    watch = sum(scene.watch_s for scene in scenes)
    do = sum(scene.do_s for scene in scenes)
    said = [sentence for scene in scenes for sentence in (*scene.say, scene.pause) if sentence]
    unread = any(text.to_be_read_by_a_person for text in texts)
    has_english = any(text.language != language for text in texts)
    notes = (words.to_be_read if unread else "", words.has_english if has_english else "")
    return Script(
        language=language,
        title=words.title,
        watch_minutes=max(1, whole_minutes(watch)),
        do_minutes=max(1, whole_minutes(do)),
        totals=words.totals.format(
            watch=max(1, whole_minutes(watch)), do=max(1, whole_minutes(do))
        ),
        scenes=scenes,
        captions=caption_file([Caption(words=sentence) for sentence in said], language),
        to_be_read=" ".join(note for note in notes if note),
    )


def _scene(
    name: str, say: Sequence[str], *, shown_s: float = 0, do_s: float = 0, pause: str = ""
) -> Scene:
    a_second = reading_limit("caption_characters_a_second", "en").plain
    spoken = sum(len(sentence) for sentence in (*say, pause)) / a_second
    return Scene(
        name=name, watch_s=round(spoken + shown_s), do_s=round(do_s), say=tuple(say), pause=pause
    )


def _opening(
    words: FilmWords,
    shown: Sequence[tuple[PartPlan, ChildPlan]],
    basis: Basis,
    language: Language,
) -> Scene:
    needs = (
        tuple(thing_name(thing, basis.library, language) for thing in need.any_of)[:ALTERNATIVES]
        for _, row in shown
        for need in basis.version(row).things
    )
    ready = [words.need.format(things=words.either.join(names)) for names in dict.fromkeys(needs)]
    return _scene(words.opening, [*words.hello, *ready, *words.stop])


def _playing(
    words: FilmWords,
    shown: Sequence[tuple[PartPlan, ChildPlan]],
    texts: Sequence[FamilyText],
    basis: Basis,
) -> Iterator[Scene]:
    """One scene per activity; a course is shown station by station, then whole, then played."""
    course: list[tuple[str, float, float]] = []
    for (part, row), text in zip(shown, texts, strict=True):
        version = basis.version(row)
        seconds = _doing_s(part, basis)
        if course and part.part != "course":
            yield _whole_course(words, course, basis)
            course = []
        say = _said(words, part, text)
        one_try = _one_try_s(version)
        shown_s = min(SHOWN_TIMES * one_try, max(one_try, LONGEST_SHOWN_S))
        if part.part == "course":
            course.append((text.name, seconds, one_try))
            yield _scene(text.name, say, shown_s=shown_s)
            continue
        many = _how_many(words, part, basis)
        yield _scene(text.name, [*say, many], shown_s=shown_s, do_s=seconds, pause=words.pause)
    if course:
        yield _whole_course(words, course, basis)


def _said(words: FilmWords, part: PartPlan, text: FamilyText) -> list[str]:
    intro = words.intro.get(part.part, "")
    return [
        *([intro] if intro else []),
        _named(words, text.name),
        words.at_speed,
        text.do,
        words.slowly,
        *text.steps,
        words.easier.format(way=text.too_hard),
        words.grown_up,
        *text.adult,
    ]


def _named(words: FilmWords, name: str) -> str:
    """The name of a game as a sentence; one that asks keeps its own mark."""
    return name if name.endswith(("?", "!")) else words.name.format(name=name)


def _whole_course(words: FilmWords, course: list[tuple[str, float, float]], basis: Basis) -> Scene:
    rounds = next(part.rounds for part in basis.plan.parts if part.part == "course")
    say = [words.course, *(_named(words, name) for name, _, _ in course)]
    say.append(words.rounds.format(n=rounds) if rounds > 1 else words.one_round)
    return _scene(
        words.course_name,
        [*say, words.page],
        shown_s=sum(one_try for _, _, one_try in course),
        do_s=sum(seconds for _, seconds, _ in course),
        pause=words.pause,
    )


def _how_many(words: FilmWords, part: PartPlan, basis: Basis) -> str:
    rows = [row for row in part.children if row.place == "home_later"]
    amounts = {
        part_amount(part, row, lengths=basis.therapist.lengths, language=words.language)
        for row in rows
    }
    if len(amounts) == 1:
        return words.many.format(amount=amounts.pop())
    return words.page


def _ending(words: FilmWords, basis: Basis) -> Scene:
    ring = basis.therapist.ring
    tell = [*words.tell, *([words.ring.format(ring=ring)] if ring else [])]
    return _scene(words.ending, tell)


def _doing_s(part: PartPlan, basis: Basis) -> float:
    """Seconds the slowest recorded child plays, with setting up."""
    return max(
        row.amount * part.rounds * version.seconds_each(basis.child(row.id).age_months(basis.date))
        + version.setup_s
        for row in part.children
        if row.place == "home_later"
        for version in (basis.version(row),)
    )


def _one_try_s(version: Version) -> float:
    return version.try_size * version.seconds_per_unit[0]


def _shots(basis: Basis) -> Iterator[Shot]:
    number = 0
    for part in basis.plan.parts:
        row = shown_row(part, basis)
        if row is None:
            continue
        number += 1
        version = basis.version(row)
        camera, frame = CAMERA[version.position]
        things = [thing_name(thing, basis.library, "en") for thing in row.things]
        yield Shot(
            number=number,
            name=basis.activity(part).name,
            shows=f"At speed, then slowly: {version.do} Then easier: {version.too_hard}",
            camera=camera,
            in_frame="; ".join([frame, *dict.fromkeys(things)]) + ".",
        )
