"""The cover page of a planned session: stops first, three games, nothing new, one number."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.activities.allowed import what_is_allowed
from tapeline.activities.emergencies import load_emergencies
from tapeline.activities.models import PARTS_WITH_TRIALS, Version
from tapeline.activities.shipped import shipped_yaml
from tapeline.caseload.caseload import Caseload
from tapeline.documents.cover import Cover, CoverChild, CoverDoes, CoverGame, print_cover
from tapeline.errors import InputError
from tapeline.planner.places import Taking
from tapeline.planner.plan import ChildPlan, PartPlan, SessionPlan
from tapeline.sessions.packet.amounts import amount_in_words, thing_names
from tapeline.sessions.packet.basis import Basis, basis_of, long_date, row_of
from tapeline.sessions.packet.family import own_stop_signs
from tapeline.sessions.packet.whole import refuse_stale
from tapeline.units import whole_minutes

WATCH = "Sits with you and watches this one."
RULES = (
    "Play known games only. Teach nothing new.",
    "Too hard? Make it easier, or watch together.",
    "Not sure? Leave the game out and ring.",
)


def cover_pdf(plan: SessionPlan, caseload: Caseload) -> bytes:
    """The cover page of a session as a PDF of one side.

    Raises
    ------
    InputError
        As `cover_for`.
    """
    return print_cover(cover_for(plan, caseload))


def cover_for(plan: SessionPlan, caseload: Caseload) -> Cover:
    """What somebody who stands in is given; no name of a child is on it.

    Children who follow a recording are not on it: nobody meets them.

    Raises
    ------
    InputError
        The plan is out of date, or nobody takes part in the room or on a call.
    """
    refuse_stale(plan, caseload)
    basis = basis_of(plan, caseload)
    there = basis.at("room") or basis.at("home")
    if not there:
        raise InputError(
            "Nobody takes part in a room or on a call, so nobody can stand in.",
            field="plan",
            hint="Send the recording another day, or call the families.",
        )
    book = load_emergencies()
    her = basis.therapist
    return Cover(
        title=f"Standing in: {basis.group.name}",
        where=_where(basis, there),
        group=basis.group.name,
        date=long_date(basis.date),
        day=basis.date.isoformat(),
        paper=her.paper,
        therapist=", ".join(text for text in (her.name, her.credential) if text),
        is_invented=caseload.invented,
        stop_head=book.stop_head.en,
        stop_signs=tuple(sign.en for sign in book.stop_signs),
        call=tuple(_call(basis, book.blank)),
        rules=RULES,
        children=tuple(_child(one, basis) for one in there),
        games=_games(there, basis),
        count=_count_sentence(),
        count_of=shipped_yaml("practice/cover.yaml")["count"]["of"],
    )


def _where(basis: Basis, there: tuple[Taking, ...]) -> str:
    """When, where, how many children and how many adults the plan counted on."""
    room = basis.caseload.room_of(basis.group)
    in_room = there[0].member.place == "room"
    place = room.name if in_room and room else "on the call"
    children = f"{len(there)} {'child' if len(there) == 1 else 'children'}"
    adults = basis.plan.request.adults
    needed = (
        f" The plan counts on {adults} {'adult' if adults == 1 else 'adults'}." if in_room else ""
    )
    when = f"{long_date(basis.date)}, {basis.group.start}, {basis.group.minutes} minutes"
    return f"{when}, {place}, {children}.{needed}"


def _call(basis: Basis, blank: str) -> Iterator[str]:
    her = basis.therapist
    yield f"In an emergency call {her.emergency_number or blank} first."
    yield f"Then ring {her.ring or blank}."
    yield f"Each child's own plan comes first. Kept: {her.plan_kept or blank}."
    yield "The office says which child has which mark."


def _child(one: Taking, basis: Basis) -> CoverChild:
    """What to keep in mind for a child, in the words of the rules; check, never clear."""
    keep = []
    for held in one.child.precautions:
        precaution = basis.book.precautions[held.kind]
        keep.append(f"{precaution.name}. Check with {precaution.check_with}.")
    if one.child.gets_about != "on_foot":
        keep.insert(0, {"wheelchair": "Uses a wheelchair.", "walking_frame": "Uses a walking frame.",
                        "splints": "Wears splints."}[one.child.gets_about])  # fmt: skip
    return CoverChild(
        mark=basis.marks[one.child.id],
        keep=tuple(keep),
        stop_signs=own_stop_signs((one.child,), "en", basis),
    )


def _count_sentence() -> str:
    of = shipped_yaml("practice/cover.yaml")["count"]["of"]
    return f"In game 1, watch {of} tries of each child. Write how many went without help."


def _games(there: tuple[Taking, ...], basis: Basis) -> tuple[CoverGame, ...]:
    """The games of the plan that most children can play without anything new, in its order.

    Games in which every child has something come first, then those with fewest things to
    check, then the calmer ones that need no adult close by.
    """
    most = shipped_yaml("practice/cover.yaml")["games"]["value"]
    found = [
        (place, part, versions)
        for place, part in enumerate(basis.plan.parts)
        if part.part in PARTS_WITH_TRIALS and part.part != "course"
        and (versions := _known_versions(part, there, basis))
    ]  # fmt: skip
    found.sort(key=lambda row: (-len(row[2]), _effort(row[2]), row[0]))
    return tuple(
        _game(part, versions, there, basis)
        for _, part, versions in sorted(found[:most], key=lambda row: row[0])
    )


Known = dict[str, tuple[ChildPlan, Version]]


def _known_versions(part: PartPlan, there: tuple[Taking, ...], basis: Basis) -> Known:
    """By child, the row of the plan and the version to play: its own, or an easier one if new."""
    found: Known = {}
    for one in there:
        row = row_of(part, one.child.id)
        if row is None:
            continue
        version = _known_version(part, row, one, basis)
        if version is not None:
            found[one.child.id] = (row, version)
    return found


def _known_version(part: PartPlan, row: ChildPlan, one: Taking, basis: Basis) -> Version | None:
    """The planned version, or one a step below where the step is new; None where none will do."""
    planned = basis.version(row)
    if not row.new:
        return planned
    skill = basis.library.skill_of(part.activity)
    if skill is None or planned.step is None:
        return None
    here = skill.index_of(planned.step)
    easier = [
        version
        for version in basis.activity(part).versions
        if version.step is not None and skill.index_of(version.step) < here
    ]
    allowed = [
        version
        for version in easier
        if what_is_allowed(
            version, who=one.who, here=one.here, library=basis.library, book=basis.book, on=basis.date
        ).status != "blocked"
    ]  # fmt: skip
    return max(allowed, key=lambda version: skill.index_of(version.step or ""), default=None)


def _effort(versions: Known) -> int:
    """How much a game asks of somebody new: things to check, an adult close by."""
    return sum(
        2 * bool(row.flags) + {"within_sight": 0, "beside": 1, "hands_on": 3}[version.adult_need]
        for row, version in versions.values()
    )


def _game(part: PartPlan, versions: Known, there: tuple[Taking, ...], basis: Basis) -> CoverGame:
    usual = _usual(versions)
    things = dict.fromkeys(
        thing for row, version in versions.values() if not row.new for thing in row.things
    )
    rows: dict[tuple[str, str], list[str]] = {}
    for child, (row, version) in versions.items():
        amount = amount_in_words(row.amount, row.unit, lengths=basis.therapist.lengths)
        rows.setdefault((version.do, amount), []).append(basis.marks[child])
    watching = [basis.marks[one.child.id] for one in there if one.child.id not in versions]
    if watching:
        rows[WATCH, ""] = watching
    return CoverGame(
        tape=basis.tape(part),
        name=basis.activity(part).name,
        minutes=max(1, whole_minutes(part.seconds)),
        lead=basis.activity(part).lead,
        things=thing_names(things, basis.library, "en"),
        adult=(usual.adult.stand, usual.adult.stop),
        does=tuple(
            CoverDoes(marks=tuple(who), do=do, amount=amount) for (do, amount), who in rows.items()
        ),
    )


def _usual(versions: Known) -> Version:
    """The version most of these children play."""
    all_of_them = [version for _, version in versions.values()]
    count = [version.id for version in all_of_them].count
    return max(all_of_them, key=lambda version: count(version.id))
