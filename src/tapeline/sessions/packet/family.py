"""The pages one home gets: only its own things, its child's versions, its language, no name."""

from __future__ import annotations

from zlib import crc32

from tapeline.activities.emergencies import load_emergencies
from tapeline.activities.models import PARTS_WITH_TRIALS
from tapeline.activities.spanish import text_in
from tapeline.caseload.people import Child, Language
from tapeline.documents.packet import CourseLine, Drawing, FamilyActivity, FamilyPages
from tapeline.planner.places import Taking
from tapeline.planner.plan import PartPlan
from tapeline.sessions.packet.amounts import part_amount, thing_name
from tapeline.sessions.packet.basis import Basis, days_after, row_of
from tapeline.sessions.packet.home_course import layout_at_home
from tapeline.sessions.packet.ready import said_count, things_of


def family_pages(one: Taking, basis: Basis) -> FamilyPages:
    """What one child's home is given for this session and the days after it."""
    home = basis.caseload.home_of(one.child)
    language = home.language
    is_later = one.member.place == "home_later"
    activities = [
        made
        for part in basis.plan.parts
        if (made := _activity(part, one.child, language, basis)) is not None
    ]
    rows = [row for part in basis.plan.parts if (row := row_of(part, one.child.id))]
    book = load_emergencies()
    return FamilyPages(
        mark=basis.marks[one.child.id],
        language=language,
        is_later=is_later,
        when="" if is_later else basis.group.start,
        days=days_after(basis.date, first=0 if is_later else 1, language=language),
        have_ready=tuple(
            said_count(count, thing_name(thing, basis.library, language))
            for thing, count in things_of(one.child.id, basis).items()
        ),
        activities=tuple(made for made, _ in activities),
        cautions=basis.cautions_for(rows),
        stop_head=book.stop_head.in_language(language),
        stop_signs=tuple(sign.in_language(language) for sign in book.stop_signs),
        own_signs=own_stop_signs((one.child,), language, basis),
        emergency_number=basis.therapist.emergency_number or book.blank,
        ring=basis.therapist.ring or book.blank,
        to_be_read=any(unread for _, unread in activities),
        has_english=any(made.language != language for made, _ in activities),
    )


def own_stop_signs(
    children: tuple[Child, ...], language: Language, basis: Basis
) -> tuple[str, ...]:
    """The stop signs that these children's precautions add to the general ones, each once."""
    signs: list[str] = []
    for child in children:
        for held in child.precautions:
            precaution = basis.book.precautions[held.kind]
            signs += precaution.stop_signs_es if language == "es" else precaution.stop_signs
    return tuple(dict.fromkeys(signs))


def _activity(
    part: PartPlan, child: Child, language: Language, basis: Basis
) -> tuple[FamilyActivity, bool] | None:
    """An activity in the home's language, and whether a person has still to read it."""
    row = row_of(part, child.id)
    if row is None:
        return None
    version = basis.version(row)
    text = text_in(language, basis.activity(part), version)
    has_others = bool(basis.caseload.home_of(child).also_there)
    made = FamilyActivity(
        tape=basis.tape(part),
        name=text.name,
        amount=part_amount(part, row, lengths=basis.therapist.lengths, language=language),
        language=text.language,
        do=text.do,
        steps=text.steps,
        adult=text.adult,
        too_hard=text.too_hard,
        too_easy=text.too_easy,
        captions=text.captions,
        sibling=text.sibling if has_others else "",
        figure=basis.figure(
            version,
            age_months=child.age_months(basis.date),
            gets_about=child.gets_about,
            seed=crc32(basis.marks[child.id].encode()),
            language=text.language,
        ),
        is_short=part.part not in PARTS_WITH_TRIALS,
        course=_opens_course(part, child, basis),
    )
    return made, text.to_be_read_by_a_person or text.state == "missing"


def _opens_course(part: PartPlan, child: Child, basis: Basis) -> CourseLine | None:
    """What stands before the first station of a child's course: how many games, how often."""
    stations = [
        other for other in basis.plan.parts if other.part == "course" and row_of(other, child.id)
    ]
    if not stations or part is not stations[0]:
        return None
    found = layout_at_home(child, basis)
    return CourseLine(
        games=len(stations),
        rounds=part.rounds,
        layout=Drawing(svg=found.svg, alt="") if found else None,
        layout_shows_adult=bool(found and found.shows_adult),
    )
