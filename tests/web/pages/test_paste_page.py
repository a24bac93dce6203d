"""Children from a spreadsheet: first a look, then all of them or none."""

from __future__ import annotations

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.people import children_list
from tests.web.pages.filled import fault_at, form_on, send, words_of

pytestmark = pytest.mark.django_db
TABLE = "name\tbirth month\tgroup\nRuna\t2021-04\tTuesday hall\nBo\tMay 2020\t\n"


def test_looking_saves_nothing_and_adding_saves_all(browser: Client, on_file: Caseload) -> None:
    look = send(browser, "/children/paste/", text=TABLE)
    assert look.status_code == 200
    assert "Add these 2 children?" in words_of(look)
    assert len(children_list()) == 3
    answer = browser.post("/children/paste/", form_on(look))
    assert answer.status_code == 302
    assert {child.name for child in children_list()} == {"Odo", "Wim", "Ines", "Runa", "Bo"}
    assert len(group_of("gulls").members) == 3


def test_a_csv_file_takes_the_place_of_the_pasted_text(browser: Client, on_file: Caseload) -> None:
    file = SimpleUploadedFile("group.csv", "Zoë;2021-04\n".encode("cp1252"))
    look = browser.post("/children/paste/", {"text": "", "file": file})
    assert "Zoë" in words_of(look)


def test_every_bad_line_is_named_and_the_text_is_kept(browser: Client, on_file: Caseload) -> None:
    text = "Runa,2021-04\n,2021-04\nBo,never\nCy,2021-01,Cranes\nOdo,2021-03"
    answer = send(browser, "/children/paste/", text=text)
    words = words_of(answer)
    assert answer.status_code == 422
    assert "4 lines cannot be used. Nothing was saved." in words
    assert "Line 2 has no name. Give a name or a code." in words
    assert "Line 3 (Bo): 'never' is not a birth month." in words
    assert "Line 4 (Cy) names the group 'Cranes', which is not there." in words
    assert "Line 5: Odo, born in 2021-03, is there already." in words
    assert "1 line is good." in words
    assert form_on(answer)["text"] == [text]
    assert len(children_list()) == 3


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "There is no table. Paste one, or choose a file."),
        (
            "\n".join(f"Code {n},2021-04" for n in range(61)),
            "The table has 61 children. Bring in at most 60 at a time.",
        ),
    ],
)
def test_a_table_that_is_empty_or_too_long_is_refused(
    browser: Client, on_file: Caseload, text: str, sentence: str
) -> None:
    answer = send(browser, "/children/paste/", text=text)
    assert answer.status_code == 422
    assert fault_at(answer, "text") == sentence


def test_a_header_alone_is_no_child(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/children/paste/", text="name,born,group")
    assert answer.status_code == 422
    assert "There is no child in the table." in words_of(answer)


def test_a_file_that_is_no_table_of_children_is_refused(browser: Client, on_file: Caseload) -> None:
    file = SimpleUploadedFile("film.csv", b"x" * 200_001)
    answer = browser.post("/children/paste/", {"text": "", "file": file})
    assert "The file film.csv is too large for a table of children." in fault_at(answer, "file")
