"""The packet of one session: everything that is printed for it, as finished values."""

from __future__ import annotations

from dataclasses import replace

from tapeline.activities.loader import load_rule_book
from tapeline.caseload.caseload import Caseload, fingerprint
from tapeline.caseload.own_library import left_out_for, library_in_force, texts_of
from tapeline.documents.packet import Packet
from tapeline.documents.printing import print_packet
from tapeline.errors import InputError
from tapeline.planner.plan import SessionPlan, what_changed
from tapeline.sessions.course import course_of_session
from tapeline.sessions.packet.basis import Basis, basis_of, long_date
from tapeline.sessions.packet.course import course_page, walking_numbers
from tapeline.sessions.packet.emergency import emergency_pages
from tapeline.sessions.packet.family import family_pages
from tapeline.sessions.packet.film import recorded_session
from tapeline.sessions.packet.ready import what_to_have_ready
from tapeline.sessions.packet.room import tally_sheet, wall_cards
from tapeline.sessions.packet.running import running_order

PLAN_AGAIN = "Plan again, look at what is new, then print."
PLAN_AGAIN_FROM_NOW = "Plan again from now on the run page, look at what is new, then print."
IN_THE_PAST = frozenset({"goals", "history"})
SINCE = {"goals": "goals", "history": "tries"}


def packet_pdf(plan: SessionPlan, caseload: Caseload) -> bytes:
    """The packet of a session as one PDF.

    Raises
    ------
    InputError
        The plan was made before something it rests on changed.
    """
    return print_packet(packet_for(plan, caseload))


def packet_for(plan: SessionPlan, caseload: Caseload) -> Packet:
    """All that is printed for a session, in order, every word resolved.

    Names stand only on pages that the therapist alone reads; all others know marks.

    Raises
    ------
    InputError
        The plan was made before something it rests on changed; the sentence says what.
    """
    refuse_stale(plan, caseload)
    basis = basis_of(plan, caseload)
    running = running_order(basis)
    course = course_of_session(basis)
    return Packet(
        title=f"{basis.group.name}, {long_date(basis.date)}",
        group=basis.group.name,
        date=long_date(basis.date),
        day=basis.date.isoformat(),
        paper=basis.therapist.paper,
        therapist=_signature(basis),
        ring=basis.therapist.ring,
        emergency_number=basis.therapist.emergency_number,
        is_invented=caseload.invented,
        running=replace(running, notes=(*_as_planned(plan, caseload), *running.notes)),
        ready=what_to_have_ready(basis),
        families=tuple(family_pages(one, basis) for one in basis.at("home", "home_later")),
        cards=wall_cards(basis, numbers=walking_numbers(course)),
        tally=tally_sheet(basis),
        emergency=emergency_pages(basis),
        recorded=recorded_session(basis),
        course=course_page(course, basis) if course else None,
    )


def caption_files(packet: Packet) -> dict[str, str]:
    """The caption tracks of a recorded session by file name, such as ``captions.en.vtt``."""
    scripts = packet.recorded.scripts if packet.recorded else ()
    return {f"captions.{script.language}.vtt": script.captions for script in scripts}


def refuse_stale(plan: SessionPlan, caseload: Caseload) -> None:
    """Refuse to print a plan that no longer fits what it was made from.

    A session that has begun may be printed again after its tries were counted, and its
    running order says so: its goals and history have moved on since, its precautions and homes
    must not have.

    Raises
    ------
    InputError
        Says whose what changed, and that the answer is to plan again.
    """
    has_begun = was_begun(plan, caseload)
    changed = [
        f"{caseload.child(child).name}'s {what}"
        for child, what in what_changed(plan, caseload)
        if not (has_begun and what in IN_THE_PAST)
    ]
    changed += other_changes(plan, caseload)
    if changed:
        raise InputError(
            f"This plan was made before {_and(changed)} changed: plan again.",
            field="plan",
            hint=PLAN_AGAIN_FROM_NOW if has_begun else PLAN_AGAIN,
        )


def _as_planned(plan: SessionPlan, caseload: Caseload) -> tuple[str, ...]:
    """What her running order says of a session that is printed after it began."""
    if not was_begun(plan, caseload):
        return ()
    since = [
        f"{caseload.child(child).name}'s {SINCE[what]}"
        for child, what in what_changed(plan, caseload)
        if what in IN_THE_PAST
    ]
    if not since:
        return ()
    return (f"As it was planned before it began. Changed since: {_and(since)}.",)


def other_changes(plan: SessionPlan, caseload: Caseload) -> list[str]:
    """What has changed since a plan was made, beside its children.

    The group or its room, the activities of the plan, what is left out, the rules. A session
    that has begun keeps the words it was planned with, so they count as they were.
    """
    group = caseload.group(plan.request.group)
    place = fingerprint([group, caseload.room_of(group)])
    made = plan.made_from
    has_begun = was_begun(plan, caseload)
    found = {
        "the group or its room": made.place != place,
        "the library of activities": not has_begun and _reads_otherwise(plan, caseload),
        "what you leave out": not has_begun and _plays_what_is_left_out(plan, caseload),
        "the rules": made.rules != load_rule_book().date,
    }
    return [what for what, differs in found.items() if differs]


def was_begun(plan: SessionPlan, caseload: Caseload) -> bool:
    """Whether the session of a plan runs, or was held."""
    return any(
        session.status == "held" or (session.status == "planned" and session.began is not None)
        for session in caseload.sessions_of(plan.request.group)
        if session.date == plan.request.date
    )


def _reads_otherwise(plan: SessionPlan, caseload: Caseload) -> bool:
    """Whether an activity of the plan is not what it was; any difference, without its texts."""
    library = library_in_force(caseload)
    made = plan.made_from
    if not made.texts:
        return made.library != library.version
    return made.library != library.version and made.texts != texts_of(made.texts, library)


def _plays_what_is_left_out(plan: SessionPlan, caseload: Caseload) -> bool:
    return any(
        part.activity
        in left_out_for(
            caseload,
            row.id,
            home=caseload.child(row.id).home if row.place != "room" else None,
        )
        for part in plan.parts
        for row in part.children
    )


def _and(parts: list[str]) -> str:
    if len(parts) == 1:
        return parts[0]
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _signature(basis: Basis) -> str:
    her = basis.therapist
    return ", ".join(text for text in (her.name, her.credential) if text)
