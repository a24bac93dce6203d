"""Stop rules and emergency wording, split by kind, in each language this group reads."""

from __future__ import annotations

from functools import partial

from tapeline.activities.emergencies import EmergencyKind as ShippedKind
from tapeline.activities.emergencies import Said, fill_in, load_emergencies
from tapeline.caseload.people import Language
from tapeline.documents.packet import Emergency, EmergencyKind, Line
from tapeline.planner.places import Taking
from tapeline.sessions.packet.basis import Basis
from tapeline.sessions.packet.family import own_stop_signs

TITLES: dict[str, dict[str, str]] = {
    "en": {
        "title": "When to stop, and what to do",
        "stop": "Stop rules",
        "after": "After a stop",
        "kinds": "In an emergency",
        "ring": "Who to ring: {ring}",
        "signed": "First-aid steps read and signed off by {by} on {on}.",
        "own": "Your therapist's own wording. Source: {source}",
        "to_be_read": "This page is still to be read by a person.",
    },
    "es": {
        "title": "Cuándo parar y qué hacer",
        "stop": "Cuándo parar",
        "after": "Después de parar",
        "kinds": "En una emergencia",
        "ring": "A quién llamar: {ring}",
        "signed": "Pasos de primeros auxilios leídos y aprobados por {by} el {on}.",
        "own": "Palabras de tu terapeuta. Fuente: {source}",
        "to_be_read": "Una persona tiene que leer todavía esta hoja.",
    },
}


def emergency_pages(basis: Basis) -> tuple[Emergency, ...]:
    """English for her and the room; Spanish as well for the homes that read it."""
    spanish = tuple(
        one
        for one in basis.at("home", "home_later")
        if basis.caseload.home_of(one.child).language == "es"
    )
    pages = [_page("en", basis.taking, basis)]
    if spanish:
        pages.append(_page("es", spanish, basis))
    return tuple(pages)


def _page(language: Language, taking: tuple[Taking, ...], basis: Basis) -> Emergency:
    book = load_emergencies()
    words = TITLES[language]
    her = basis.therapist
    children = tuple(one.child for one in taking)
    signed = her.first_aid_signed(basis.date)
    fill = partial(_filled, language=language, basis=basis)
    return Emergency(
        language=language,
        title=words["title"],
        head=tuple(fill(said) for said in book.head),
        ring=words["ring"].format(ring=her.ring or book.blank),
        stop_title=words["stop"],
        stop_head=book.stop_head.in_language(language),
        stop_signs=tuple(said.in_language(language) for said in book.stop_signs),
        own_signs=own_stop_signs(children, language, basis),
        after_title=words["after"],
        after=tuple(said.in_language(language) for said in book.after_a_stop),
        kinds_title=words["kinds"],
        not_signed=() if signed else tuple(fill(said) for said in book.until_signed_off),
        kinds=tuple(
            _kind(kind, language, signed, basis) for kind in _kinds_that_fit(taking, basis)
        ),
        foot=tuple(fill(said) for said in book.foot),
        signed=words["signed"].format(by=her.first_aid_read_by, on=her.first_aid_read_on)
        if signed
        else "",
        to_be_read="" if language == "en" else words["to_be_read"],
    )


def _kinds_that_fit(taking: tuple[Taking, ...], basis: Basis) -> tuple[ShippedKind, ...]:
    ids = {one.child.id for one in taking}
    rows = [row for part in basis.plan.parts for row in part.children if row.id in ids]
    return load_emergencies().kinds_that_fit(
        precautions=[
            basis.book.precautions[held.kind] for one in taking for held in one.child.precautions
        ],
        touches=basis.touches_of(rows),
    )


def _kind(kind: ShippedKind, language: Language, signed: bool, basis: Basis) -> EmergencyKind:
    """Her own wording of a kind, else the steps once signed off, else its name alone."""
    name = kind.name.in_language(language)
    own = next((one for one in basis.therapist.wording if one.kind == kind.id), None)
    if own is not None:
        source = TITLES[language]["own"].format(source=own.source)
        return EmergencyKind(name=name, lines=(Line(style="own", text=own.text),), source=source)
    if not signed:
        return EmergencyKind(name=name, lines=())
    lines = [
        Line(style=line.style, text=_filled(line.text, language=language, basis=basis))
        for line in kind.lines
    ]
    first_call = next((at for at, line in enumerate(lines) if line.style == "call"), None)
    if first_call is not None:
        call_if = _filled(kind.call_line, language=language, basis=basis)
        lines.insert(first_call, Line(style="call_if", text=call_if))
    return EmergencyKind(name=name, lines=tuple(lines))


def _filled(said: Said, *, language: Language, basis: Basis) -> str:
    her = basis.therapist
    blanks = {"number": her.emergency_number, "plan_place": her.plan_kept}
    return fill_in(said.in_language(language), blanks, blank=load_emergencies().blank)
