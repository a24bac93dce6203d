"""Nobody jumps from or lands on a thing of the house."""

from __future__ import annotations

import pytest

from tapeline.activities.landings import faults_in_landings, lands_on_a_thing
from tapeline.activities.models import Need
from tests.unit.activities.small_library import a_library, a_material, a_version


@pytest.mark.parametrize(
    ("text", "lands"),
    [
        ("Jump off the chair.", True),
        ("Land softly on the mattress.", True),
        ("Hop into the bed.", True),
        ("Jump over the towel.", False),
        ("Jump to me. Sit on the chair.", False),
        ("Bring the island on the chair.", False),
    ],
)
def test_sentences_that_jump_from_or_land_on_a_thing_are_found(text: str, lands: bool) -> None:
    assert lands_on_a_thing(text) is lands


def faults_of_jumping_with(thing: str, *functions: str, touches: tuple[str, ...] = ("jump",)):
    """Faults of a version that touches these and needs this thing."""
    material = a_material(thing, functions=functions or ("throw",))
    version = a_version(touches=touches, things=(Need(any_of=(thing,)),))
    library = a_library(version, materials=(material,))
    return list(faults_in_landings(library.activities["into_the_box"], library))


def test_a_jump_may_not_be_given_a_mattress() -> None:
    (fault,) = faults_of_jumping_with("mattress")
    assert "jumps and may be given mattress, which is no landing." in fault


def test_a_jump_may_be_given_a_pillow_to_jump_over_and_a_towel() -> None:
    assert faults_of_jumping_with("pillow", "jump over") == []
    assert faults_of_jumping_with("towel") == []


def test_who_does_not_jump_may_lie_on_a_mattress() -> None:
    assert faults_of_jumping_with("mattress", touches=("throw",)) == []
