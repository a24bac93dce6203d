"""One cohort under one policy: every forecaster speaks before each session and sees it after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from bench.honesty.cohort import Cohort, Floats
from bench.honesty.goals import Asked, Declared, GoalWatch
from bench.honesty.ours import Ours
from bench.honesty.policies import BAND, Ladder, Oracle, OurChoice, Policy, RandomInBand
from bench.honesty.rivals import (
    Cheat,
    Climatology,
    Elo,
    Forecaster,
    Glicko,
    KnowsTheTruth,
    LastResult,
    LastResultSpread,
    PlainAverage,
    SlowingElo,
)
from bench.honesty.setting import MOST_GOES, Setting
from bench.honesty.worlds import World

POLICIES = ("tapeline", "ladder rule", "random in band", "oracle")


@dataclass(kw_only=True)
class Stream:
    """What was forecast and what came, session by session, and what became of the goals."""

    setting: str
    world: str
    policy: str
    seed: int
    child: list[int] = field(default_factory=list)
    week: list[int] = field(default_factory=list)
    n: list[int] = field(default_factory=list)
    k: list[int] = field(default_factory=list)
    in_band: list[bool] = field(default_factory=list)
    forecasts: dict[str, list[Floats]] = field(default_factory=dict)
    goals: list[Declared] = field(default_factory=list)
    asked: dict[str, list[Asked]] = field(default_factory=dict)
    gained: list[float] = field(default_factory=list)


def run(setting: Setting, world: World, seed: int, policy: str) -> Stream:
    """Let one cohort come for all its weeks."""
    cohort = Cohort(setting, world, seed)
    forecasters = all_forecasters(cohort)
    chooser = the_policy(policy, cohort, forecasters, seed)
    stream = Stream(setting=setting.name, world=world.name, policy=policy, seed=seed)
    stream.forecasts = {one.name: [] for one in forecasters}
    watch = GoalWatch(cohort, forecasters)
    for week in range(setting.weeks):
        one_week(cohort, week, chooser, forecasters, stream)
        watch.look(week)
    stream.goals, stream.asked = watch.found(), watch.asked
    stream.gained = (cohort.ability - cohort.started).mean(axis=1).tolist()
    return stream


def all_forecasters(cohort: Cohort) -> list[Forecaster]:
    """Ours, the rivals, the limit and the cheat."""
    return [
        Ours(cohort),
        LastResult(),
        LastResultSpread(),
        PlainAverage(),
        Elo(cohort),
        SlowingElo(cohort),
        Glicko(cohort),
        Climatology(),
        KnowsTheTruth(cohort),
        Cheat(cohort.play),
    ]


def the_policy(name: str, cohort: Cohort, forecasters: Sequence[Forecaster], seed: int) -> Policy:
    """The policy of that name, asking the forecaster it follows."""
    ours = next(one for one in forecasters if isinstance(one, Ours))
    elo = next(one for one in forecasters if isinstance(one, Elo))
    choices: list[Policy] = [
        OurChoice(ours),
        Ladder(cohort),
        RandomInBand(cohort, elo, seed),
        Oracle(cohort),
    ]
    return next(one for one in choices if one.name == name)


def one_week(
    cohort: Cohort,
    week: int,
    chooser: Policy,
    forecasters: Sequence[Forecaster],
    stream: Stream,
) -> None:
    """Choose and forecast for everyone first, then play, tell and learn."""
    steps = {
        (int(child), int(skill)): chooser.choose(int(child), int(skill), week)
        for child, skill in zip(*np.nonzero(cohort.goes[:, :, week]), strict=True)
    }
    for (child, skill), step in steps.items():
        n = int(cohort.goes[child, skill, week])
        for one in forecasters:
            found = one.forecast(child, skill, week, step, n)
            stream.forecasts[one.name].append(np.pad(found, (0, MOST_GOES - n)))
    for (child, skill), step in steps.items():
        seen = cohort.play(child, skill, week, step)
        stream.child.append(child)
        stream.week.append(week)
        stream.n.append(seen.n)
        stream.k.append(seen.alone)
        stream.in_band.append(BAND[0] <= cohort.chance(child, skill, step) <= BAND[1])
        chooser.see(child, skill, step, seen)
        for one in forecasters:
            one.see(child, skill, week, step, seen)
    cohort.practise(week, steps)
