"""The step proposed next: useful, not too hard, one at a time, and not to and fro."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.ability.bands import band_of
from tapeline.ability.belief import Belief, Normal, first_belief
from tapeline.ability.next_step import Standing, StepProposal, next_step
from tapeline.ability.outlook import is_likely_too_hard
from tapeline.ability.prior import middle_of
from tapeline.ability.settings import Band, filter_values
from tapeline.ability.words import proposal_in_words
from tapeline.caseload.people import SuccessBand
from tapeline.errors import InputError
from tests.builders import a_child
from tests.unit.ability.a_ladder import TOSS, week

ON = week(10)
LONG_AGO, LAST_WEEK, YESTERDAY = week(5), week(9), ON - dt.timedelta(1)
IN_BAND = 0.93
LEVEL_NAMES = dict(enumerate(("full", "partial", "model", "gesture", "word", "alone"), 1))


def a_belief(mean: float, sd: float = 0.4, days: int = 6) -> Belief:
    found = first_belief(Normal(mean=mean, sd=sd), middle=middle_of(TOSS), values=filter_values())
    return replace(found, days=days, tries=8 * days)


def proposed(mean: float, step: str, since: dt.date | None = LONG_AGO, **fields) -> StepProposal:
    belief = a_belief(mean, **fields)
    return next_step(TOSS, belief, Standing(step=step, since=since), on=ON)


def at(place: int) -> float:
    """Ability at which this step is managed 7 times in 10."""
    return TOSS.steps[place].difficulty + IN_BAND


def test_a_step_in_the_band_stays():
    found = proposed(at(1), "toss.near")
    assert (found.step, found.code) == ("toss.near", "in_the_band")


def test_a_child_who_can_do_it_goes_one_step_up():
    found = proposed(at(2), "toss.near")
    assert (found.step, found.code) == ("toss.far", "ready_for_more")


def test_a_step_too_hard_goes_down_and_the_easier_is_the_second_choice():
    found = proposed(at(0), "toss.far")
    assert found.code == "easier_first"
    assert found.step in ("toss.drop", "toss.near")
    assert not is_likely_too_hard(a_belief(at(0)), TOSS.steps[0].difficulty)


def test_not_two_steps_at_once_after_two_days():
    found = proposed(at(3), "toss.near")
    assert (found.step, found.code) == ("toss.far", "one_step_a_week")
    assert found.values["above"] == "toss.small"


def test_in_the_first_two_days_any_step_may_come():
    assert proposed(at(3), "toss.near", days=1).step == "toss.small"
    assert proposed(at(3), "toss.near", days=2).step == "toss.far"


def test_only_in_the_first_two_sessions_a_step_that_tells_more_is_preferred():
    between = at(1) + 1.1
    assert proposed(between, "toss.near", sd=1.0, days=1).step == "toss.far"
    assert proposed(between, "toss.near", sd=1.0, days=2).step == "toss.near"


def test_a_skill_that_seems_lost_keeps_its_step_and_asks():
    standing = Standing(step="toss.far", since=LONG_AGO, is_held=True)
    found = next_step(TOSS, a_belief(at(0)), standing, on=ON)
    assert (found.step, found.second, found.code) == ("toss.far", "toss.near", "ask_first")
    assert "Talk with the family" in proposal_in_words(found, TOSS, LEVEL_NAMES)


def test_help_is_changed_at_the_step_in_hand_only():
    stays = proposed(at(0) - 3, "toss.drop")
    moves = proposed(at(0) - 3, "toss.near")
    assert (stays.changes, moves.changes) == ("help", "step")
    assert "with this help: model" in proposal_in_words(stays, TOSS, LEVEL_NAMES)
    assert "the help you give now" in proposal_in_words(moves, TOSS, LEVEL_NAMES)


def test_a_childs_own_band_moves_the_step():
    child = a_child(band=SuccessBand(low=80, best=88, high=94))
    standing = Standing(step="toss.near", since=LONG_AGO)
    usual = next_step(TOSS, a_belief(at(1)), standing, on=ON, band=band_of(a_child()))
    gentle = next_step(TOSS, a_belief(at(1)), standing, on=ON, band=band_of(child))
    assert (usual.step, gentle.step) == ("toss.near", "toss.drop")


def test_a_step_begun_yesterday_waits_for_the_week_to_pass():
    assert proposed(at(2), "toss.near", since=YESTERDAY).code == "one_step_a_week"
    assert proposed(at(2), "toss.near", since=LAST_WEEK).step == "toss.far"


def test_down_needs_no_waiting():
    assert proposed(at(0), "toss.near", since=YESTERDAY).step == "toss.drop"


@pytest.mark.parametrize("mean", [x / 4 for x in range(-16, 32)])
@pytest.mark.parametrize("step", TOSS.steps)
def test_never_a_step_likelier_than_not_below_four_in_ten(mean: float, step):
    found = proposed(mean, step.id)
    chosen = TOSS.steps[TOSS.index_of(found.step)]
    too_hard = is_likely_too_hard(a_belief(mean), chosen.difficulty)
    assert not too_hard or (found.code == "help_first" and chosen == TOSS.steps[0])


def test_between_two_steps_alike_a_child_stays_where_it_is():
    """Somewhere between the two both are as useful: from either side it stays."""
    middles = [at(1) + part * 1.2 for part in (0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.9)]
    stays = [
        mean
        for mean in middles
        if proposed(mean, "toss.near").step == "toss.near"
        and proposed(mean, "toss.far").step == "toss.far"
    ]
    assert stays


def test_at_the_top_it_says_so():
    found = proposed(at(3) + 2, "toss.small")
    assert (found.step, found.code, found.second) == ("toss.small", "top_of_the_steps", "toss.far")


def test_a_first_step_too_hard_is_offered_with_help():
    found = proposed(at(0) - 3, "toss.drop")
    assert (found.step, found.code) == ("toss.drop", "help_first")
    assert 1 <= found.values["level"] < 6


def test_a_gap_names_the_help_that_fills_it():
    steep = replace(
        TOSS,
        steps=tuple(replace(step, difficulty=4.0 * place) for place, step in enumerate(TOSS.steps)),
    )
    belief = first_belief(Normal(mean=3.0, sd=0.4), middle=middle_of(steep), values=filter_values())
    found = next_step(
        steep, replace(belief, days=6), Standing(step="toss.drop", since=LONG_AGO), on=ON
    )
    assert (found.step, found.code, found.values["next"]) == ("toss.drop", "gap", "toss.near")
    level = found.values["level"]
    assert belief.chance(4.0, level=level) >= 0.6 > belief.chance(4.0, level=level + 1)


def test_her_own_band_moves_the_choice():
    careful = Band(low=0.8, centre=0.85, high=0.95, too_hard_below=0.5)
    standing = Standing(step="toss.near", since=LONG_AGO)
    usual = next_step(TOSS, a_belief(at(1) + 0.6), standing, on=ON)
    held = next_step(TOSS, a_belief(at(1)), standing, on=ON, band=careful)
    assert usual.step == "toss.near"
    assert held.step == "toss.drop"


def test_a_band_that_does_not_rise_is_refused():
    with pytest.raises(InputError, match="success band"):
        Band(low=0.8, centre=0.7, high=0.9, too_hard_below=0.4)


@pytest.mark.parametrize("mean", [at(0) - 3, at(0), at(1), at(2), at(3) + 2])
@pytest.mark.parametrize("since", [YESTERDAY, LONG_AGO])
def test_every_reason_has_a_sentence(mean: float, since: dt.date):
    for step in TOSS.steps:
        sentence = proposal_in_words(proposed(mean, step.id, since), TOSS, LEVEL_NAMES)
        assert sentence.endswith(".")
        assert "0." not in sentence
