"""The emergency wording: which kinds fit a group, and every line leads to a source."""

from __future__ import annotations

import re

import pytest

from tapeline.activities.emergencies import fill_in, load_emergencies
from tapeline.activities.loader import load_rule_book
from tapeline.activities.readability import read_text

BOOK = load_emergencies()


def kinds(*precautions: str, touches=()) -> set[str]:
    """Ids of the kinds printed for children with these precautions."""
    known = load_rule_book().precautions
    fit = BOOK.kinds_that_fit(precautions=[known[name] for name in precautions], touches=touches)
    return {kind.id for kind in fit}


def test_a_knock_and_not_responding_are_on_every_sheet_and_nothing_else_is():
    assert kinds() == {"head_bump", "not_responding"}


@pytest.mark.parametrize(
    ("precaution", "kind"),
    [
        ("seizures", "seizure"),
        ("asthma", "hard_breathing"),
        ("diabetes", "low_sugar"),
        ("latex", "allergic_reaction"),
        ("heart", "faint"),
        ("neck", "neck_or_back"),
        ("mouthing", "choking"),
    ],
)
def test_a_precaution_brings_the_kind_it_calls_for(precaution, kind):
    assert kind in kinds(precaution)
    assert kind not in kinds()


def test_small_things_bring_choking_and_climbing_brings_the_neck():
    assert "choking" in kinds(touches={"small_parts"})
    assert "neck_or_back" in kinds(touches={"climb"})


@pytest.mark.parametrize("kind", BOOK.kinds.values(), ids=lambda kind: kind.id)
def test_every_line_leads_to_a_source_and_prints_no_trace(kind):
    for line in kind.lines:
        assert line.traces
        for trace in line.traces:
            assert kind.traces[trace].source
            assert kind.traces[trace].mark
        assert not re.search(r"\[\d\w?\]", line.text.en + line.text.es)
    assert kind.traces.keys() == {trace for line in kind.lines for trace in line.traces}


@pytest.mark.parametrize("kind", BOOK.kinds.values(), ids=lambda kind: kind.id)
def test_both_languages_carry_the_same_numbers_blanks_and_strong_words(kind):
    for line in kind.lines:
        en, es = line.text.en, line.text.es
        assert re.findall(r"\d+|\{\w+\}", en) == re.findall(r"\d+|\{\w+\}", es)
        assert en.count("**") == es.count("**")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("kind", BOOK.kinds.values(), ids=lambda kind: kind.id)
def test_every_block_is_plain_to_read(kind, language):
    lines = [fill_in(line.text.in_language(language), {}) for line in kind.lines]
    reading = read_text("\n".join(lines).replace("*", ""), language)
    assert reading.grade is None or reading.grade <= 5
    assert language == "en" or reading.ease >= 80
    assert reading.words <= 130


def test_no_dose_is_printed():
    every = " ".join(line.text.en for kind in BOOK.kinds.values() for line in kind.lines)
    assert not re.search(r"\b(mg|ml|mL|grams?|puffs?|units?|tablets?)\b", every)


def test_until_somebody_signs_the_plan_comes_first_and_then_the_number():
    first, second, third = (said.en for said in BOOK.until_signed_off)
    assert "own emergency plan comes first" in first
    assert "{number}" in second
    assert "not signed off here" in third


def test_blanks_are_filled_or_left_to_write_on():
    text = "Call {number}. The plan is kept: {plan_place}"
    assert fill_in(text, {"number": "112", "plan_place": ""}) == "Call 112. The plan is kept: ____"


def test_stop_rules_are_short_sentences_in_both_languages():
    for said in (*BOOK.stop_signs, *BOOK.after_a_stop, *BOOK.before_start):
        for language in ("en", "es"):
            text = said.in_language(language)
            assert text.endswith((".", "!", "?"))
            assert all(len(sentence.split()) <= 14 for sentence in re.split(r"[.?] ", text))
