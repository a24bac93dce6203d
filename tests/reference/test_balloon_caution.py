"""Statutory cautions, word for word."""

from __future__ import annotations

from pathlib import Path

import pytest

import tapeline
from tapeline.activities.shipped import shipped_yaml

CAUTIONS = {one["id"]: one for one in shipped_yaml("safety/cautions.yaml")["cautions"]}

# Source: 16 CFR 1500.19(b)(2), 15 U.S.C. 1278(b)(2)(A), as typed from two copies that agree
# word for word: EDItEUR ONIX code list 143, value 02, and a retailer's guide to the six
# statutory cautions. The paragraph of the regulation itself could not be opened.
BALLOON = (
    "WARNING:",
    "CHOKING HAZARD—Children under 8 yrs. can choke or suffocate on uninflated or broken"
    " balloons. Adult supervision required.",
    "Keep uninflated balloons from children. Discard broken balloons at once.",
)

# Source: the same list and guide. That "Not for children under 3 yrs." closes the sentences
# on a toy that is a small ball or a marble is from memory.
OTHERS = {
    "small_parts": "WARNING: CHOKING HAZARD—Small parts. Not for children under 3 yrs.",
    "small_ball": "WARNING: CHOKING HAZARD—This toy is a small ball. Not for children under 3 yrs.",
    "contains_small_ball": (
        "WARNING: CHOKING HAZARD—Toy contains a small ball. Not for children under 3 yrs."
    ),
    "marble": "WARNING: CHOKING HAZARD—This toy is a marble. Not for children under 3 yrs.",
    "contains_marble": "WARNING: CHOKING HAZARD—Toy contains a marble. Not for children under 3 yrs.",
}


def test_the_balloon_caution_is_word_for_word():
    assert tuple(CAUTIONS["balloon"]["text"].split("\n")) == BALLOON


@pytest.mark.parametrize(("caution", "text"), OTHERS.items())
def test_the_other_cautions_are_word_for_word(caution, text):
    assert CAUTIONS[caution]["text"] == text


PARTLY_FROM_MEMORY = {"small_ball", "marble"}


def test_the_six_cautions_say_where_they_are_from_and_how_sure_that_is():
    assert set(CAUTIONS) == {"balloon", *OTHERS}
    assert all("16 CFR 1500.19" in one["source"] for one in CAUTIONS.values())
    assert {id for id, one in CAUTIONS.items() if one["mark"] == "part"} == PARTLY_FROM_MEMORY
    assert {one["mark"] for one in CAUTIONS.values()} == {"copies", "part"}


def test_the_balloon_caution_stands_once_in_the_program():
    sentence = "can choke or suffocate on uninflated or broken balloons"
    package = Path(tapeline.__file__).parent
    files = [
        path for kind in ("py", "yaml", "csv", "html", "typ") for path in package.rglob(f"*.{kind}")
    ]
    holders = [path.name for path in files if sentence in path.read_text(encoding="utf-8")]
    assert holders == ["cautions.yaml"]
