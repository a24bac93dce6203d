"""What waits for her: plans to make, go-aheads that run out, homes nothing is known of."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import NoReverseMatch, reverse

from tapeline.caseload.people import Child, Home
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.losses import children_losing
from tapeline.web.selectors.minutes import groups_that_owe
from tapeline.web.selectors.notes import sessions_without_notes
from tapeline.web.selectors.people import homes_list, therapist_now
from tapeline.web.selectors.sessions import Week, plan_of

SOON_DAYS = 14
FRESH_DAYS = 7


@dataclass(frozen=True, kw_only=True)
class Waiting:
    """One row: what waits, about whom, and where to go."""

    title: str
    about: str
    address: str


def waiting_for_her(week: Week, today: dt.date) -> tuple[Waiting, ...]:
    """Everything that waits, what concerns safety first."""
    children = week.children
    homes = {home.id: home for home in homes_list()}
    return (
        *_losses(children, today),
        *_go_aheads(children, today),
        *_plans_to_make_again(week, today),
        *_plans_further_on(week, today),
        *_emergencies(),
        *_to_record(week, today),
        *_plans(week, today),
        *_notes(today),
        *_minutes(today),
        *_homes(children, homes),
    )


def _losses(children: tuple[Child, ...], today: dt.date) -> Iterator[Waiting]:
    """Skills that are seen less than before: to talk about with family and doctor soon."""
    for one in children_losing(children, on=today):
        about = f"{one.name}: {one.skill_name} is seen less than before on several days."
        todo = " Ask first whether the child is well again." if one.asks_first else ""
        yield Waiting(
            title="To ask about" if one.asks_first else "To talk about with family and doctor soon",
            about=about + todo,
            address=_address("child_loss", one.child, one.skill),
        )


def _go_aheads(children: tuple[Child, ...], today: dt.date) -> Iterator[Waiting]:
    for child in children:
        ends = [paper.ends for held in child.precautions for paper in held.go_aheads if paper.ends]
        for end in ends:
            if end < today + dt.timedelta(days=SOON_DAYS):
                over = end < today
                yield Waiting(
                    title="A go-ahead has ended" if over else "A go-ahead ends soon",
                    about=f"{child.name}: {end.day} {end:%B}. What it allowed is held back from then on.",
                    address=_address("child", child.id),
                )


def _plans_to_make_again(week: Week, today: dt.date) -> Iterator[Waiting]:
    """Plans of days to come that rest on something that has changed since.

    Those that are run or were held are left out: their own tries are no reason to plan again.
    """
    meetings = [
        meeting
        for day in week.days
        for meeting in day.meetings
        if day.date >= today and meeting.is_on and meeting.has_plan and not meeting.has_begun
    ]
    if not meetings:
        return
    from tapeline.sessions.still_allowed import held_back_now
    from tapeline.web.selectors.plan_view import stale_sentences

    caseload = caseload_about({child.id for one in meetings for _, child in one.coming})
    for meeting in meetings:
        plan = plan_of(meeting.session)
        reasons = stale_sentences(plan, caseload) if plan is not None else ()
        if plan is not None and reasons:
            reasons = (*held_back_now(plan, caseload), *reasons)
            yield Waiting(
                title="A plan to make again",
                about=f"{meeting.group.name}, {meeting.date:%A}. {' '.join(reasons)}",
                address=_address("session_plan", meeting.group.id, meeting.date.isoformat()),
            )


def _plans_further_on(week: Week, today: dt.date) -> Iterator[Waiting]:
    """Plans after this week that something touches, and packets that show an older plan."""
    from tapeline.web.selectors.affected import affected_plans

    for one in affected_plans(today):
        if one.sentences and one.date > week.sunday:
            title, about = "A plan to make again", one.in_words
        elif one.old_paper:
            title, about = "A packet to print again", one.in_words
        else:
            continue
        yield Waiting(
            title=title,
            about=about,
            address=_address("session_plan", one.group, one.date.isoformat()),
        )


def _emergencies() -> Iterator[Waiting]:
    therapist = therapist_now()
    if not (therapist.ring and therapist.emergency_number):
        yield Waiting(
            title="Who to ring",
            about="Every packet prints who to ring and the emergency number. Type them once.",
            address=_address("therapist"),
        )


def _plans(week: Week, today: dt.date) -> Iterator[Waiting]:
    for day in week.days:
        for meeting in day.meetings:
            if day.date >= today and meeting.is_on and not meeting.has_plan and meeting.coming:
                yield Waiting(
                    title="A session to plan",
                    about=f"{meeting.group.name}, {day.date:%A} {meeting.group.start}",
                    address=_address("session_plan", meeting.group.id, day.date.isoformat()),
                )


def _notes(today: dt.date) -> Iterator[Waiting]:
    """A row for each session of the last week, and one for all that are older."""
    found = sessions_without_notes(today)
    older = [one for one in found if one[2] < today - dt.timedelta(days=FRESH_DAYS)]
    for group, name, date, count in found:
        if date >= today - dt.timedelta(days=FRESH_DAYS):
            notes = "1 note" if count == 1 else f"{count} notes"
            yield Waiting(
                title="Notes to sign",
                about=f"{name}, {date:%A} {date.day} {date:%B}: {notes}",
                address=_address("notes", group, date.isoformat()),
            )
    if older:
        group, name, date, _ = older[0]
        sessions = "1 older session" if len(older) == 1 else f"{len(older)} older sessions"
        yield Waiting(
            title="Older notes to sign",
            about=f"{sessions}, from {name}, {date.day} {date:%B} on",
            address=_address("notes", group, date.isoformat()),
        )


def _minutes(today: dt.date) -> Iterator[Waiting]:
    for group, minutes, children in groups_that_owe(today):
        whom = "1 child" if children == 1 else f"{children} children"
        yield Waiting(
            title="Minutes to make up",
            about=f"{group.name}: {minutes} minutes with {whom}",
            address=_address("minutes", group.id),
        )


def _to_record(week: Week, today: dt.date) -> Iterator[Waiting]:
    """Sessions of this week whose day is past, or that were begun, and are not held yet."""
    for day in week.days:
        for meeting in day.meetings:
            session = meeting.session
            if session is None or session.status != "planned" or session.plan is None:
                continue
            if day.date < today or (day.date == today and session.began):
                yield Waiting(
                    title="A session to finish" if session.began else "A tally to type",
                    about=f"{meeting.group.name}, {day.date:%A} {meeting.group.start}",
                    address=_address("session_record", meeting.group.id, day.date.isoformat()),
                )


def _homes(children: tuple[Child, ...], homes: dict[str, Home]) -> Iterator[Waiting]:
    unknown = [child.name for child in children if child.home and not homes[child.home].things]
    if unknown:
        yield Waiting(
            title="What a home owns",
            about=f"Nothing is ticked for {', '.join(unknown)}.",
            address=_address("homes"),
        )


def _address(name: str, *keys: str) -> str:
    try:
        return reverse(name, args=keys)
    except NoReverseMatch:
        return ""
