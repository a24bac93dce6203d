"""Children from a spreadsheet, held against the groups and children that are there.

How a table is read stands in `tapeline.caseload.paste`.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.caseload.paste import PastedChild as Line
from tapeline.caseload.paste import children_from_text as lines_of
from tapeline.caseload.people import Child
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


@dataclass(frozen=True, kw_only=True)
class PastedChild:
    """One good line: the child, and the group it names (None = no group)."""

    line: int
    name: str
    born: str
    group: Group | None


def children_from_text(*, text: str) -> tuple[PastedChild, ...]:
    """The children in a pasted table or CSV text; nothing is written.

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
    """The good lines of a table, and the faults of the others, unreadable lines first."""
    pasted = lines_of(text, today())
    if not pasted.children and not pasted.faults:
        nothing = InputError(
            "There is no child in the table.",
            field="text",
            hint="Type one line per child: name or code, birth month, group.",
        )
        return (), (nothing,)
    groups, known = groups_list(), _known_children()
    found: list[PastedChild] = []
    faults = list(pasted.faults)
    for line in pasted.children:
        try:
            found.append(_held_against(line, groups, known))
        except InputError as fault:
            faults.append(fault)
    return tuple(found), tuple(faults)


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


def _held_against(
    line: Line, groups: tuple[Group, ...], known: set[tuple[str, str]]
) -> PastedChild:
    if (line.name.casefold(), line.born) in known:
        raise InputError(
            f"Line {line.line}: {line.name}, born in {line.born}, is there already.",
            field="name",
            hint="Take the line out, or give the child another name or code.",
        )
    group = _group_of(line, groups)
    return PastedChild(line=line.line, name=line.name, born=line.born, group=group)


def _group_of(line: Line, groups: tuple[Group, ...]) -> Group | None:
    if not line.group:
        return None
    for group in groups:
        if line.group.casefold() in (group.name.casefold(), group.id.casefold()):
            return group
    known = ", ".join(group.name for group in groups)
    raise InputError(
        f"Line {line.line} ({line.name}) names the group {line.group!r}, which is not there.",
        field="group",
        hint=f"Use one of: {known}." if known else "Add the group first, or leave it out.",
    )


def _known_children() -> set[tuple[str, str]]:
    rows = ChildRow.objects.values_list("name", "born")
    return {(name.casefold(), born) for name, born in rows}
