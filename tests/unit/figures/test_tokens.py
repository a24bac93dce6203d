"""Contrast measured again with coloraide against the figures of the look's colour table."""

import pytest
from coloraide import Color

from tapeline.figures import tokens
from tapeline.figures.tokens import TAPES

SEEN_AS = ("deutan", "protan", "tritan")

# The look's own table: mark on tint, mark on page (WCAG 2.2 contrast, printed to 0.1).
TABLE = {
    "sending_and_receiving": (5.3, 7.3),
    "getting_about": (6.4, 8.5),
    "balance": (6.5, 8.2),
    "climbing_crawling_rolling": (6.1, 8.0),
    "bilateral_coordination": (6.2, 8.5),
    "trunk": (6.6, 9.4),
    "fine_motor": (7.1, 9.5),
    "arrival_closing": (5.8, 7.9),
    "warm_up_cool_down": (6.1, 8.0),
}


def contrast(one: str, other: str) -> float:
    return Color(one).contrast(other, method="wcag21")


@pytest.mark.parametrize("kind", TABLE)
def test_contrast_of_a_family_is_what_the_table_says(kind):
    tape = TAPES[kind]
    on_tint, on_page = TABLE[kind]
    assert contrast(tape.mark, tape.tint) == pytest.approx(on_tint, abs=0.06)
    assert contrast(tape.mark, tokens.PAGE) == pytest.approx(on_page, abs=0.06)


@pytest.mark.parametrize("kind", TABLE)
def test_ink_reads_on_every_tint(kind):
    assert contrast(tokens.INK, TAPES[kind].tint) >= 10.6


@pytest.mark.parametrize("seen_as", SEEN_AS)
@pytest.mark.parametrize("kind", TABLE)
def test_the_pattern_survives_colour_blindness(kind, seen_as):
    tint, mark = (
        Color(value).filter(seen_as, 1).clip() for value in (TAPES[kind].tint, TAPES[kind].mark)
    )
    assert mark.contrast(tint, method="wcag21") >= 4.85


@pytest.mark.parametrize(
    ("front", "back", "table"),
    [
        ("INK", "PAGE", 15.1),
        ("INK", "SHEET", 16.0),
        ("SOFT", "PAGE", 8.1),
        ("SOFT", "SHEET", 8.6),
        ("EDGE", "PAGE", 3.6),
        ("EDGE", "SHEET", 3.8),
        ("FOCUS", "PAGE", 6.5),
        ("ROUTE", "SHEET", 5.9),
    ],
)
def test_text_and_lines_keep_the_contrast_of_the_table(front, back, table):
    found = contrast(getattr(tokens, front), getattr(tokens, back))
    assert found == pytest.approx(table, abs=0.06)


def test_every_family_has_a_pattern_of_its_own():
    assert set(TAPES) == set(TABLE)
    assert len({tape.pattern for tape in TAPES.values()}) == len(TAPES)
