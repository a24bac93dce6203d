"""What she made of the library: rows and values."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from pydantic import TypeAdapter

from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import KeptText, LeftOut, OwnChange
from tapeline.caseload.history import Session
from tapeline.caseload.own_library import (
    library_in_force,
    texts_that_differ,
    texts_used,
    version_key,
)
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert.in_step import number_of, row_of, save_if_changed

FIELDS = {
    "activity": "own_activities",
    "version": "own_versions",
    "material": "own_materials",
    "change": "own_changes",
    "draft": "own_drafts",
    "text": "kept_texts",
}
IN_FORCE = ("activity", "version", "material", "change")
TYPED: dict[str, TypeAdapter[Any]] = {
    "change": TypeAdapter(OwnChange),
    "text": TypeAdapter(KeptText),
}
LEFT_OUT_COLUMNS = ("activity", "since", "reason")


def own_library_from_rows(sessions: Iterable[Session] | None = None) -> dict[str, Any]:
    """The fields of a caseload that hold what she made of the library.

    Parameters
    ----------
    sessions
        Of the kept texts, only those that these sessions need beside the library of today;
        None means all.
    """
    if sessions is None:
        pieces = own_pieces_from_rows()
    else:
        pieces = own_pieces_from_rows(*IN_FORCE, "draft")
        pieces["kept_texts"] = kept_texts_for(sessions, library_in_force(Caseload(**pieces)))
    return {
        **pieces,
        "left_out": tuple(left_out_from_row(row) for row in left_out_with_all()),
    }


def own_pieces_from_rows(*kinds: str) -> dict[str, Any]:
    """Hers by the field of the caseload, in one query; only of these kinds where some are named."""
    found: dict[str, list[Any]] = {}
    wanted = rows.OwnPiece.objects.all()
    if kinds:
        wanted = wanted.filter(kind__in=kinds)
    for kind, body in wanted.values_list("kind", "body"):
        made = TYPED[kind].validate_python(body) if kind in TYPED else body
        found.setdefault(FIELDS[kind], []).append(made)
    return {field: tuple(pieces) for field, pieces in found.items()}


def kept_texts_for(sessions: Iterable[Session], library: Library) -> tuple[KeptText, ...]:
    """The texts that sessions were planned with and that the library no longer has."""
    used = [texts_used(session) for session in sessions]
    needed = {key for texts in used for key in texts_that_differ(texts, library).values()}
    if not needed:
        return ()
    kept = rows.OwnPiece.objects.filter(kind="text", key__in=needed)
    return tuple(
        TYPED["text"].validate_python(body) for body in kept.values_list("body", flat=True)
    )


def own_library_to_rows(caseload: Caseload, *, at_the_end: bool = False) -> None:
    """Write what she made of the library over what is on file; nothing is taken out.

    With `at_the_end`, what is new comes after what is there.
    """
    for kind, field in FIELDS.items():
        for place, piece in enumerate(getattr(caseload, field)):
            own_piece_to_row(kind, piece, position=None if at_the_end else place)
    for row in caseload.left_out:
        left_out_to_row(row)


def own_piece_to_row(kind: str, piece: Any, *, position: int | None = None) -> rows.OwnPiece:
    """The row of an activity, version, material, draft, change or kept text.

    Without a position it stays where it stands, and a new one comes last.
    """
    key = key_of(kind, piece)
    body = TYPED[kind].dump_python(piece, mode="json") if kind in TYPED else piece
    own = rows.OwnPiece.objects.filter(kind=kind)
    row = own.filter(key=key).first() or rows.OwnPiece(position=own.count())
    place = row.position if position is None else position
    return save_if_changed(row, {"kind": kind, "key": key, "body": body, "position": place})


def key_of(kind: str, piece: Any) -> str:
    """What tells a piece from others of its kind.

    Raises
    ------
    InputError
        It has no id.
    """
    if kind in TYPED:
        return str(piece.id)
    if kind == "version":
        return version_key(piece)
    if not piece.get("id"):
        raise InputError(f"A {kind} of yours has no id.", field="id", hint="Give it one.")
    return str(piece["id"])


def left_out_with_all() -> Iterable[rows.LeftOut]:
    """Rows of what is left out, with the children and homes they name."""
    return rows.LeftOut.objects.select_related("child", "home")


def left_out_from_row(row: rows.LeftOut) -> LeftOut:
    """An activity that is left out."""
    return LeftOut(
        id=row.key,
        child=row.child.key if row.child else None,
        home=row.home.key if row.home else None,
        **{name: getattr(row, name) for name in LEFT_OUT_COLUMNS},
    )


def left_out_to_row(left_out: LeftOut) -> rows.LeftOut:
    """The row of an activity that is left out; its child or home is on file before."""
    return row_of(
        rows.LeftOut,
        left_out.id,
        child_id=number_of(rows.Child, left_out.child, "child"),
        home_id=number_of(rows.Home, left_out.home, "home"),
        **{name: getattr(left_out, name) for name in LEFT_OUT_COLUMNS},
    )
