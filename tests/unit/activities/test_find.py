"""Finding games: what comes back fits, and nothing that fits is left out."""

from __future__ import annotations

import pytest

from tapeline.activities.allowed import candidates_for
from tapeline.activities.find import Wanted, matches
from tapeline.activities.loader import load_library
from tapeline.activities.models import Version


def found(wanted: Wanted) -> set[str]:
    """Ids of the versions that match."""
    return {one.id for match in matches(load_library(), wanted) for one in match.versions}


def every() -> list[Version]:
    return [one for activity in load_library().activities.values() for one in activity.versions]


def test_asking_for_nothing_finds_everything() -> None:
    assert found(Wanted()) == {one.id for one in every()}


def test_a_towel_finds_what_may_be_played_with_one_substitutes_included() -> None:
    library = load_library()
    expected = {
        one.id
        for one in every()
        if any("towel" in candidates_for(need, library) for need in one.things)
    }
    assert found(Wanted(thing="towel")) == expected
    assert len(expected) > 5


def test_the_floor_counts_clear_space_and_either_way_round() -> None:
    small = found(Wanted(floor=(150, 200)))
    assert small == found(Wanted(floor=(200, 150)))
    for one in every():
        long = max(one.length_cm, one.width_cm) + 2 * one.clear_cm
        short = min(one.length_cm, one.width_cm) + 2 * one.clear_cm
        assert (one.id in small) == (long <= 200 and short <= 150)


@pytest.mark.parametrize(("hands", "noise"), [(0, "quiet"), (1, "usual")])
def test_hands_and_noise_are_the_most_there_may_be(hands: int, noise: str) -> None:
    loud = {"quiet": 0, "usual": 1, "loud": 2}
    assert found(Wanted(hands=hands, noise=noise)) == {
        one.id for one in every() if one.hands <= hands and loud[one.noise] <= loud[noise]
    }


def test_skill_family_part_position_and_way_of_getting_about_narrow_together() -> None:
    library = load_library()
    wanted = Wanted(
        family="sending_and_receiving", part="practice", position="sitting", gets_about="wheelchair"
    )
    expected = {
        version.id
        for activity in library.activities.values()
        for version in activity.versions
        if (skill := library.skill_of(activity.id)) is not None
        and skill.family == wanted.family
        and wanted.part in activity.uses
        and version.position == wanted.position
        and wanted.gets_about in version.gets_about
    }
    assert found(wanted) == expected != set()
    assert found(Wanted(skill="catch2")) <= found(Wanted(family="sending_and_receiving"))
