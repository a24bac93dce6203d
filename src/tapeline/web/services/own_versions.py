"""Versions of her own beside those of an activity: added, changed, brought back, taken out."""

from __future__ import annotations

from typing import Any

from tapeline.activities.draft import Gap, body_of
from tapeline.activities.models import Activity
from tapeline.caseload.own_library import version_key
from tapeline.errors import InputError
from tapeline.web.records.convert import own_piece_to_row
from tapeline.web.records.models import OwnPiece, Trial
from tapeline.web.selectors.library import library_now
from tapeline.web.services.kept_texts import texts_keep_before
from tapeline.web.services.own_activities import draft_gaps
from tapeline.web.services.own_changes import faults_elsewhere, faults_now, refuse_faulty
from tapeline.web.services.saving import saving

Body = dict[str, Any]


def version_gaps(activity: Activity, version: Body) -> tuple[Gap, ...]:
    """What keeps a version of hers out of an activity of the library."""
    return draft_gaps({**body_of(activity), "versions": [version]})


def own_version_save(*, body: Body) -> str:
    """Add a version of hers to an activity; its id.

    Raises
    ------
    ManyFaults
        It would not stand the library's check; nothing is kept.
    """
    with saving():
        activity = str(body["activity"])
        texts_keep_before(activity)
        known = faults_now(activity, library_now())
        own_piece_to_row("version", body)
        refuse_faulty(activity, known)
    return version_key(body)


def own_version_body(key: str) -> Body | None:
    """A version of hers as it is on file, or None."""
    row = OwnPiece.objects.filter(kind="version", key=key).first()
    return dict(row.body) if row else None


def own_version_change(*, key: str, body: Body) -> str:
    """Change a version of hers; its id, which is another one with another step or way.

    What it said before is kept beside it, see `own_version_back`. Sessions that were held keep
    the words they used. Lines she had changed one by one are in `body` and stand alone no more.

    Raises
    ------
    InputError
        She has no such version, or tries are on file for it and its step or way would change;
        one that an update set aside may take another step all the same.
    ManyFaults
        It would not stand the library's check; nothing is kept.
    """
    with saving():
        row = OwnPiece.objects.filter(kind="version", key=key).first()
        if row is None:
            raise InputError(f"You have no version {key!r}.", field="version")
        activity = str(row.body["activity"])
        texts_keep_before(activity)
        new_key, library = version_key(body), library_now()
        is_in_force = key in {one.id for one in library.activities[activity].versions}
        if new_key != key and is_in_force:
            _refuse_if_counted(key)
        before = {name: value for name, value in row.body.items() if name != "before"}
        if before == {name: value for name, value in body.items() if name != "before"}:
            return key
        place, known = row.position, faults_elsewhere(key, faults_now(activity, library))
        row.delete()
        tail = key.removeprefix(f"{activity}.")
        OwnPiece.objects.filter(kind="change", key__startswith=f"{activity}/{tail}/").delete()
        own_piece_to_row("version", {**body, "before": before}, position=place)
        refuse_faulty(activity, known)
    return new_key


def own_version_back(*, key: str) -> str:
    """Bring back what a version of hers said before its last change; its id.

    What it said until now takes the other's place, so this can be undone the same way.

    Raises
    ------
    InputError
        She has no such version, or nothing came before.
    """
    body = own_version_body(key)
    before = (body or {}).get("before")
    if not before:
        raise InputError(f"Nothing came before {key!r}.", field="version")
    return own_version_change(key=key, body=before)


def _refuse_if_counted(key: str) -> None:
    count = Trial.objects.filter(version=key).count()
    if count:
        raise InputError(
            f"Tries are on file for this version ({count}).",
            field="step",
            hint="Leave its step and its way as they were, or add another version.",
        )


def own_version_delete(*, key: str) -> None:
    """Take a version of hers out again.

    Raises
    ------
    InputError
        She has no such version.
    """
    with saving():
        activity, _dot, tail = key.partition(".")
        texts_keep_before(activity)
        if not OwnPiece.objects.filter(kind="version", key=key).delete()[0]:
            raise InputError(f"You have no version {key!r}.", field="version")
        OwnPiece.objects.filter(kind="change", key__startswith=f"{activity}/{tail}/").delete()
