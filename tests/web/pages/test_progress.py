"""The report for a team: looked at, put into her words, printed; and a goal's wording."""

from __future__ import annotations

import re
from io import BytesIO

import pikepdf
import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload

pytestmark = pytest.mark.django_db
REPORT, PAPER = "/children/c1/progress/", "/children/c1/progress.pdf"


def shown(browser: Client, address: str = REPORT) -> str:
    answer = browser.get(address)
    assert answer.status_code == 200
    return answer.content.decode()


def words_of(content: bytes) -> str:
    """Words of a PDF, as its marked text says them."""
    import subprocess

    done = subprocess.run(["pdftotext", "-", "-"], input=content, capture_output=True, check=True)
    return " ".join(done.stdout.decode().split())


def test_a_report_names_its_own_child_alone(browser: Client, on_file: Caseload) -> None:
    page = re.search(r"<main.*</main>", shown(browser), re.DOTALL)[0]
    child = on_file.child("c1")
    assert f"Progress report: {child.name}" in page
    for other in on_file.children:
        if other.id != child.id:
            assert not re.search(rf"\b{other.name}\b", page)
    assert not re.search(r"\bnan\b", page, re.IGNORECASE)


def test_a_goal_without_enough_days_says_so(browser: Client, on_file: Caseload) -> None:
    assert "Not enough seen yet" in shown(browser)


def test_what_she_typed_is_printed_in_place_of_the_draft(
    browser: Client, on_file: Caseload
) -> None:
    goal = on_file.child("c1").goals[0]
    answer = browser.post(PAPER, {f"text-{goal.id}": "Catches it at the quay.\n\nLaughs a lot."})
    assert answer["Content-Type"] == "application/pdf"
    said = words_of(answer.content)
    assert "Catches it at the quay. Laughs a lot." in said
    assert "Not enough seen yet to speak of a trend." not in said


def test_the_paper_has_a_page_for_each_goal(browser: Client, on_file: Caseload) -> None:
    answer = browser.get(PAPER)
    with pikepdf.open(BytesIO(answer.content)) as pdf:
        assert len(pdf.pages) == len(on_file.child("c1").goals)


def test_a_stretch_of_time_is_kept_from_page_to_paper(browser: Client, on_file: Caseload) -> None:
    page = shown(browser, f"{REPORT}?first=2026-10-01&last=2026-11-01")
    assert "1 October 2026 to 1 November 2026" in page
    assert 'type="hidden" name="first" value="2026-10-01"' in page


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ("first=2026-11-20&last=2026-11-01", "begins on 2026-11-20"),
        ("first=soon", "“soon” is no date"),
        ("last=2026-13-01", "is no date"),
    ],
)
def test_a_stretch_that_cannot_be_is_told(
    browser: Client, on_file: Caseload, asked: str, why: str
) -> None:
    answer = browser.get(f"{REPORT}?{asked}")
    assert answer.status_code == 422
    assert why in answer.content.decode()


def test_a_day_to_come_is_today(browser: Client, on_file: Caseload) -> None:
    assert (
        "2030"
        not in re.search(r"<main.*</main>", shown(browser, f"{REPORT}?last=2030-01-01"), re.DOTALL)[
            0
        ]
    )


def test_a_text_too_long_for_a_page_is_refused_and_stays(
    browser: Client, on_file: Caseload
) -> None:
    goal = on_file.child("c1").goals[0]
    answer = browser.post(PAPER, {f"text-{goal.id}": "Long. " * 1000})
    assert answer.status_code == 422
    assert "Keep it to 4000" in answer.content.decode()
    assert answer.content.decode().count("Long. ") > 900


def test_a_child_who_is_not_on_file_has_no_report(browser: Client, on_file: Caseload) -> None:
    assert browser.get("/children/nobody/progress/").status_code == 404


def test_the_childs_page_leads_to_the_report(browser: Client, on_file: Caseload) -> None:
    assert f'href="{REPORT}"' in shown(browser, "/children/c1/")
