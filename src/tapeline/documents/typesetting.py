"""From a template and its content to one tagged PDF: one warm compiler for each template."""

from __future__ import annotations

import datetime as dt
import re
from functools import cache
from importlib.resources import files
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from tapeline.errors import InputError, MissingComponent

if TYPE_CHECKING:
    from typst import Compiler

ONE_AT_A_TIME = Lock()


def typeset(template: str, content: str, *, day: str) -> bytes:
    """One tagged PDF, checked against PDF/UA-1 while it is made.

    Parameters
    ----------
    template
        File name below ``templates/``.
    content
        JSON text that the template reads.
    day
        ISO date that stands in for the time of printing, so that the same gives the same.

    Raises
    ------
    MissingComponent
        typst is not installed.
    InputError
        A name or note holds a letter that the paper's font does not have.
    """
    with ONE_AT_A_TIME:
        made = _compile(template, content, day)
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
        without_shape = _letter_without_a_shape(str(error))
        if without_shape is None:
            raise
        raise without_shape from None


def _letter_without_a_shape(said: str) -> InputError | None:
    """The sentence for letters that typst says it cannot show; None for another fault."""
    if "could not be displayed" not in said and "not covered" not in said:
        return None
    found = dict.fromkeys(re.findall(r"[`'\"](.{1,4})[`'\"]", said))
    return InputError(
        f"The paper's font has no shape for {' '.join(found) or 'a letter'}, "
        "so nothing was printed.",
        field="name",
        hint="Spell the name or note in Latin letters, or use a code.",
    )


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
