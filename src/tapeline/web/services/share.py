"""Give her own activities away as one file, and add another therapist's."""

from __future__ import annotations

from collections.abc import Collection

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.share import Shared, parse_share, share_look, share_text
from tapeline.web.records.convert import own_library_to_rows, own_pieces_from_rows
from tapeline.web.records.convert.own_library import IN_FORCE
from tapeline.web.selectors.people import therapist_now
from tapeline.web.services.saving import refuse_changed, saving


def share_export(*, only: Collection[str] = ()) -> str:
    """Her activities, versions, changes and things as the text of a file.

    Parameters
    ----------
    only
        Ids of activities; none means everything of hers.

    Raises
    ------
    InputError
        There is nothing to give away.
    """
    return share_text(_now(), only=only)


def share_preview(*, text: str, name: str) -> Shared:
    """What adding a file would do, thing by thing; nothing is written.

    Raises
    ------
    InputError
        It is no file of activities.
    ManyFaults
        Every fault of the file.
    """
    from tapeline.activities.loader import load_rule_book

    return share_look(parse_share(text, name=name), _now(), load_rule_book(), name=name)


def share_add(*, text: str, name: str, expected: str | None = None) -> Shared:
    """Add a file as its preview said; nothing that is there is overwritten.

    Parameters
    ----------
    expected
        `digest` of the preview she saw; when her library changed since, nothing is done.

    Raises
    ------
    InputError
        As `share_preview`; or something changed since the preview.
    """
    with saving():
        found = share_preview(text=text, name=name)
        refuse_changed(found.digest, expected, what="Your library", do="add it")
        own_library_to_rows(found.writes, at_the_end=True)
    return found


def _now() -> Caseload:
    return Caseload(therapist=therapist_now(), **own_pieces_from_rows(*IN_FORCE))
