"""Children pasted from a spreadsheet."""

from __future__ import annotations

import datetime as dt

import pytest

from tapeline.caseload.months import birth_month
from tapeline.caseload.paste import PastedChild, children_from_text
from tapeline.errors import InputError

TODAY = dt.date(2026, 3, 10)


@pytest.mark.parametrize(
    "typed",
    [
        "2021-04",
        "2021-4",
        "2021/04",
        "2021.04",
        "2021-04-17",
        "2021-04-17 00:00:00",
        "2021-04-17T00:00:00Z",
        "04/2021",
        "4/2021",
        "4.2021",
        "04-2021",
        "17/04/2021",
        "04/17/2021",
        "17.4.2021",
        "4/4/2021",
        "4/17/21",
        "Apr 2021",
        "april 2021",
        "APRIL  2021",
        "Apr. 2021",
        "2021 Apr",
        "Apr-21",
        "Apr '21",
        "17 April 2021",
        "April 17, 2021",
        "17th April 2021",
        "abril de 2021",
        "17 de abril de 2021",
        "abr 2021",
    ],
)
def test_usual_spellings_of_one_month_are_the_same(typed: str) -> None:
    assert birth_month(typed, today=TODAY) == "2021-04"


@pytest.mark.parametrize(
    ("typed", "month"),
    [("Jan 2021", "2021-01"), ("ene 2021", "2021-01"), ("Sept 2020", "2020-09"),
     ("Mar 2020", "2020-03"), ("mayo 2020", "2020-05"), ("ago 2020", "2020-08"),
     ("dic-20", "2020-12"), ("2026-03", "2026-03"), ("March 2005", "2005-03")],
)  # fmt: skip
def test_other_months_are_told_apart(typed: str, month: str) -> None:
    assert birth_month(typed, today=TODAY) == month


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("", "The birth month is missing."),
        ("soon", "'soon' is not a birth month."),
        ("2021", "'2021' is not a birth month."),
        ("4", "'4' is not a birth month."),
        ("Ap 2021", "'Ap 2021' is not a birth month."),
        ("Apr or May 2021", "'Apr or May 2021' is not a birth month."),
        ("2021-13", "'2021-13' names month 13, and a year has 12."),
        ("2021-00", "'2021-00' names month 0, and a year has 12."),
        ("13/14/2021", "'13/14/2021' is not a date."),
        ("03/04/2021", "'03/04/2021' could be month 3 or month 4."),
        ("2026-04", "The birth month 2026-04 lies after today."),
        ("Apr-99", "The birth month 2099-04 lies after today."),
        ("1990-02", "The birth month 1990-02 lies more than 21 years back."),
    ],
)
def test_what_is_no_birth_month_is_said(typed: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        birth_month(typed, today=TODAY)
    assert caught.value.message == sentence
    assert caught.value.hint


SIX = [
    PastedChild(line=number, name=name, born=born, group="Hall")
    for number, name, born in [
        (1, "Amara", "2021-04"),
        (2, "K. O.", "2020-11"),
        (3, "c-17", "2022-01"),
        (4, "Ines", "2019-09"),
        (5, "Yuki", "2021-04"),
        (6, "Zoë", "2020-02"),
    ]
]


@pytest.mark.parametrize("between", [",", ", ", ";", "\t", " ; "])
def test_six_children_are_read_with_any_usual_mark_between(between: str) -> None:
    text = "\n".join(between.join((one.name, one.born, one.group)) for one in SIX)
    pasted = children_from_text(text, TODAY)
    assert (list(pasted.children), pasted.faults) == (SIX, ())


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_of_any_computer_are_read(end: str) -> None:
    pasted = children_from_text(f"Amara,2021-04{end}Kofi,2020-11{end}", TODAY)
    assert [child.name for child in pasted.children] == ["Amara", "Kofi"]


def test_a_line_of_headings_sets_the_order_and_drops_what_is_not_asked() -> None:
    text = "Group\tDiagnosis\tDate of birth\tChild\nHall\tsecret\t17/04/2021\tAmara\n"
    pasted = children_from_text(text, TODAY)
    assert pasted.children == (PastedChild(line=2, name="Amara", born="2021-04", group="Hall"),)
    assert "secret" not in repr(pasted)


@pytest.mark.parametrize("heads", ["name,born", "Name or code;Birth month;Group", "Code\tDOB"])
def test_headings_are_no_child(heads: str) -> None:
    assert children_from_text(heads, TODAY) == children_from_text("", TODAY)


def test_a_group_may_be_left_out() -> None:
    (child,) = children_from_text("Amara, Apr 2021", TODAY).children
    assert child.group == ""


def test_a_quoted_name_may_hold_a_comma() -> None:
    (child,) = children_from_text('"Quint, Amara",2021-04,Hall', TODAY).children
    assert (child.name, child.born) == ("Quint, Amara", "2021-04")


def test_a_mark_at_the_start_of_a_windows_file_is_no_name() -> None:
    (child,) = children_from_text("\ufeffAmara,2021-04", TODAY).children
    assert child.name == "Amara"


def test_every_bad_line_is_one_sentence_and_the_others_are_kept() -> None:
    text = "\n".join(
        [
            "Amara,2021-04,Hall",
            "",
            "Kofi,soon,Hall",
            ",2021-04,Hall",
            "Ines",
            "amara, Apr 2021",
            "Yuki,5/2020",
        ]
    )
    pasted = children_from_text(text, TODAY)
    assert [child.name for child in pasted.children] == ["Amara", "Yuki"]
    assert [fault.message for fault in pasted.faults] == [
        "Line 3 (Kofi): 'soon' is not a birth month.",
        "Line 4 has no name.",
        "Line 5 (Ines) has only one entry.",
        "Line 6 (amara) says the same as line 1.",
    ]
    assert all(fault.hint for fault in pasted.faults)
