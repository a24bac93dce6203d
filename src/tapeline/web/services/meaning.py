"""What she typed, held against the library: unknown skills, things, precautions, months."""

from __future__ import annotations

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.check import check_caseload
from tapeline.errors import ManyFaults
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
    except ManyFaults as faults:
        if len(faults.faults) == 1:
            raise faults.faults[0] from None
        raise
