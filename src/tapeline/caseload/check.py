"""What a caseload means: every id resolves, nothing is doubled, birth months are possible."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable, Iterable, Iterator
from itertools import combinations
from typing import TypeVar

from tapeline.activities.models import Library
from tapeline.activities.rules import RuleBook
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import OLDEST_YEARS, AlsoThere, Child, Home, Thing
from tapeline.caseload.places import Group
from tapeline.errors import InputError, ManyFaults

Key = TypeVar("Key", bound=Hashable)


def check_caseload(
    caseload: Caseload, *, library: Library, book: RuleBook, today: dt.date, name: str
) -> None:
    """Refuse a caseload whose parts do not fit each other or the library.

    Parameters
    ----------
    today
        Birth months later than this are impossible.
    name
        What the faults call the file.

    Raises
    ------
    ManyFaults
        With every fault found, each one sentence and a next step.
    """
    faults = [
        *_doubles(caseload),
        *(fault for child in caseload.children for fault in _of_child(child, library, book, today)),
        *(fault for home in caseload.homes for fault in _of_home(home, library, today)),
        *(fault for group in caseload.groups for fault in _of_group(group, caseload)),
        *_of_rooms(caseload, library),
        *_of_references(caseload),
        *_of_left_out(caseload),
    ]
    if faults:
        raise ManyFaults(faults, where=name)


def _doubles(caseload: Caseload) -> Iterator[InputError]:
    for what, rows in (
        ("children", caseload.children),
        ("groups", caseload.groups),
        ("homes", caseload.homes),
        ("sites", caseload.sites),
        ("sessions", caseload.sessions),
        ("trials", caseload.trials),
        ("family answers", caseload.family_answers),
        ("late or early rows", caseload.late_or_early),
        ("stops", caseload.stops),
        ("sheets", caseload.sheets),
        ("timings", caseload.timings),
        ("notes", caseload.notes),
        ("reports", caseload.reports),
        ("rows of minutes made up", caseload.made_up),
        ("rows of what is left out", caseload.left_out),
        ("changes of yours to one line", caseload.own_changes),
    ):
        for double in _twice(row.id for row in rows):
            yield InputError(
                f"Two {what} have the id {double}.", field=what, hint="Give each an id of its own."
            )
    for session, about in _twice((note.session, note.child) for note in caseload.notes):
        yield InputError(
            f"Two notes are about child {about} in session {session}.",
            field="notes",
            hint="Keep one; what was added later is an amendment of it.",
        )
    for name, born in _twice((child.name, child.born) for child in caseload.children):
        yield InputError(
            f"Two children are called {name} and were born in {born}.",
            field="children",
            hint="Keep one, or give them different names or codes.",
        )


def _twice(values: Iterable[Key]) -> list[Key]:
    seen: set[Key] = set()
    double: dict[Key, None] = {}
    for value in values:
        if value in seen:
            double[value] = None
        seen.add(value)
    return list(double)


def _of_child(
    child: Child, library: Library, book: RuleBook, today: dt.date
) -> Iterator[InputError]:
    yield from _born(f"Child {child.name}", child.born, today)
    for start in child.skills:
        yield from _step(f"Child {child.name}", start.skill, start.step, library)
    for goal in child.goals:
        yield from _step(f"Goal {goal.name} of {child.name}", goal.skill, goal.step, library)
    for answer in child.loss_answers:
        if answer.skill not in library.skills:
            yield InputError(
                f"An answer about {child.name} names the skill {answer.skill!r}, which is not known.",
                field="skill",
                hint=f"Use one of: {', '.join(sorted(library.skills))}.",
            )
    for held in child.precautions:
        if held.kind not in book.precautions:
            yield InputError(
                f"Child {child.name} has the precaution {held.kind!r}, which is not known.",
                field="precautions",
                hint=f"Use one of: {', '.join(sorted(book.precautions))}.",
            )
        for word in (word for paper in held.go_aheads for word in paper.allows):
            if word not in book.touches:
                yield InputError(
                    f"A go-ahead of {child.name} allows {word!r}, which is not known.",
                    field="go_aheads",
                    hint="Use the words of data/rules/touches.yaml, or leave it empty.",
                )


def _born(whose: str, born: str, today: dt.date) -> Iterator[InputError]:
    year, month = (int(part) for part in born.split("-"))
    if (year, month) > (today.year, today.month) or today.year - year > OLDEST_YEARS:
        yield InputError(
            f"{whose} has the birth month {born}, which cannot be right on {today}.",
            field="born",
            hint=f"Type a month of the last {OLDEST_YEARS} years.",
        )


def _step(whose: str, skill: str, step: str, library: Library) -> Iterator[InputError]:
    if skill not in library.skills:
        yield InputError(
            f"{whose} names the skill {skill!r}, which the library does not have.",
            field="skill",
            hint=f"Use one of: {', '.join(sorted(library.skills))}.",
        )
        return
    try:
        library.skills[skill].index_of(step)
    except InputError as error:
        yield InputError(f"{whose}: {error.message}", field="step", hint=error.hint)


def _things(whose: str, things: Iterable[Thing], library: Library) -> Iterator[InputError]:
    for thing in things:
        if thing.material not in library.materials:
            yield InputError(
                f"{whose} lists {thing.material!r}, which is not a known thing.",
                field="things",
                hint="Use an id of data/library/materials.yaml, or take it out.",
            )


def _of_home(home: Home, library: Library, today: dt.date) -> Iterator[InputError]:
    yield from _things(f"Home {home.id}", home.things, library)
    for person in home.also_there:
        yield from _born(_in_home(person, home), person.born, today)


def _in_home(person: AlsoThere, home: Home) -> str:
    return f"{person.who} in home {home.id}"


def _of_rooms(caseload: Caseload, library: Library) -> Iterator[InputError]:
    for site in caseload.sites:
        for room in site.rooms:
            yield from _things(f"Room {room.name}", room.things, library)


def _of_group(group: Group, caseload: Caseload) -> Iterator[InputError]:
    children = {child.id for child in caseload.children}
    for member in group.members:
        if member.child not in children:
            yield _dangling(f"Group {group.name}", "child", member.child)
    for one, other in combinations(group.members, 2):
        if one.child == other.child and one.meets(other):
            yield InputError(
                f"Group {group.name} has the child {one.child} twice on the same days.",
                field="members",
                hint="Take one of the two rows out, or end it before the other begins.",
            )
    site = next((one for one in caseload.sites if one.id == group.site), None)
    if group.site is not None and site is None:
        yield _dangling(f"Group {group.name}", "site", group.site)
    if site and group.room is not None and group.room not in {room.id for room in site.rooms}:
        yield _dangling(f"Group {group.name}", "room", group.room)


def _of_references(caseload: Caseload) -> Iterator[InputError]:
    children = {child.id for child in caseload.children}
    homes = {home.id for home in caseload.homes}
    groups = {group.id for group in caseload.groups}
    sessions = {session.id for session in caseload.sessions}
    for child in caseload.children:
        if child.home is not None and child.home not in homes:
            yield _dangling(f"Child {child.name}", "home", child.home)
    for session in caseload.sessions:
        if session.group not in groups:
            yield _dangling(f"Session {session.id}", "group", session.group)
    for name, child_id, session_id in _what_happened(caseload):
        if child_id is not None and child_id not in children:
            yield _dangling(name, "child", child_id)
        if session_id is not None and session_id not in sessions:
            yield _dangling(name, "session", session_id)
    for made in caseload.made_up:
        if made.child not in children:
            yield _dangling(f"Minutes made up {made.id}", "child", made.child)
        if made.group not in groups:
            yield _dangling(f"Minutes made up {made.id}", "group", made.group)


def _of_left_out(caseload: Caseload) -> Iterator[InputError]:
    children = {child.id for child in caseload.children}
    homes = {home.id for home in caseload.homes}
    for row in caseload.left_out:
        whose = f"{row.activity}, which is left out,"
        if row.child is not None and row.child not in children:
            yield _dangling(whose, "child", row.child)
        if row.home is not None and row.home not in homes:
            yield _dangling(whose, "home", row.home)


def _what_happened(caseload: Caseload) -> Iterator[tuple[str, str | None, str | None]]:
    """What each row is called, and the child and the session it names."""
    for note in caseload.notes:
        yield f"Note {note.id}", note.child, note.session
    for report in caseload.reports:
        yield f"Report {report.id}", report.child, None
    for trial in caseload.trials:
        yield f"Trial {trial.id}", trial.child, trial.session
    for answer in caseload.family_answers:
        yield f"Answer {answer.id}", answer.child, answer.session
    for blank in caseload.blanks:
        yield f"A blank ({blank.kind})", blank.child, blank.session
    for late in caseload.late_or_early:
        yield f"Late or early row {late.id}", late.child, late.session
    for stop in caseload.stops:
        yield f"Stop {stop.id}", stop.child, stop.session
    for sheet in caseload.sheets:
        yield f"Sheet {sheet.id}", None, sheet.session
    for timing in caseload.timings:
        yield f"Timing {timing.id}", timing.child, None


def _dangling(whose: str, what: str, named: str) -> InputError:
    return InputError(
        f"{whose} names the {what} {named!r}, which is not in this file.",
        field=what,
        hint=f"Add that {what}, or take the name out.",
    )
