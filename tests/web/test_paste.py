"""Children out of a spreadsheet."""

from __future__ import annotations

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.errors import InputError, ManyFaults
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.people import children_list
from tapeline.web.services.paste import (
    children_add,
    children_from_text,
    text_of_upload,
)


@pytest.mark.django_db
@pytest.mark.parametrize("mark", ["\t", ";", ","])
@pytest.mark.parametrize("header", ["", "Name{m}Birth month{m}Group\n"])
def test_a_table_is_read_with_or_without_header(on_file: Caseload, mark: str, header: str) -> None:
    text = header.format(m=mark) + f"Nell{mark}2021-04{mark}tuesday hall\n\nB7{mark}4/2020{mark}\n"
    found = children_from_text(text=text)
    assert [(one.name, one.born) for one in found] == [("Nell", "2021-04"), ("B7", "2020-04")]
    assert [one.group and one.group.id for one in found] == ["gulls", None]


@pytest.mark.django_db
def test_six_children_are_in_with_group_and_marks(on_file: Caseload) -> None:
    added = children_add(text="\n".join(f"K{n};2021-0{n};Tuesday hall" for n in range(1, 7)))
    assert len({child.mark for child in added}) == 6
    group = group_of("gulls")
    assert [one.child for one in group.members][2:] == [child.id for child in added]
    marks = {child.id: child.mark for child in children_list()}
    assert len({marks[one.child] for one in group.members}) == 8


@pytest.mark.django_db
def test_every_bad_line_gets_one_sentence_and_nothing_is_added(on_file: Caseload) -> None:
    text = "Good,2021-04\n,2021-04\nNo month\nAnn,31.31.2020\nBea,2021-04,Choir\nOdo,2021-03\n"
    with pytest.raises(ManyFaults) as error:
        children_add(text=text)
    lines = [fault.message for fault in error.value.faults]
    assert [line.split(" ")[1].rstrip(":") for line in lines] == ["2", "3", "4", "5", "6"]
    assert "'Choir', which is not there" in lines[3]
    assert "is there already" in lines[4]
    assert len(children_list()) == 3


@pytest.mark.django_db
def test_an_empty_table_is_said() -> None:
    with pytest.raises(InputError, match="no child in the table"):
        children_from_text(text="Name,Birth month\n\n")


def test_a_spreadsheets_own_encodings_are_read() -> None:
    assert text_of_upload("Zoë;2021-04".encode("utf-8-sig")) == "Zoë;2021-04"
    assert text_of_upload("Zoë;2021-04".encode("cp1252")) == "Zoë;2021-04"
