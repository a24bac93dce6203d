"""Goal forecasts and the test for a lost skill, against SciPy and against drawn lives.

SciPy's quadrature and binomial distribution stand for the sums over the belief; a plain Monte
Carlo of the two stories stands for the filter behind the ratio of likelihoods. Neither shares
code with the program.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from scipy import integrate, optimize, stats

from tapeline.ability.belief import FirstDay, Normal, first_belief
from tapeline.ability.goal import forecast
from tapeline.ability.likelihood import event_of
from tapeline.ability.loss import LossTest, TryDay, TryRow, loss_values
from tapeline.ability.ordered import ordered_covariance
from tapeline.ability.settings import filter_values
from tapeline.caseload.people import Goal

ON = dt.date(2026, 3, 10)
VALUES = filter_values()


def share(ability: Any) -> Any:
    """P(alone) by the formula of the model, lapse included."""
    return VALUES.lapse / 2 + (1 - VALUES.lapse) * stats.logistic.cdf(ability)


@pytest.mark.parametrize(
    ("mean", "sd", "k", "n", "m"),
    [(0.0, 0.4, 4, 5, 1), (1.4, 0.6, 4, 5, 3), (2.5, 1.0, 8, 10, 2), (1.4, 0.6, 1, 1, 2)],
)
def test_the_count_now_agrees_with_scipys_quadrature(
    mean: float, sd: float, k: int, n: int, m: int
) -> None:
    def session(ability: float) -> float:
        effect = np.linspace(-6 * VALUES.day_sd, 6 * VALUES.day_sd, 401)
        enough = stats.binom.sf(k - 1, n, share(ability + effect))
        return float(integrate.simpson(enough * stats.norm.pdf(effect, 0, VALUES.day_sd), x=effect))

    def whole(ability: float) -> float:
        return session(ability) ** m * stats.norm.pdf(ability, mean, sd)

    expected = integrate.quad(whole, mean - 6 * sd, mean + 6 * sd, limit=100)[0]
    goal = Goal(id="g", name="g", skill="s", step="s.a", k=k, n=n, m=m)
    belief = first_belief(Normal(mean=mean, sd=sd), middle=0.0, values=VALUES)
    found = forecast(goal, belief, 0.0, level=VALUES.on_their_own, on=ON)
    assert found.met_now == pytest.approx(expected, abs=2e-3)


def over_days(ability: float) -> float:
    """P(alone) over days as they come, usual and bad ones, by SciPy's quadrature."""
    part, mean, sd = VALUES.bad_days
    days = ((1 - part, 0.0, VALUES.day_sd), (part, mean, sd))
    return float(
        sum(
            of
            * integrate.quad(
                lambda d, at=at, wide=wide: share(ability + d) * stats.norm.pdf(d, at, wide),
                at - 8 * wide,
                at + 8 * wide,
            )[0]
            for of, at, wide in days
        )
    )


@pytest.mark.parametrize("mean", [0.5, 1.4, 2.5])
def test_the_level_agrees_with_scipys_normal_distribution(mean: float) -> None:
    """A first day far below leaves the plain belief; `days_unlike_sd` is added to it."""
    goal = Goal(id="g", name="g", skill="s", step="s.a", k=4, n=5)
    belief = first_belief(Normal(mean=mean, sd=0.6), middle=0.0, values=VALUES)
    first_day = FirstDay(mean=-6.0, variance=0.1, with_now=0.0)
    seen = replace(belief, days=5, tries=40, first_day=first_day)
    found = forecast(goal, seen, 0.0, level=VALUES.on_their_own, on=ON)
    least = optimize.brentq(lambda at: over_days(at) - 0.8, 0.0, 4.0)
    spread = math.hypot(0.6, VALUES.days_unlike_sd)
    assert found.level == pytest.approx(stats.norm.sf(least, mean, spread), abs=3e-3)


@pytest.mark.parametrize(("gap", "apart"), [(1.1, 0.2), (0.4, 0.5), (3.0, 0.0)])
def test_two_steps_in_order_agree_with_scipys_cut_normal(gap: float, apart: float) -> None:
    """The distance of two normals is normal; cut to order, SciPy has its variance."""
    sd = 0.5
    spread = sd * math.sqrt(2)
    cut = stats.truncnorm((apart * gap - gap) / spread, np.inf, scale=spread).var()
    total = 2 * sd**2
    expected = np.array([[total + cut, total - cut], [total - cut, total + cut]]) / 4
    assert ordered_covariance((0.0, gap), sd, apart) == pytest.approx(expected, abs=2e-4)


BEFORE, SINCE, TRIES = (5, 4, 5, 4), (1, 0), 6


def drawn_ratio(count: int = 200_000) -> float:
    """Likelihood of the last days with a drop before them, over that without, by drawing."""
    chance, rule = np.random.default_rng(5), loss_values()
    bad_share, bad_mean, bad_sd = rule["bad_days"]["value"]
    ability = chance.normal(0.0, rule["before"]["spread"], count)
    seen = np.zeros(count)

    def a_day(at: Any, alone: int) -> Any:
        is_bad = chance.random(count) < bad_share
        effect = np.where(
            is_bad,
            chance.normal(bad_mean, bad_sd, count),
            chance.normal(0, VALUES.day_sd, count),
        )
        p = share(at + effect)
        return alone * np.log(p) + (TRIES - alone) * np.log1p(-p)

    for alone in BEFORE:
        seen += a_day(ability, alone)
        ability = ability + chance.normal(0, VALUES.weekly_sd, count)
    weights = np.exp(seen - seen.max())
    logs = []
    for drop in (0.0, *rule["drops"]["value"]):
        now, since = ability - drop, np.zeros(count)
        for alone in SINCE:
            since += a_day(now, alone)
            now = now + chance.normal(0, VALUES.weekly_sd, count)
        logs.append(float((weights * np.exp(since)).sum() / weights.sum()))
    return float(np.mean(logs[1:]) / logs[0])


def test_the_ratio_of_likelihoods_agrees_with_drawn_lives() -> None:
    alone = event_of("alone", 6, "least_help", VALUES)
    not_yet = event_of("not_yet", 6, "least_help", VALUES)
    days = [
        TryDay(
            date=ON + dt.timedelta(weeks=week),
            rows=tuple(
                TryRow(place=0, difficulty=0.0, event=event, count=count)
                for event, count in ((alone, one), (not_yet, TRIES - one))
                if count
            ),
        )
        for week, one in enumerate((*BEFORE, *SINCE))
    ]
    found = LossTest(VALUES, middle=0.0).look(days)
    assert found is not None
    since, ratio, _, _ = found
    assert since == days[len(BEFORE)].date
    assert ratio == pytest.approx(drawn_ratio(), rel=0.1)
