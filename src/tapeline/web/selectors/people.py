"""Children, homes and the therapist as pages show them."""

from __future__ import annotations

from tapeline.caseload.people import Child, Home, Therapist
from tapeline.errors import InputError
from tapeline.web.records.convert import (
    child_from_row,
    children_with_all,
    home_from_row,
    therapist_from_row,
)
from tapeline.web.records.models import Home as HomeRow
from tapeline.web.records.models import Profile


def children_list(*, active_only: bool = False) -> tuple[Child, ...]:
    """All children with what hangs on them, in five queries; active ones first, by name."""
    rows = children_with_all()
    if active_only:
        rows = rows.filter(active=True)
    found = (child_from_row(row) for row in rows)
    return tuple(sorted(found, key=lambda child: (not child.active, child.name.casefold())))


def child_of(key: str) -> Child:
    """One child.

    Raises
    ------
    InputError
        There is no such child.
    """
    row = children_with_all().filter(key=key).first()
    if row is None:
        raise InputError(f"There is no child {key!r}.", field="child")
    return child_from_row(row)


def homes_list() -> tuple[Home, ...]:
    """All homes, by name."""
    found = (home_from_row(row) for row in HomeRow.objects.all())
    return tuple(sorted(found, key=lambda home: (home.name.casefold(), home.id)))


def home_of(key: str) -> Home:
    """One home.

    Raises
    ------
    InputError
        There is no such home.
    """
    row = HomeRow.objects.filter(key=key).first()
    if row is None:
        raise InputError(f"There is no home {key!r}.", field="home")
    return home_from_row(row)


def therapist_now() -> Therapist:
    """Who she is; an empty profile before she said."""
    return therapist_from_row(Profile.objects.first())
