"""Lengths as people write them become whole centimetres."""

from __future__ import annotations

import pytest

from tapeline.web.forms.fields import centimetres
from tapeline.web.words import SPACES, age_in_words, floor_in_words

# The international foot is 0.3048 m and the inch 25.4 mm, exactly (yard and pound agreement
# of 1959; NIST Special Publication 811, appendix B.8).
FEET = {"1 ft": 30, "10 ft": 305, "100 ft": 3048, "1 in": 3, "100 in": 254, "11 ft 6 in": 351}


@pytest.mark.parametrize(("typed", "length_cm"), FEET.items())
def test_feet_and_inches_follow_the_international_foot(typed: str, length_cm: int) -> None:
    assert centimetres(typed) == length_cm


@pytest.mark.parametrize(
    ("typed", "length_cm"),
    [
        ("350", 350),
        ("350 cm", 350),
        ("350CM", 350),
        ("3.5 m", 350),
        ("3,5m", 350),
        ("0.5 cm", 1),
        ("11' 6\"", 351),
        ("11’6”", 351),
        ("6 inches", 15),
    ],
)
def test_centimetres_metres_and_marks_are_read(typed: str, length_cm: int) -> None:
    assert centimetres(typed) == length_cm


@pytest.mark.parametrize(
    "typed", ["", "wide", "-3", "3 m 20", "3 km", "1e3", "ft", "3 ft 2 cm", "²"]
)
def test_what_is_no_length_is_not_guessed(typed: str) -> None:
    assert centimetres(typed) is None


def test_a_floor_is_said_in_metres_and_feet() -> None:
    assert floor_in_words(400, 110) == "4 m × 1.1 m (13 ft 1 in × 3 ft 7 in)"
    assert str(SPACES["hallway"]) == "A hallway, 4 m × 1.1 m (13 ft 1 in × 3 ft 7 in)"


@pytest.mark.parametrize(
    ("months", "words"),
    [
        (0, "0 months"),
        (1, "1 month"),
        (12, "1 year"),
        (56, "4 years 8 months"),
        (73, "6 years 1 month"),
    ],
)
def test_an_age_is_said_in_years_and_months(months: int, words: str) -> None:
    assert age_in_words(months) == words
