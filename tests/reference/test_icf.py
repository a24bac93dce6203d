"""ICF codes against the classification."""

from __future__ import annotations

import re

import pytest

from tapeline.activities.icf import icf_codes, icf_title
from tapeline.errors import InputError

# Source: ICF ontology 1.0.2 of 2012-08-05 (the BioPortal release of WHO's ICF), read in a
# stored copy; d4454 also at autoicdapi.com/icf/d4454, and d4401, d4403, d4452 and b7602
# also in a second table. d131 is of ICF-CY, read in a copy of its browser.
TITLES = {
    "d415": "Maintaining a body position",
    "d4103": "Sitting",
    "d4351": "Kicking",
    "d4401": "Grasping",
    "d4403": "Releasing",
    "d4450": "Pulling",
    "d4451": "Pushing",
    "d4452": "Reaching",
    "d4453": "Turning or twisting the hands or arms",
    "d4454": "Throwing",
    "d4455": "Catching",
    "d4503": "Walking around obstacles",
    "d4550": "Crawling",
    "d4551": "Climbing",
    "d4552": "Running",
    "d4553": "Jumping",
    "b235": "Vestibular functions",
    "b760": "Control of voluntary movement functions",
    "b7602": "Coordination of voluntary movements",
    "d131": "Learning through actions with objects",
}


@pytest.mark.parametrize(("code", "title"), TITLES.items())
def test_a_code_has_its_official_title(code, title):
    assert icf_title(code) == title


# Source: the ICF's own numbering: a letter for the component (b functions, d activities and
# participation), three digits, and at most two levels below. 185 and 14 are the rows read.
def test_every_code_has_the_form_of_the_classification():
    assert len(icf_codes()) == 185 + 14
    assert all(re.fullmatch(r"[bd]\d{3,5}", code) for code in icf_codes())


def test_an_unknown_code_is_refused_with_its_neighbours():
    with pytest.raises(InputError, match="'d4459' is not an ICF code") as caught:
        icf_title("d4459")
    assert caught.value.field == "icf"
    assert "d445" in caught.value.hint


def test_a_code_in_capitals_is_refused_and_the_right_one_is_offered():
    with pytest.raises(InputError) as caught:
        icf_title("D4455")
    assert "d4455 (Catching)" in caught.value.hint


def test_nonsense_gets_a_way_on():
    with pytest.raises(InputError, match="browser of WHO"):
        icf_title("jumping")
