"""What is printed: a template, its words, its figures and its drawings."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from hashlib import sha256
from typing import Any

from tapeline.documents.packet import Drawing, Figure
from tapeline.documents.pictures import millimetres, three_pictures
from tapeline.documents.typesetting import typeset


def print_sheet(
    template: str,
    values: Any,
    drawings: Mapping[str, str],
    *,
    day: str,
    more: Mapping[str, Any] | None = None,
) -> bytes:
    """A sheet as one tagged PDF that is checked against PDF/UA-1 while it is made.

    Drawings stand beside the words because typst hashes a value at every call it is handed
    to; all is one text because typst remembers a page only while its inputs keep their order,
    and several inputs come in any order.

    Parameters
    ----------
    template
        File name below ``templates/``; it reads ``packet`` (the values) and the drawings.
    values
        A dataclass of finished words, figures and drawings.
    day
        ISO date that stands in for the time of printing, so that the same gives the same.
    more
        What else the template reads from ``packet``.

    Raises
    ------
    MissingComponent
        typst is not installed.
    InputError
        A name or note holds a letter that the paper's font does not have.
    """
    named = dict(drawings)
    content = {"packet": {**_plain(values, named), **(more or {})}, "drawings": named}
    return typeset(template, json.dumps(content, ensure_ascii=False), day=day)


def _plain(value: Any, drawings: dict[str, str]) -> Any:
    """Dataclasses as dictionaries; a record with a figure gets its pictures beside it.

    The pictures themselves are added to `drawings`.
    """
    if isinstance(value, tuple | list):
        return [_plain(one, drawings) for one in value]
    if isinstance(value, Figure):
        pictures = three_pictures(value)
        return [{**_plain(one, drawings), **millimetres(one, value)} for one in pictures]
    if isinstance(value, Drawing):
        name = f"drawn-{sha256(value.svg.encode()).hexdigest()[:16]}"
        drawings[name] = value.svg
        return {"name": name, "alt": value.alt}
    if not is_dataclass(value):
        return value
    plain = {one.name: _plain(getattr(value, one.name), drawings) for one in fields(value)}
    if "figure" in plain:
        plain["pictures"] = plain.pop("figure") or []
    return plain
