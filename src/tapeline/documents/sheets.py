"""Single sheets on paper: a template, its words and its drawings."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

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

    Parameters
    ----------
    template
        File name below ``templates/``; it reads ``packet`` (the values) and the drawings.
    values
        A dataclass of finished words.
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
    content = {"packet": {**asdict(values), **(more or {})}, "drawings": dict(drawings)}
    return typeset(template, json.dumps(content, ensure_ascii=False), day=day)
