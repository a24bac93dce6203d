"""Single sheets on paper: PDF/UA-1, one warm compiler for each template."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import asdict
from functools import cache
from importlib.resources import files
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

from tapeline.documents.printing import letter_without_a_shape
from tapeline.errors import MissingComponent

if TYPE_CHECKING:
    from typst import Compiler

ONE_AT_A_TIME = Lock()


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
    with ONE_AT_A_TIME:
        made = _compile(template, json.dumps(content, ensure_ascii=False), day)
    if not isinstance(made, bytes):
        raise TypeError(f"typst gave {type(made).__name__} in place of one PDF.")
    return made


def _compile(template: str, content: str, day: str) -> object:
    compiler = _compiler(template)
    from typst import TypstError

    try:
        return compiler.compile(
            sys_inputs={"content": content},
            format="pdf",
            pdf_standards=["ua-1"],
            timestamp=_noon(day),
        )
    except TypstError as error:
        without_shape = letter_without_a_shape(str(error))
        if without_shape is None:
            raise
        raise without_shape from None


@cache
def _compiler(template: str) -> Compiler:
    try:
        from typst import Compiler
    except ImportError:
        raise MissingComponent(
            "Printing needs typst, which is not installed.",
            hint="Start tapeline once with run.py, which installs it.",
        ) from None
    here = documents_folder()
    return Compiler(
        input=here / "templates" / template,
        root=here / "templates",
        font_paths=[here / "fonts"],
        ignore_system_fonts=True,
    )


def documents_folder() -> Path:
    """Where templates, fonts and words of documents are."""
    return Path(str(files("tapeline.documents")))


def _noon(day: str) -> dt.datetime:
    return dt.datetime.combine(dt.date.fromisoformat(day), dt.time(12), tzinfo=dt.UTC)
