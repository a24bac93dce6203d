"""Children from a spreadsheet: pasted, or as a CSV file. Name or code, birth month, group."""

from __future__ import annotations

import csv
import datetime as dt
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass

from tapeline.caseload.people import OLDEST_YEARS, Child
from tapeline.caseload.places import Group, Place
from tapeline.errors import InputError, ManyFaults
from tapeline.web.records.convert import child_to_row
from tapeline.web.records.models import Child as ChildRow
from tapeline.web.selectors.groups import groups_list
from tapeline.web.services.keys import new_id
from tapeline.web.services.marks import free_mark
from tapeline.web.services.places import member_add
from tapeline.web.services.saving import saving
from tapeline.web.today import today

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
HEADER_WORDS = frozenset({"name", "code", "child", "born", "birth", "month", "group", "dob"})
YEAR_MONTH = re.compile(r"^(\d{4})[-/.](\d{1,2})(?:[-/.]\d{1,2})?$")
MONTH_YEAR = re.compile(r"^(\d{1,2})[-/. ](\d{4})$")
WORD_YEAR = re.compile(r"^([A-Za-z]{3})[a-z]*\.?[ -]+(\d{4})$")
FULL_DATE = re.compile(r"^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})$")


@dataclass(frozen=True, kw_only=True)
class PastedChild:
    """One good line: the child, and the group it names (None = no group)."""

    line: int
    name: str
    born: str
    group: Group | None


def children_from_text(*, text: str) -> tuple[PastedChild, ...]:
    """The children in a pasted table or CSV text; nothing is written.

    The first line may name the columns. Columns are parted by tabs, semicolons or commas.
    Birth months may look like 2021-04, 4/2021 or April 2021; of a whole date only year and
    month are kept.

    Raises
    ------
    ManyFaults
        One sentence for each line that cannot be used.
    InputError
        There is no line with a child.
    """
    found, faults = table_of(text=text)
    if len(faults) == 1 and not found and faults[0].field == "text":
        raise faults[0]
    if faults:
        raise ManyFaults(faults, where="The table")
    return found


def table_of(*, text: str) -> tuple[tuple[PastedChild, ...], tuple[InputError, ...]]:
    """The good lines of a table and the faults of the others, both in its order."""
    reader = _Reader(groups=groups_list(), known=_known_children(), today=today())
    for number, cells in _lines(text):
        reader.read(number, cells)
    if not reader.found and not reader.faults:
        nothing = InputError(
            "There is no child in the table.",
            field="text",
            hint="Type one line per child: name or code, birth month, group.",
        )
        return (), (nothing,)
    return tuple(reader.found), tuple(reader.faults)


def children_add(*, text: str) -> tuple[Child, ...]:
    """Add every child of a table, in its group where it names one; all or none.

    Raises
    ------
    ManyFaults
        As `children_from_text`.
    """
    added = []
    with saving():
        for one in children_from_text(text=text):
            key = new_id("c")
            child = Child(id=key, name=one.name, born=one.born, mark=free_mark(key))
            child_to_row(child)
            added.append(child)
            if one.group is not None:
                place: Place = "home" if one.group.room is None else "room"
                member_add(group_key=one.group.id, child_key=key, place=place)
    return tuple(added)


def text_of_upload(content: bytes) -> str:
    """The text of a CSV file as spreadsheets write it (UTF-8 or Windows-1252)."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


class _Reader:
    def __init__(
        self, *, groups: tuple[Group, ...], known: set[tuple[str, str]], today: dt.date
    ) -> None:
        self._groups = groups
        self._known = known
        self._today = today
        self.found: list[PastedChild] = []
        self.faults: list[InputError] = []

    def read(self, number: int, cells: list[str]) -> None:
        try:
            self.found.append(self._child(number, cells))
        except InputError as fault:
            self.faults.append(fault)

    def _child(self, number: int, cells: list[str]) -> PastedChild:
        name, month, group = (*cells, "", "", "")[:3]
        if not name:
            raise InputError(f"Line {number} has no name.", field="name", hint="Type a code.")
        born = birth_month(month, where=f"Line {number} ({name})", today=self._today)
        if (name.casefold(), born) in self._known:
            raise InputError(
                f"Line {number}: {name}, born in {born}, is there already.",
                field="name",
                hint="Take the line out, or give the child another name or code.",
            )
        self._known.add((name.casefold(), born))
        return PastedChild(
            line=number, name=name, born=born, group=self._group(group, number, name)
        )

    def _group(self, named: str, number: int, name: str) -> Group | None:
        if not named:
            return None
        for group in self._groups:
            if named.casefold() in (group.name.casefold(), group.id.casefold()):
                return group
        known = ", ".join(group.name for group in self._groups)
        raise InputError(
            f"Line {number} ({name}) names the group {named!r}, which is not there.",
            field="group",
            hint=f"Use one of: {known}." if known else "Add the group first, or leave it out.",
        )


def birth_month(typed: str, *, where: str, today: dt.date) -> str:
    """A birth month as ``YYYY-MM`` from what a spreadsheet may hold.

    Raises
    ------
    InputError
        It is missing, cannot be read, can be read two ways, or cannot be right.
    """
    if not typed:
        raise InputError(
            f"{where} has no birth month.", field="born", hint="Type one such as 2021-04."
        )
    year, month = _year_and_month(typed, where)
    if not 1 <= month <= 12:
        raise _unreadable(typed, where)
    is_future = (year, month) > (today.year, today.month)
    if is_future or today.year - year > OLDEST_YEARS:
        raise InputError(
            f"{where} has the birth month {typed!r}, which cannot be right.",
            field="born",
            hint=f"Type a month of the last {OLDEST_YEARS} years.",
        )
    return f"{year}-{month:02d}"


def _year_and_month(typed: str, where: str) -> tuple[int, int]:
    if found := YEAR_MONTH.match(typed):
        return int(found[1]), int(found[2])
    if found := MONTH_YEAR.match(typed):
        return int(found[2]), int(found[1])
    if (found := WORD_YEAR.match(typed)) and found[1].lower() in MONTHS:
        return int(found[2]), MONTHS.index(found[1].lower()) + 1
    if found := FULL_DATE.match(typed):
        return int(found[3]), _month_of_two(int(found[1]), int(found[2]), typed, where)
    raise _unreadable(typed, where)


def _month_of_two(first: int, second: int, typed: str, where: str) -> int:
    """Day and month in either order, where only one order is possible."""
    if first == second or first > 12:
        return second
    if second > 12:
        return first
    raise InputError(
        f"{where} has the date {typed!r}, which can be read two ways.",
        field="born",
        hint="Type year and month, such as 2021-04.",
    )


def _unreadable(typed: str, where: str) -> InputError:
    return InputError(
        f"{where} has the birth month {typed!r}, which cannot be read.",
        field="born",
        hint="Type year and month, such as 2021-04.",
    )


def _lines(text: str) -> Iterator[tuple[int, list[str]]]:
    """Number and cells of each line that holds something, without the header."""
    rows = csv.reader(io.StringIO(text.lstrip("\ufeff")), delimiter=_delimiter(text))
    is_first = True
    for row in rows:
        cells = [cell.strip() for cell in row]
        if not any(cells):
            continue
        if not (is_first and _is_header(cells)):
            yield rows.line_num, cells
        is_first = False


def _delimiter(text: str) -> str:
    first = next((line for line in text.splitlines() if line.strip()), "")
    return next((mark for mark in ("\t", ";") if mark in first), ",")


def _is_header(cells: list[str]) -> bool:
    words = set(re.findall(r"[a-z]+", " ".join(cells[1:]).casefold()))
    return bool(words & HEADER_WORDS) and not any(re.search(r"\d{4}", cell) for cell in cells)


def _known_children() -> set[tuple[str, str]]:
    return {(name.casefold(), born) for name, born in ChildRow.objects.values_list("name", "born")}
