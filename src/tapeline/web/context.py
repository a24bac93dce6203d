"""What every page knows: the navigation, and whether the children are invented."""

from __future__ import annotations

from functools import cache
from typing import Any

from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse
from django.utils.translation import gettext_lazy as _

from tapeline.web.records.which import backup_is_open, invented_is_open

AREAS = (
    ("week", _("This week")),
    ("children", _("Children")),
    ("groups", _("Groups")),
    ("library", _("Library")),
    ("therapist", _("About you")),
)

AREA_OF = {
    "week": "week",
    "session": "week",
    "child": "children",
    "goal": "children",
    "precaution": "children",
    "go": "children",
    "home": "children",
    "homes": "children",
    "group": "groups",
    "site": "groups",
    "sites": "groups",
    "room": "groups",
    "library": "library",
    "hers": "library",
    "own": "library",
    "draft": "library",
    "material": "library",
    "share": "library",
    "left": "library",
    "leave": "library",
    "activity": "library",
    "version": "library",
    "changes": "library",
}


def every_page(request: HttpRequest) -> dict[str, Any]:
    """`areas` for the navigation, `page` (the URL name), `invented`, a backup's date, the last."""
    match = request.resolver_match
    return {
        "areas": areas(),
        "page": area_of(match.url_name or "") if match else "",
        "invented": invented_is_open(),
        "looked_at": _looked_at() if backup_is_open() else None,
        "last_backup": _last_backup,  # called where a page shows it
    }


def area_of(url_name: str) -> str:
    """The area a page belongs to, by the first word of its name; else the name itself."""
    return AREA_OF.get(url_name.partition("_")[0], url_name)


@cache
def areas() -> tuple[tuple[str, Any, str], ...]:
    """URL name, label and address of each area that has a page."""
    found = []
    for name, label in AREAS:
        try:
            found.append((name, label, reverse(name)))
        except NoReverseMatch:
            continue
    return tuple(found)


def _looked_at() -> str:
    from tapeline.web.services.look import look_made

    return look_made()


def _last_backup() -> str:
    from tapeline.web.pages.keeping_words import last_checked_in_words

    return last_checked_in_words()
