"""Children, goals, go-aheads, homes and the therapist refuse what cannot be."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from tapeline.caseload.people import (
    OWN_MEASURES,
    AlsoThere,
    ChildPrecaution,
    GoAhead,
    Illness,
    LossAnswer,
    Start,
    SuccessBand,
    Therapist,
    Thing,
)
from tapeline.errors import InputError
from tests.builders import TODAY, a_child, a_goal, a_home


@pytest.mark.parametrize("born", ["2021-13", "2021-00", "2021-4", "21-04", "2021-04-17", ""])
def test_a_birth_month_is_a_year_and_a_month(born: str) -> None:
    with pytest.raises(InputError, match=f"Child Amara has the birth month '{born}'") as caught:
        a_child(born=born)
    assert caught.value.field == "born"


@pytest.mark.parametrize(
    ("born", "months"), [("2026-03", 0), ("2026-02", 1), ("2021-03", 60), ("2021-04", 59)]
)
def test_age_counts_whole_months(born: str, months: int) -> None:
    assert a_child(born=born).age_months(TODAY) == months
    assert AlsoThere(who="Sister", born=born).age_months(TODAY) == months


def test_a_child_needs_a_name_or_a_code() -> None:
    with pytest.raises(InputError, match="Child c1 has no name"):
        a_child(name="  ")


@pytest.mark.parametrize("name", ["", "../c1", "c 1", "-c1", "ç1"])
def test_an_id_can_stand_in_a_file_name(name: str) -> None:
    with pytest.raises(InputError, match="Use letters, digits, points, hyphens"):
        a_child(id=name)


def test_two_goals_with_the_same_name_are_refused() -> None:
    with pytest.raises(InputError, match="two goals with the name 'Catch a bounced ball'"):
        a_child(goals=(a_goal(), a_goal(id="g2")))


def test_two_goals_with_the_same_id_are_refused() -> None:
    with pytest.raises(InputError, match="two goals with the id 'g1'"):
        a_child(goals=(a_goal(), a_goal(name="Throw")))


def test_a_skill_has_one_start() -> None:
    start = Start(skill="hop", step="hop.alone")
    with pytest.raises(InputError, match="two skills with the name 'hop'"):
        a_child(skills=(start, start))


@pytest.mark.parametrize("asked", [{"k": 0}, {"k": 6}, {"m": 0}, {"n": 0, "k": 0}])
def test_a_criterion_can_be_met(asked: dict[str, int]) -> None:
    with pytest.raises(InputError, match="Goal Catch a bounced ball asks for"):
        a_goal(**asked)


@pytest.mark.parametrize("weight", [0, 4, -1])
def test_a_weight_is_one_to_three(weight: int) -> None:
    with pytest.raises(InputError, match=f"has the weight {weight}"):
        a_goal(weight=weight)


def test_a_go_ahead_ends_after_it_was_written() -> None:
    with pytest.raises(InputError, match="before it was written"):
        GoAhead(written_by="Dr. Moreno", date=TODAY, ends=TODAY - dt.timedelta(days=1))


def test_go_aheads_reach_the_rules_with_their_dates() -> None:
    paper = GoAhead(written_by="Dr. Moreno", date=TODAY, allows=("turn",), ends=TODAY)
    held = ChildPrecaution(kind="seizures_light_or_turning", go_aheads=(paper,))
    (permission,) = a_child(precautions=(held,)).who(TODAY).permissions
    assert (permission.precaution, permission.allows) == ("seizures_light_or_turning", ("turn",))
    assert (permission.starts, permission.ends) == (TODAY, TODAY)


@pytest.mark.parametrize("hands", [-1, 3])
def test_a_helper_has_no_more_than_two_hands(hands: int) -> None:
    with pytest.raises(InputError, match=f"a helper with {hands} hands free"):
        a_home(hands=hands)


@pytest.mark.parametrize("size", [{}, {"length_cm": 200}, {"length_cm": 0, "width_cm": 100}])
def test_a_floor_of_its_own_size_gives_both_lengths(size: dict[str, Any]) -> None:
    with pytest.raises(InputError, match="gives its own size without length and width"):
        a_home(space="own_size", **size)


@pytest.mark.parametrize("size", [(49, 200), (200, -3)])
def test_a_floor_of_its_own_is_at_least_half_a_metre(size: tuple[int, int]) -> None:
    with pytest.raises(InputError, match=f"has a floor of {min(size)} cm on one side"):
        a_home(space="own_size", length_cm=size[0], width_cm=size[1])


@pytest.mark.parametrize("name", OWN_MEASURES)
def test_what_was_measured_of_a_child_is_more_than_nothing(name: str) -> None:
    with pytest.raises(InputError, match=f"Child Amara has {name} = -5") as caught:
        a_child(**{name: -5})
    assert caught.value.field == name


def test_nobody_owns_less_than_nothing() -> None:
    assert Thing(material="beanbag", count=0).stock().count == 0
    with pytest.raises(InputError, match="Of beanbag there are -3"):
        Thing(material="beanbag", count=-3)


def test_a_preset_floor_has_its_size() -> None:
    assert a_home(space="one_square_metre").size_cm() == (100, 100)
    assert a_home(space="own_size", length_cm=240, width_cm=150).size_cm() == (240, 150)


@pytest.mark.parametrize(("days", "signed"), [(0, True), (365, True), (366, False), (-1, False)])
def test_a_first_aid_sign_off_counts_for_a_year(days: int, signed: bool) -> None:
    read_on = TODAY - dt.timedelta(days=days)
    therapist = Therapist(first_aid_read_by="School nurse", first_aid_read_on=read_on)
    assert therapist.first_aid_signed(TODAY) is signed


def test_a_sign_off_without_a_name_does_not_count() -> None:
    assert not Therapist(first_aid_read_by=" ", first_aid_read_on=TODAY).first_aid_signed(TODAY)


@pytest.mark.parametrize(("low", "best", "high"), [(60, 60, 85), (40, 60, 80), (60, 70, 99)])
def test_a_success_band_rises_and_stays_in_its_bounds(low: int, best: int, high: int) -> None:
    with pytest.raises(InputError, match="success band") as caught:
        SuccessBand(low=low, best=best, high=high)
    assert caught.value.field == "band"


def test_an_illness_does_not_end_before_it_began() -> None:
    with pytest.raises(InputError, match="before it began"):
        Illness(first=dt.date(2026, 3, 9), last=dt.date(2026, 3, 2))


def test_a_matter_is_closed_with_a_reason() -> None:
    with pytest.raises(InputError, match="without a reason"):
        LossAnswer(skill="hop", date=dt.date(2026, 3, 9), says="closed", reason=" ")


def test_the_last_closing_of_a_skill_counts() -> None:
    answers = tuple(
        LossAnswer(skill=skill, date=dt.date(2026, 3, day), says=says, reason="spoken")  # type: ignore[arg-type]
        for skill, day, says in (
            ("hop", 2, "closed"),
            ("hop", 9, "closed"),
            ("hop", 16, "well_again"),
            ("catch2", 23, "closed"),
        )
    )
    assert a_child(loss_answers=answers).closed_on("hop") == dt.date(2026, 3, 9)
    assert a_child().closed_on("hop") is None
