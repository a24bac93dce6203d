"""The report for a team: looked at, put into her words, printed; and a goal's wording."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.web.records.convert import caseload_from_rows, child_to_row, therapist_to_row
from tapeline.web.services.merge import merge

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
    assert "Draft, not signed." in said
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


def kept_by(browser: Client, **typed: str) -> str:
    """Address of a report that was just kept or signed."""
    answer = browser.post(REPORT, {"first": "2026-09-07", "last": "2026-11-25", **typed})
    assert answer.status_code == 302, answer.content.decode()[:500]
    return answer["Location"]


def test_a_report_is_kept_with_her_words_and_its_stretch_of_time(
    browser: Client, on_file: Caseload
) -> None:
    goal = on_file.child("c1").goals[0]
    address = kept_by(browser, keep="1", **{f"text-{goal.id}": "Catches it."})
    page = shown(browser, address)
    assert "Catches it.</textarea>" in page
    assert "7 September 2026 to 25 November 2026" in page
    kept = caseload_from_rows().reports[0]
    assert (kept.child, str(kept.first), kept.is_signed) == ("c1", "2026-09-07", False)


def test_a_signed_report_is_read_and_printed_and_no_longer_changed(
    browser: Client, on_file: Caseload
) -> None:
    goal = on_file.child("c1").goals[0]
    address = kept_by(browser, sign="1", **{f"text-{goal.id}": "Catches it."})
    page = shown(browser, address)
    assert "<textarea" not in page
    assert f"Signed by {on_file.therapist.name}" in page
    for more in ({"keep": "1", f"text-{goal.id}": "No."}, {"take_out": "sure"}):
        answer = browser.post(address, more)
        assert answer.status_code == 422
        assert "what was signed is not changed" in answer.content.decode()
    key = caseload_from_rows().reports[0].id
    forged = {"report": key, f"text-{goal.id}": "Other words."}
    said = words_of(browser.post(PAPER, forged).content)
    assert "Catches it." in said
    assert "Other words." not in said
    assert f"Signed by {on_file.therapist.name}" in said


def test_a_kept_report_is_changed_signed_or_thrown_away(browser: Client, on_file: Caseload) -> None:
    goal = on_file.child("c1").goals[0]
    address = kept_by(browser, keep="1")
    browser.post(address, {"keep": "1", f"text-{goal.id}": "Other words."})
    kept = caseload_from_rows().reports[0]
    assert kept.texts[goal.id] == "Other words."
    assert "Throw this report away?" in browser.post(address, {"take_out": "1"}).content.decode()
    browser.post(address, {"take_out": "sure"})
    assert caseload_from_rows().reports == ()


def test_the_next_report_begins_the_day_after_the_last(browser: Client, on_file: Caseload) -> None:
    browser.post(REPORT, {"first": "2026-09-07", "last": "2026-11-20", "keep": "1"})
    page = shown(browser)
    assert "21 November 2026 to 25 November 2026" in page
    assert "1 report was kept" in page


def test_what_changes_after_a_report_was_kept_is_told(browser: Client, on_file: Caseload) -> None:
    address = kept_by(browser, sign="1")
    assert "changed after you signed" not in shown(browser, address)
    child = on_file.child("c1")
    goals = (replace(child.goals[0], k=child.goals[0].n), *child.goals[1:])
    child_to_row(replace(child, goals=goals))
    assert "changed after you signed" in shown(browser, address)


def test_words_on_a_goal_that_is_gone_stay_in_a_kept_report(
    browser: Client, on_file: Caseload
) -> None:
    child = on_file.child("c1")
    address = kept_by(browser, sign="1", **{f"text-{child.goals[0].id}": "Catches it."})
    child_to_row(replace(child, goals=()))
    assert "Catches it." in shown(browser, address)
    key = caseload_from_rows().reports[0].id
    assert "Catches it." in words_of(browser.get(f"{PAPER}?report={key}").content)


def test_nobody_signs_without_a_name(browser: Client, on_file: Caseload) -> None:
    therapist_to_row(replace(on_file.therapist, name=""))
    answer = browser.post(REPORT, {"sign": "1"})
    assert answer.status_code == 422
    assert "Nobody can sign" in answer.content.decode()
    assert caseload_from_rows().reports == ()


def test_a_report_of_another_child_is_not_found(browser: Client, on_file: Caseload) -> None:
    address = kept_by(browser, keep="1")
    assert browser.get(address.replace("/c1/", "/c2/")).status_code == 404


def test_a_kept_report_travels_with_the_caseload(browser: Client, on_file: Caseload) -> None:
    kept_by(browser, sign="1")
    kept = caseload_from_rows()
    lines = {line.kind: line.verdict for line in merge(kept, kept).lines if line.kind == "reports"}
    assert lines == {"reports": "unchanged"}
    other = replace(kept, reports=(replace(kept.reports[0], parts=()),))
    refused = next(line for line in merge(kept, other).lines if line.kind == "reports")
    assert (refused.verdict, "signed" in refused.why) == ("refused", True)
