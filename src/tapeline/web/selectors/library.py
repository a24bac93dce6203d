"""The library in force: the shipped one with everything of hers on top."""

from __future__ import annotations

from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.own_library import library_in_force, texts_used, with_kept_texts
from tapeline.web.records.convert import own_pieces_from_rows
from tapeline.web.records.convert.own_library import IN_FORCE, kept_texts_for


def library_now() -> Library:
    """The library in force, read once for each state of what is hers."""
    return library_in_force(Caseload(**own_pieces_from_rows(*IN_FORCE)))


def library_then(session: Session) -> Library:
    """The library in force, with what a session plays as it read when it was planned."""
    library = library_now()
    kept = kept_texts_for((session,), library)
    return with_kept_texts(library, texts_used(session), Caseload(kept_texts=kept))
