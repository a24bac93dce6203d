"""Where a name stands in texts that she typed: what deleting a child does not reach."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from django.db import models
from django.utils.translation import gettext as _

from tapeline.web.records import models as rows


@dataclass(frozen=True, kw_only=True)
class Mention:
    """A place in which a name stands, as a page calls it."""

    where: str


def mentions_of(name: str, *, but_child: str | None = None) -> tuple[Mention, ...]:
    """Places where a name or code stands as a word of its own.

    Parameters
    ----------
    but_child
        Id of a child whose own rows are left out.
    """
    word = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)", re.IGNORECASE)
    found = dict.fromkeys(_places(word, but_child))
    return tuple(Mention(where=where) for where in found)


def _places(word: re.Pattern[str], but_child: str | None) -> Iterator[str]:
    for model, (call, of_child) in SEARCHED.items():
        kept = model.objects.all()
        if but_child is not None and of_child:
            kept = kept.exclude(**{of_child: but_child})
        fields = [field.attname for field in model._meta.concrete_fields if _holds_words(field)]
        for row in kept:
            if any(word.search(_text(getattr(row, field))) for field in fields):
                yield call(row)


def _holds_words(field: Any) -> bool:
    is_text = isinstance(field, models.CharField | models.TextField | models.JSONField)
    return is_text and field.attname not in ("key", "plan", "activities")


def _text(value: Any) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _of_session(row: Any) -> str:
    session = getattr(row, "session", row)
    return _("%(group)s on %(date)s") % {"group": session.group.name, "date": session.date}


def _note(row: Any) -> str:
    return _("the note about %(name)s, %(session)s") % {
        "name": row.child.name,
        "session": _of_session(row),
    }


def _child(row: Any) -> str:
    return _("the page of %(name)s") % {"name": getattr(row, "child", row).name}


Call = Callable[[Any], str]
SEARCHED: dict[Any, tuple[Call, str]] = {
    rows.Child: (_child, "key"),
    rows.Goal: (_child, "child__key"),
    rows.ChildPrecaution: (_child, "child__key"),
    rows.GoAhead: (lambda row: _child(row.precaution), "precaution__child__key"),
    rows.SessionNote: (_note, "child__key"),
    rows.Amendment: (lambda row: _note(row.of), "of__child__key"),
    rows.KeptReport: (_child, "child__key"),
    rows.MadeUp: (_child, "child__key"),
    rows.FamilyAnswer: (_of_session, "child__key"),
    rows.Stop: (_of_session, "child__key"),
    rows.Sheet: (_of_session, ""),
    rows.Session: (_of_session, ""),
    rows.Home: (lambda row: _("the home %(name)s") % {"name": row.name or row.key}, ""),
    rows.Group: (lambda row: _("the group %(name)s") % {"name": row.name}, ""),
    rows.Site: (lambda row: _("the site %(name)s") % {"name": row.name}, ""),
    rows.ClosedDay: (lambda row: _("the site %(name)s") % {"name": row.site.name}, ""),
    rows.Room: (lambda row: _("the site %(name)s") % {"name": row.site.name}, ""),
    rows.Profile: (lambda row: _("the page about you"), ""),
    rows.OwnPiece: (lambda row: _("the library, %(id)s") % {"id": row.key}, ""),
    rows.LeftOut: (lambda row: _("what is left out"), "child__key"),
}
