"""Bring the rows that hang on a record in line with its values, touching only what differs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.db import models

from tapeline.errors import InputError

Columns = Mapping[str, Any]


def keep_in_step(
    parent: Any, related: str, values: Iterable[Columns], *, known_by: tuple[str, ...]
) -> list[Any]:
    """Rows of `parent.related` in the order of `values`.

    A row is the same one when the columns `known_by` are the same; a second row alike is
    told from the first by its turn. Rows that differ are changed, missing ones deleted and
    new ones made, so that the history of a row that stays is its own.
    """
    link = parent._meta.get_field(related).field.name
    kept = _by_name(getattr(parent, related).all(), known_by)
    wanted = _turns(values, known_by)
    for name in kept.keys() - wanted.keys():
        kept[name].delete()
    rows = []
    for position, (name, columns) in enumerate(wanted.items()):
        row = kept.get(name) or parent._meta.get_field(related).related_model(**{link: parent})
        rows.append(save_if_changed(row, {**columns, "position": position}))
    _forget_prefetched(parent, related)
    return rows


def save_if_changed(row: Any, columns: Columns) -> Any:
    """The row with these columns, written only when it is new or differs."""
    differs = row.pk is None
    for name, value in columns.items():
        if getattr(row, name) != value:
            _refuse_too_long(row, name, value)
            setattr(row, name, value)
            differs = True
    if differs:
        row.save()
    return row


def _refuse_too_long(row: Any, name: str, value: Any) -> None:
    """SQLite would keep a longer text than its column says; other databases would not."""
    longest = getattr(row._meta.get_field(name), "max_length", None)
    if isinstance(value, str) and longest is not None and len(value) > longest:
        raise InputError(
            f"{value[:30]}… is {len(value)} letters long.",
            field=name,
            hint=f"Use at most {longest} letters.",
        )


def row_of(model: type[models.Model], key: str, **columns: Any) -> Any:
    """The row with this key, changed to these columns or made."""
    row = model._default_manager.filter(key=key).first() or model()
    return save_if_changed(row, {"key": key, **columns})


def number_of(model: type[models.Model], key: str | None, what: str) -> int | None:
    """The database number behind a key; None stays None."""
    if key is None:
        return None
    number = model._default_manager.filter(key=key).values_list("pk", flat=True).first()
    if number is None:
        raise InputError(
            f"There is no {what} {key!r} on file.",
            field=what,
            hint=f"Add the {what} first, or choose another.",
        )
    return number


def _by_name(rows: Iterable[Any], known_by: tuple[str, ...]) -> dict[tuple[Any, ...], Any]:
    found: dict[tuple[Any, ...], Any] = {}
    for row in rows:
        found[_name({key: getattr(row, key) for key in known_by}, known_by, found)] = row
    return found


def _turns(values: Iterable[Columns], known_by: tuple[str, ...]) -> dict[tuple[Any, ...], Columns]:
    found: dict[tuple[Any, ...], Columns] = {}
    for columns in values:
        found[_name(columns, known_by, found)] = columns
    return found


def _name(
    columns: Columns, known_by: tuple[str, ...], taken: Mapping[tuple[Any, ...], Any]
) -> tuple[Any, ...]:
    base = tuple(repr(columns[key]) for key in known_by)
    turn = 0
    while (*base, turn) in taken:
        turn += 1
    return (*base, turn)


def _forget_prefetched(parent: Any, related: str) -> None:
    getattr(parent, "_prefetched_objects_cache", {}).pop(related, None)
