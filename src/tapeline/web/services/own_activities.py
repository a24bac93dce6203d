"""Activities, versions and things of her own: drafts, and what stands in the library."""

from __future__ import annotations

from typing import Any

from tapeline.activities.draft import Gap, body_of, free_id, gaps_in
from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.own_library import checked_library
from tapeline.errors import InputError, ManyFaults
from tapeline.web.records.convert import own_piece_to_row, own_pieces_from_rows
from tapeline.web.records.convert.own_library import IN_FORCE
from tapeline.web.records.models import Home, OwnPiece, Room
from tapeline.web.selectors.library import library_now
from tapeline.web.services.kept_texts import texts_keep_before
from tapeline.web.services.saving import saving

Body = dict[str, Any]


def draft_new(*, name: str, like: str = "") -> Body:
    """A new draft with a name, empty or as a copy of an activity (`like`).

    Raises
    ------
    InputError
        The name is empty, or there is no such activity.
    """
    if not name.strip():
        raise InputError("It has no name.", field="name", hint="Type at most four plain words.")
    with saving():
        library = library_now()
        body = _copy_of(like, library) if like else {"versions": []}
        body |= {"id": free_id(name, _taken(library)), "name": " ".join(name.split())}
        body = _without_spanish_name(body)
        own_piece_to_row("draft", body)
    return body


def _without_spanish_name(body: Body) -> Body:
    """A copy that has another name now: the Spanish one is not its own."""
    spanish = body.get("spanish") or {}
    lines = {name: words for name, words in spanish.get("lines", {}).items() if name != "name"}
    others = {name: value for name, value in body.items() if name != "spanish"}
    return {**others, "spanish": {**spanish, "lines": lines}} if lines else others


def draft_of_own(*, key: str) -> Body:
    """An activity of her own as a draft, so that it can be changed; the old one stays in force.

    Raises
    ------
    InputError
        She has no such activity.
    """
    with saving():
        kept = draft_body(key)
        if kept is None:
            if not OwnPiece.objects.filter(kind="activity", key=key).exists():
                raise InputError(f"You have no activity {key!r}.", field="activity")
            kept = body_of(library_now().activities[key])
            own_piece_to_row("draft", kept)
    return kept


def draft_body(key: str) -> Body | None:
    """A draft as far as it has come, or None."""
    row = OwnPiece.objects.filter(kind="draft", key=key).first()
    return dict(row.body) if row else None


def draft_save(*, body: Body) -> None:
    """Keep a draft as far as it has come; a draft is never planned."""
    with saving():
        own_piece_to_row("draft", body)


def draft_gaps(body: Body) -> tuple[Gap, ...]:
    """What keeps a draft out of the library."""
    from tapeline.activities.loader import load_rule_book

    return gaps_in(body, library_now(), load_rule_book())


def draft_put_in(*, key: str) -> Body:
    """Put a finished draft into the library; it is planned from now on.

    Raises
    ------
    InputError
        There is no such draft.
    ManyFaults
        Something is missing; the draft stays as it is.
    """
    with saving():
        body = draft_body(key)
        if body is None:
            raise InputError(f"There is no draft {key!r}.", field="draft")
        gaps = draft_gaps(body)
        if gaps:
            raise ManyFaults(
                [InputError(gap.sentence, field="draft") for gap in gaps], where="The draft"
            )
        texts_keep_before(key)
        own_piece_to_row("activity", body)
        OwnPiece.objects.filter(kind="draft", key=key).delete()
        checked_library(Caseload(**own_pieces_from_rows(*IN_FORCE)))
    return body


def draft_delete(*, key: str) -> None:
    """Throw a draft away; an activity in the library with this id stays."""
    with saving():
        OwnPiece.objects.filter(kind="draft", key=key).delete()


def own_activity_delete(*, key: str) -> None:
    """Take an activity of hers out of the library; sessions that were held keep its words.

    Raises
    ------
    InputError
        She has no such activity.
    """
    with saving():
        texts_keep_before(key)
        if not OwnPiece.objects.filter(kind="activity", key=key).delete()[0]:
            raise InputError(f"You have no activity {key!r}.", field="activity")


def material_save(*, body: Body) -> Body:
    """Keep a thing of hers; without an id it gets one from its name.

    Raises
    ------
    ManyFaults
        It cannot be used; nothing is kept.
    """
    with saving():
        if not body.get("id"):
            body = {**body, "id": free_id(body["name"], library_now().materials)}
        own_piece_to_row("material", body)
        checked_library(Caseload(**own_pieces_from_rows(*IN_FORCE)))
    return body


def material_delete(*, key: str) -> None:
    """Take a thing of hers out of the library.

    Raises
    ------
    InputError
        A home, a room or a game of hers still names it.
    """
    with saving():
        owners = [*Home.objects.all(), *Room.objects.all()]
        named = [one.name for one in owners if any(key == _of(thing) for thing in one.things)]
        if named:
            raise InputError(
                f"{', '.join(named)} still has it.",
                field="thing",
                hint="Take it out there first.",
            )
        OwnPiece.objects.filter(kind="material", key=key).delete()
        checked_library(Caseload(**own_pieces_from_rows(*IN_FORCE)))


def _of(thing: Any) -> str:
    return str(thing.get("material", ""))


def _copy_of(like: str, library: Library) -> Body:
    found = library.activities.get(like)
    if found is None:
        raise InputError(f"There is no activity {like!r} in the library.", field="like")
    return body_of(found)


def _taken(library: Library) -> set[str]:
    drafts = OwnPiece.objects.filter(kind="draft").values_list("key", flat=True)
    return {*library.activities, *drafts}
