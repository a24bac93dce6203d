"""May this child do this version here? Flags never block, blocks bind until lifted."""

from __future__ import annotations

from datetime import date

import pytest

from tapeline.activities.allowed import Stock
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.models import Need
from tests.unit.activities.small_library import (
    TODAY,
    a_book,
    a_child,
    a_go_ahead,
    a_library,
    a_material,
    a_place,
    a_rule,
    a_version,
    the_ruling,
)


def test_a_version_without_rules_is_allowed_and_names_its_thing():
    ruling = the_ruling()
    assert (ruling.status, ruling.rules, ruling.things) == ("allowed", (), ("sock_ball",))


@pytest.mark.parametrize(
    ("fact", "version", "place", "child"),
    [
        ("place", a_version(where=("room",)), a_place(), a_child()),
        ("gets_about", a_version(), a_place(), a_child(gets_about="wheelchair")),
        ("space", a_version(), a_place(width_cm=159), a_child()),
        ("things", a_version(), a_place(things={}), a_child()),
        ("hands", a_version(hands=2), a_place(hands=1), a_child()),
        ("noise", a_version(noise="loud"), a_place(loudest="usual"), a_child()),
    ],
)
def test_each_plain_fact_blocks_alone_and_is_named(fact, version, place, child):
    ruling = the_ruling(version, who=child, here=place)
    assert (ruling.status, ruling.rules) == ("blocked", (fact,))


def test_a_floor_may_be_turned_so_that_its_long_side_fits():
    assert the_ruling(here=a_place(length_cm=160, width_cm=200)).status == "allowed"
    assert the_ruling(here=a_place(length_cm=200, width_cm=160)).status == "allowed"


def test_a_baby_on_the_arm_leaves_one_hand():
    with_baby = a_place(hands=1)
    assert the_ruling(a_version(hands=1), here=with_baby).status == "allowed"
    assert the_ruling(a_version(hands=2), here=with_baby).rules == ("hands",)


def test_flags_never_block_however_many_there_are():
    flags = [a_rule(id=f"arm.throw{n}", effect="flags") for n in range(5)]
    ruling = the_ruling(who=a_child("arm"), book=a_book(*flags))
    assert ruling.status == "flagged"
    assert len(ruling.rules) == 5


def test_a_block_wins_over_a_flag_and_only_blocks_are_named():
    book = a_book(a_rule(), a_rule(id="arm.also", effect="flags"))
    ruling = the_ruling(who=a_child("arm"), book=book)
    assert (ruling.status, ruling.rules) == ("blocked", ("arm.throw",))


def test_a_rule_does_not_reach_a_child_without_the_precaution():
    assert the_ruling(book=a_book(a_rule())).status == "allowed"


def test_a_go_ahead_lifts_the_block_from_its_first_to_its_last_day():
    paper = a_go_ahead(starts=date(2026, 11, 1), ends=date(2026, 11, 30))
    child = a_child("arm", permissions=(paper,))
    days = [date(2026, 10, 31), date(2026, 11, 1), date(2026, 11, 30), date(2026, 12, 1)]
    found = [the_ruling(who=child, book=a_book(a_rule()), on=day).status for day in days]
    assert found == ["blocked", "allowed", "allowed", "blocked"]


def test_a_go_ahead_lifts_only_the_movements_it_names():
    child = a_child("arm", permissions=(a_go_ahead(allows=("roll",)),))
    assert the_ruling(who=child, book=a_book(a_rule())).status == "blocked"
    child = a_child("arm", permissions=(a_go_ahead(allows=("throw",)),))
    assert the_ruling(who=child, book=a_book(a_rule())).status == "allowed"


def test_a_go_ahead_for_another_precaution_lifts_nothing():
    child = a_child("arm", permissions=(a_go_ahead("leg"),))
    assert the_ruling(who=child, book=a_book(a_rule())).status == "blocked"


def test_nothing_lifts_a_rule_that_nothing_lifts():
    book = a_book(a_rule(lifted_by="nothing"))
    child = a_child("arm", permissions=(a_go_ahead(),))
    place = a_place(dated_reasons=frozenset({"arm.throw"}))
    assert the_ruling(who=child, here=place, book=book).status == "blocked"


def test_a_dated_reason_lifts_the_rule_it_names_and_no_other():
    book = a_book(a_rule(lifted_by="reason"))
    child = a_child("arm")
    with_reason = a_place(dated_reasons=frozenset({"arm.throw"}))
    with_other = a_place(dated_reasons=frozenset({"arm.catch"}))
    assert the_ruling(who=child, here=with_reason, book=book).status == "allowed"
    assert the_ruling(who=child, here=with_other, book=book).status == "blocked"


def test_a_dated_reason_does_not_stand_in_for_a_go_ahead():
    place = a_place(dated_reasons=frozenset({"arm.throw"}))
    ruling = the_ruling(who=a_child("arm"), here=place, book=a_book(a_rule()))
    assert ruling.status == "blocked"


def test_a_rule_for_the_room_reaches_everybody_in_it():
    rule = a_rule(id="arm.latex", touches="latex", scope="room", lifted_by="nothing")
    rubber = a_library(materials=(a_material("sock_ball", may_contain_latex="yes"),))
    beside = a_place(where="room", others=(a_child("arm", id="c2"),))
    alone = a_place(where="room")
    assert the_ruling(here=beside, library=rubber, book=a_book(rule)).rules == ("arm.latex",)
    assert the_ruling(here=alone, library=rubber, book=a_book(rule)).status == "allowed"


def test_a_rule_for_the_child_stays_with_the_child():
    beside = a_place(where="room", others=(a_child("arm", id="c2"),))
    assert the_ruling(here=beside, book=a_book(a_rule())).status == "allowed"


def test_unknown_rubber_counts_as_latex_until_the_owned_one_is_marked():
    rule = a_rule(id="arm.latex", touches="latex", lifted_by="nothing")
    unknown = a_library(materials=(a_material("sock_ball", may_contain_latex="unknown"),))
    child = a_child("arm")
    unmarked = the_ruling(who=child, library=unknown, book=a_book(rule))
    assert (unmarked.status, unmarked.rules) == ("blocked", ("arm.latex",))
    for known, expected in (("no", "allowed"), ("yes", "blocked"), ("unknown", "blocked")):
        place = a_place(things={"sock_ball": Stock(latex=known)})
        found = the_ruling(who=child, here=place, library=unknown, book=a_book(rule))
        assert found.status == expected


def test_a_substitute_serves_and_is_named():
    ruling = the_ruling(here=a_place(things={"paper_ball": Stock(count=1)}))
    assert (ruling.status, ruling.things) == ("allowed", ("paper_ball",))


def test_a_substitute_of_a_substitute_does_not_serve():
    chain = (
        a_material("sock_ball", substitutes=("paper_ball",)),
        a_material("paper_ball", substitutes=("leaf",)),
        a_material("leaf"),
    )
    place = a_place(things={"leaf": Stock()})
    assert the_ruling(here=place, library=a_library(materials=chain)).rules == ("things",)


def test_too_few_of_a_thing_is_not_enough():
    three_each = a_version(things=(Need(any_of=("sock_ball",), count=3, each=True),))
    for count, expected in ((5, "blocked"), (6, "allowed"), (None, "allowed")):
        place = a_place(things={"sock_ball": Stock(count=count)}, children=2)
        assert the_ruling(three_each, here=place).status == expected


def test_the_first_owned_thing_that_no_rule_blocks_is_taken():
    things = (
        a_material("sock_ball", substitutes=("paper_ball",), touches=("small_parts",)),
        a_material("paper_ball"),
    )
    rule = a_rule(id="arm.small_parts", touches="small_parts", lifted_by="nothing")
    place = a_place(things={"sock_ball": Stock(), "paper_ball": Stock()})
    library = a_library(materials=things)
    free = the_ruling(who=a_child("arm"), here=place, library=library, book=a_book(rule))
    assert (free.status, free.things) == ("allowed", ("paper_ball",))
    only = a_place(things={"sock_ball": Stock()})
    bound = the_ruling(who=a_child("arm"), here=only, library=library, book=a_book(rule))
    assert bound.status == "blocked"


def test_an_age_rule_looks_at_the_youngest_in_the_room_and_not_at_the_child():
    rule = a_rule(
        id="under_36.throw", precaution=None, youngest_under_months=36, lifted_by="nothing"
    )
    for youngest, expected in ((35, "blocked"), (36, "allowed")):
        found = the_ruling(here=a_place(youngest_months=youngest), book=a_book(rule))
        assert found.status == expected


# The same questions, asked of the rules that come with the program.


@pytest.fixture(scope="module")
def shipped():
    """The shipped library and rule book."""
    return {"library": load_library(), "book": load_rule_book()}


def needing(*things: str, touches: tuple[str, ...] = ()):
    """A version that needs exactly these things and touches these words."""
    return a_version(things=tuple(Need(any_of=(thing,)) for thing in things), touches=touches)


def owning(*things: str, **changes):
    """A home with these things."""
    return a_place(things={thing: Stock() for thing in things}, **changes)


def test_small_parts_are_blocked_with_a_crawling_baby_and_not_without(shipped):
    caps = needing("bottle_cap")
    with_baby = the_ruling(caps, here=owning("bottle_cap", youngest_months=10), **shipped)
    assert with_baby.status == "blocked"
    assert "under_36.small_parts" in with_baby.rules
    assert the_ruling(caps, here=owning("bottle_cap"), **shipped).status == "allowed"


def test_a_bigger_thing_is_taken_where_a_baby_crawls(shipped):
    home = owning("pasta_thread", "ring_card", youngest_months=10)
    ruling = the_ruling(needing("pasta_thread"), here=home, **shipped)
    assert ruling.status != "blocked"
    assert ruling.things == ("ring_card",)


def test_a_latex_balloon_needs_a_reason_under_eight_and_nothing_lifts_it_under_three(shipped):
    balloon = needing("balloon_latex")
    reason = frozenset({"under_96.balloon_latex"})
    home = owning("balloon_latex", youngest_months=95)
    assert the_ruling(balloon, here=home, **shipped).rules == ("under_96.balloon_latex",)
    with_reason = owning("balloon_latex", youngest_months=95, dated_reasons=reason)
    assert the_ruling(balloon, here=with_reason, **shipped).status == "flagged"
    with_toddler = owning("balloon_latex", youngest_months=35, dated_reasons=reason)
    assert the_ruling(balloon, here=with_toddler, **shipped).status == "blocked"


@pytest.mark.parametrize("precaution", ["latex", "mouthing", "tracheostomy"])
def test_no_reason_brings_a_latex_balloon_to_a_child_it_endangers(shipped, precaution):
    child = a_child(precaution, age_months=100, permissions=(a_go_ahead(precaution),))
    rules = frozenset(rule.id for rule in shipped["book"].rules)
    home = owning("balloon_latex", youngest_months=100, dated_reasons=rules)
    assert the_ruling(needing("balloon_latex"), who=child, here=home, **shipped).status == "blocked"


def test_a_foil_balloon_is_flagged_and_not_blocked_from_three(shipped):
    home = owning("balloon_foil", youngest_months=48)
    assert the_ruling(needing("balloon_foil"), here=home, **shipped).status == "flagged"
    with_toddler = owning("balloon_foil", youngest_months=30)
    assert the_ruling(needing("balloon_foil"), here=with_toddler, **shipped).status == "blocked"


def test_latex_of_one_child_empties_the_room_of_it_and_spares_the_other_homes(shipped):
    hall = owning("beach_ball", where="room", others=(a_child("latex", id="c2"),))
    assert the_ruling(needing("beach_ball"), here=hall, **shipped).rules == ("latex.latex",)
    assert the_ruling(needing("beach_ball"), here=owning("beach_ball"), **shipped).status == (
        "allowed"
    )
    marked = a_place(
        where="room",
        things={"beach_ball": Stock(latex="no")},
        others=(a_child("latex", id="c2"),),
    )
    assert the_ruling(needing("beach_ball"), here=marked, **shipped).status == "allowed"


def test_a_shunt_flags_a_turn_and_a_roll_and_blocks_neither(shipped):
    rolling = needing("sock_ball", touches=("turn", "roll", "head_down", "jump"))
    ruling = the_ruling(rolling, who=a_child("shunt"), here=owning("sock_ball"), **shipped)
    assert ruling.status == "flagged"
    assert "shunt.head_down" in ruling.rules
    assert not any(rule.startswith("shunt.jump") for rule in ruling.rules)


def test_a_surgeons_order_with_an_end_date_blocks_again_when_it_has_ended(shipped):
    paper = a_go_ahead("after_surgery", allows=("jump",), ends=date(2026, 11, 24))
    child = a_child("after_surgery", permissions=(paper,))
    jumping = needing("sock_ball", touches=("jump",))
    home = owning("sock_ball")
    before = the_ruling(jumping, who=child, here=home, on=date(2026, 11, 24), **shipped)
    after = the_ruling(jumping, who=child, here=home, on=TODAY, **shipped)
    assert (before.status, after.status) == ("allowed", "blocked")


@pytest.mark.parametrize("precaution", ["hypermobile", "low_vision", "touch_sensitive", "wrist"])
def test_what_the_sources_only_flag_is_never_blocked(shipped, precaution):
    everything = tuple(shipped["book"].touches)
    ruling = the_ruling(
        needing("sock_ball", touches=everything),
        who=a_child(precaution),
        here=owning("sock_ball", youngest_months=100),
        **shipped,
    )
    assert ruling.status == "flagged"
