"""What she typed, held against the library: unknown skills, things, precautions, months."""

from __future__ import annotations

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.check import check_caseload
from tapeline.errors import InputError, ManyFaults
from tapeline.web.today import today


def refuse_faults(part: Caseload, *, name: str) -> None:
    """Refuse a part of a caseload that names what is not known.

    Raises
    ------
    InputError
        The one fault there is.
    ManyFaults
        Several.
    """
    from tapeline.activities.loader import load_rule_book
    from tapeline.caseload.own_library import checked_library, has_own_library
    from tapeline.web.selectors.library import library_now

    try:
        library = checked_library(part) if has_own_library(part) else library_now()
        check_caseload(part, library=library, book=load_rule_book(), today=today(), name=name)
        _refuse_drawings(part, name)
    except ManyFaults as faults:
        if len(faults.faults) == 1:
            raise faults.faults[0] from None
        raise


def _refuse_drawings(part: Caseload, name: str) -> None:
    """Refuse drawings of rooms that cannot be true."""
    from tapeline.courses.real_room import course_room

    faults = []
    for site in part.sites:
        for room in (one for one in site.rooms if one.is_drawn):
            try:
                course_room(room)
            except InputError as error:
                said = f"{site.name}, {room.name}: {error.message}"
                faults.append(InputError(said, field="rooms", hint=error.hint))
    if faults:
        raise ManyFaults(faults, where=name)
