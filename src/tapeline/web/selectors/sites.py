"""Sites as pages show them."""

from __future__ import annotations

from tapeline.caseload.places import Site
from tapeline.errors import InputError
from tapeline.web.records.convert import site_from_row, sites_with_all


def sites_list() -> tuple[Site, ...]:
    """All sites with terms, closed days and rooms, in four queries; by name."""
    found = (site_from_row(row) for row in sites_with_all())
    return tuple(sorted(found, key=lambda site: (site.name.casefold(), site.id)))


def site_of(key: str) -> Site:
    """One site.

    Raises
    ------
    InputError
        There is no such site.
    """
    row = sites_with_all().filter(key=key).first()
    if row is None:
        raise InputError(f"There is no site {key!r}.", field="site")
    return site_from_row(row)
