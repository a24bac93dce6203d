"""The release list: nothing is called safe, and what is held back says why and by what instead."""

from __future__ import annotations

import pytest

from tapeline.caseload.people import ChildPrecaution
from tapeline.caseload.places import Membership
from tapeline.sessions.packet.basis import basis_of
from tapeline.sessions.release import PASSED, release_list
from tests.builders import a_child, a_group, a_home, some_things
from tests.unit.sessions.packet_world import (
    LONG,
    LOW,
    OWNED,
    SCARF,
    a_packet_plan,
    a_world,
)


def the_list(*children, drift=None):
    """The last row of the list for three recorded children, the third at a small home."""
    things = some_things(*OWNED)
    caseload = a_world(
        children=children,
        homes=(
            a_home(id="wide", things=things),
            a_home(id="small", things=things, space="two_by_two"),
        ),
        groups=(
            a_group(
                members=tuple(Membership(child=c.id, place="home_later") for c in children),
                site=None,
                room=None,
            ),
        ),
    )
    return release_list(basis_of(a_packet_plan(caseload, drift=drift), caseload)).rows[-1]


def a_recorded(id_, home="wide", **fields):
    return a_child(id=id_, name=f"Child {id_}", home=home, **fields)


def test_a_passed_cell_says_that_nothing_is_on_file():
    row = the_list(a_recorded("a"), a_recorded("b"))
    assert [cell.text for cell in row.cells] == [PASSED, PASSED]


def test_the_film_shows_what_most_recorded_children_do():
    row = the_list(a_recorded("a"), a_recorded("b"), a_recorded("c"), drift={"a": LONG})
    assert row.shows == "Tap the scarf up."
    assert "Own page: Tap it up the whole way." in row.cells[0].text


def test_a_home_too_small_for_what_is_shown_gets_its_own_version_instead():
    row = the_list(
        a_recorded("a"),
        a_recorded("b"),
        a_recorded("c", home="small"),
        drift={"a": LONG, "b": LONG, "c": SCARF},
    )
    assert [cell.status for cell in row.cells] == ["allowed", "allowed", "blocked"]
    assert row.cells[2].text.startswith("Held back: ")
    assert row.cells[2].text.endswith("Swap to: Tap the scarf up.")


@pytest.mark.parametrize("kind", ["shunt", "short_stature_spine"])
def test_a_flag_says_to_check_and_whom_to_check_with(kind):
    row = the_list(
        a_recorded("a"),
        a_recorded("b", precautions=(ChildPrecaution(kind=kind),)),
        drift={"a": LOW, "b": LOW},
    )
    assert [cell.status for cell in row.cells] == ["allowed", "flagged"]
    assert "check with" in row.cells[1].text.lower()


def test_a_block_without_another_version_takes_the_child_off_the_list():
    row = the_list(
        a_recorded("a"),
        a_recorded("b", precautions=(ChildPrecaution(kind="neck_known"),)),
        drift={"a": LOW, "b": LOW},
    )
    assert row.cells[1].status == "blocked"
    assert row.cells[1].text.endswith("Off the list.")


def test_no_cell_ever_calls_a_thing_safe():
    row = the_list(a_recorded("a"), a_recorded("b"), drift={"a": LOW})
    text = " ".join(cell.text for cell in row.cells).lower()
    assert not {"safe", "ok", "cleared"} & set(text.replace(".", " ").split())
