"""One activity on A5: cautions first, every way to do it, in either language."""

from __future__ import annotations

import datetime as dt
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.spanish import text_in
from tapeline.sessions.activity_sheet import activity_pdf

TODAY = dt.date(2026, 11, 25)


def sheet(name: str, language: Any = "en") -> bytes:
    library = load_library()
    return activity_pdf(
        library.activities[name], library, load_rule_book(), tape="sending_and_receiving",
        language=language, lengths="cm", today=TODAY,
    )  # fmt: skip


def words_on(content: bytes, folder: Path) -> str:
    """The text of a PDF with single spaces, as poppler reads it."""
    path = folder / "sheet.pdf"
    path.write_bytes(content)
    done = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, check=True)
    return " ".join(done.stdout.decode().split())


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_way_is_there_with_what_makes_it_easier_and_harder(
    language: Any, tmp_path: Path
) -> None:
    activity = load_library().activities["loaf_catch"]
    found = words_on(sheet("loaf_catch", language), tmp_path)
    for version in activity.versions:
        text = text_in(language, activity, version)
        for sentence in (text.do, *text.steps, text.too_hard, text.too_easy, *text.adult):
            assert sentence in found


def test_cautions_come_before_the_first_way_in_both_languages(tmp_path: Path) -> None:
    english = words_on(sheet("ferry_ball"), tmp_path)
    assert english.index("Before you start") < english.index("Have ready:")
    assert "Check first for a child with one of these:" in english
    spanish = words_on(sheet("ferry_ball", "es"), tmp_path)
    assert spanish.index("Antes de empezar") < spanish.index("Ten listo:")


def test_what_holds_by_age_is_said_in_the_language_of_the_sheet(tmp_path: Path) -> None:
    rules = {rule.id: rule for rule in load_rule_book().rules}
    for language, kept in (("en", "sentence"), ("es", "sentence_es")):
        found = words_on(sheet("paper_lunch", language), tmp_path)
        for name in ("under_36.sharp", "under_36.food"):
            assert getattr(rules[name], kept) in found
    assert "under three" not in found


def test_the_same_activity_gives_the_same_sheet() -> None:
    assert sheet("ferry_ball") == sheet("ferry_ball")


def test_every_activity_can_be_printed() -> None:
    names = sorted(load_library().activities)
    for name in names[::12]:
        assert sheet(name).startswith(b"%PDF")


def test_rubber_that_may_hold_latex_is_among_the_cautions(tmp_path: Path) -> None:
    library = load_library()
    rubber = next(
        one.id
        for one in library.activities.values()
        if any(
            library.materials[need.any_of[0]].may_contain_latex != "no"
            for version in one.versions
            for need in version.things
        )
    )
    found = words_on(sheet(rubber), tmp_path)
    assert load_rule_book().precautions["latex"].name in found
