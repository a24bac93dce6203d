"""What each outcome says, and that the chances of all outcomes make a whole."""

from __future__ import annotations

import numpy as np
import pytest

from tapeline.ability.likelihood import Event, chance_of, event_of, log_likelihood
from tapeline.ability.settings import FilterValues
from tapeline.errors import InputError

VALUES = FilterValues(thresholds=(-4.6, -3.6, -2.6, -1.8, -0.9, 0.0), lapse=0.03)
ALONE = 6
ABILITY = np.linspace(-30, 30, 121)


def likelihood(event: Event) -> np.ndarray:
    return np.exp(log_likelihood(ABILITY, 0.5, event, VALUES))


def test_alone_says_at_least_on_their_own_whatever_help_stood_by():
    assert event_of("alone", 3, "least_help", VALUES) == ("at_least", ALONE)
    assert event_of("alone", ALONE, "planned_help", VALUES) == ("at_least", ALONE)


def test_with_help_says_exactly_this_help_when_the_least_was_sought():
    assert event_of("with_help", 5, "least_help", VALUES) == ("exactly", 5)


def test_with_planned_help_less_help_might_have_done():
    assert event_of("with_help", 5, "planned_help", VALUES) == ("at_least", 5)


def test_not_yet_with_help_says_nothing_of_more_help():
    assert event_of("not_yet", 5, "least_help", VALUES) == ("below", 5)
    light, heavy = likelihood(Event("below", 5)), likelihood(Event("below", 1))
    assert (light > heavy).all()


def test_with_help_needs_a_help():
    with pytest.raises(InputError, match="the help in force is none"):
        event_of("with_help", ALONE, "least_help", VALUES)


@pytest.mark.parametrize("level", [0, 7])
def test_a_level_outside_the_list_is_refused(level: int):
    with pytest.raises(InputError, match="not in the list"):
        event_of("alone", level, "least_help", VALUES)


@pytest.mark.parametrize("reached", range(1, ALONE + 1))
def test_chances_of_all_outcomes_add_up_to_one(reached: int):
    """Not reached, each help from there on, and on their own."""
    whole = likelihood(Event("below", reached)) + likelihood(Event("at_least", ALONE))
    for k in range(reached, ALONE):
        whole = whole + likelihood(Event("exactly", k))
    assert whole == pytest.approx(1.0)


def test_a_lapse_bounds_what_one_try_can_say():
    alone = chance_of(ABILITY, 0.5, ALONE, VALUES)
    assert alone.min() == pytest.approx(VALUES.lapse / 2)
    assert alone.max() == pytest.approx(1 - VALUES.lapse / 2)


def test_every_log_likelihood_is_finite_far_from_the_step():
    for says in ("at_least", "below"):
        assert np.isfinite(log_likelihood(ABILITY, 0.5, Event(says, 1), VALUES)).all()
    assert np.isfinite(log_likelihood(ABILITY, 0.5, Event("exactly", 1), VALUES)).all()


def test_one_threshold_is_the_plain_logistic_model():
    plain = FilterValues(thresholds=(0.0,))
    assert chance_of(np.array([1.0]), 0.0, 1, plain)[0] == pytest.approx(1 / (1 + np.exp(-1)))


@pytest.mark.parametrize("thresholds", [(), (0.0, -1.0), (-1.0, -0.5), (0.0, 0.0)])
def test_thresholds_rise_to_zero(thresholds: tuple[float, ...]):
    with pytest.raises(ValueError):
        FilterValues(thresholds=thresholds)
