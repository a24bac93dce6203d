"""Children pasted from a spreadsheet or read from CSV: name or code, birth month, group."""

from __future__ import annotations

import csv
import datetime as dt
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tapeline.caseload.months import birth_month
from tapeline.errors import InputError

HEADINGS = {
    "name": ("name", "child", "code", "name or code", "first name", "student", "nombre", "código"),
    "born": (
        "born",
        "birth month",
        "month of birth",
        "birth date",
        "birthdate",
        "birthday",
        "date of birth",
        "dob",
        "nacimiento",
        "fecha de nacimiento",
    ),
    "group": ("group", "class", "grupo"),
}
QUOTED = re.compile(r'"[^"]*"')
IN_ORDER = {"name": 0, "born": 1, "group": 2}


@dataclass(frozen=True, kw_only=True)
class PastedChild:
    """One line that can be taken over; `group` is as it was typed, empty where none was."""

    line: int
    name: str
    born: str
    group: str = ""


@dataclass(frozen=True, kw_only=True)
class Pasted:
    """Children that can be taken over, and one fault per line that cannot."""

    children: tuple[PastedChild, ...]
    faults: tuple[InputError, ...]


def children_from_text(text: str, today: dt.date) -> Pasted:
    """Children in lines of a spreadsheet, with the faults of the lines that cannot be used.

    Parameters
    ----------
    text
        Lines with tabs, semicolons or commas between name or code, birth month, and
        optionally a group, in this order. A first line of headings may set another order;
        columns with other headings are left out.
    today
        Later birth months are impossible.

    Returns
    -------
    Pasted
        In the order of the lines; a line that stands twice counts once and is a fault.
    """
    columns: Mapping[str, int] | None = None
    children: list[PastedChild] = []
    faults: list[InputError] = []
    for line, cells in _lines(text):
        if columns is None:
            columns = _columns(cells)
            if columns is not IN_ORDER:
                continue
        try:
            child = _child(line, cells, columns, today)
            _refuse_double(child, children)
        except InputError as error:
            faults.append(error)
        else:
            children.append(child)
    return Pasted(children=tuple(children), faults=tuple(faults))


def _lines(text: str) -> Iterator[tuple[int, list[str]]]:
    """Line numbers as she sees them, with the cells; empty lines are left out."""
    for number, line in enumerate(text.lstrip("\ufeff").splitlines(), start=1):
        cells = [" ".join(cell.split()) for cell in _cells(line)]
        if any(cells):
            yield number, cells


def _cells(line: str) -> list[str]:
    """The cells of a line, cut at its tabs, else its semicolons, else its commas."""
    bare = QUOTED.sub("", line)
    between = next((mark for mark in ("\t", ";") if mark in bare), ",")
    return next(csv.reader([line], delimiter=between, skipinitialspace=True), [])


def _columns(cells: list[str]) -> Mapping[str, int]:
    """Which column holds what by a line of headings; `IN_ORDER` when there are none."""
    heads = [cell.lower().rstrip(":") for cell in cells]
    found = {
        what: next(place for place, head in enumerate(heads) if head in words)
        for what, words in HEADINGS.items()
        if any(head in words for head in heads)
    }
    return found if "name" in found and "born" in found else IN_ORDER


def _child(line: int, cells: list[str], columns: Mapping[str, int], today: dt.date) -> PastedChild:
    name, born, group = (_cell(cells, columns.get(what)) for what in ("name", "born", "group"))
    if not name:
        raise InputError(f"Line {line} has no name.", field="name", hint="Give a name or a code.")
    if len([cell for cell in cells if cell]) == 1:
        raise InputError(
            f"Line {line} ({name}) has only one entry.",
            field="born",
            hint="Write name, birth month and group, with commas or tabs between.",
        )
    try:
        month = birth_month(born, today=today)
    except InputError as error:
        raise InputError(
            f"Line {line} ({name}): {error.message}", field=error.field, hint=error.hint
        ) from None
    return PastedChild(line=line, name=name, born=month, group=group)


def _cell(cells: list[str], place: int | None) -> str:
    return cells[place] if place is not None and place < len(cells) else ""


def _refuse_double(child: PastedChild, before: list[PastedChild]) -> None:
    for other in before:
        if (other.name.casefold(), other.born) == (child.name.casefold(), child.born):
            raise InputError(
                f"Line {child.line} ({child.name}) says the same as line {other.line}.",
                field="name",
                hint="Keep one, or give them different names or codes.",
            )
