"""What several cohorts say about goals and about policies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bench.honesty.cohort import CRITERION
from bench.honesty.goals import Declared
from bench.honesty.scores import Floats, Mean, mean
from bench.honesty.stream import Stream

SURE_EDGES = (0.02, 0.1, 0.3, 0.5, 0.7, 0.8, 0.9, 0.95)


@dataclass(frozen=True, kw_only=True)
class GoalWords:
    """How often one forecaster's word that a goal is reached was false.

    Attributes
    ----------
    goals, said, said_falsely
        Numbers; falsely: the true chance was below eight of ten in that week.
    false_share
        Of the words said, with its standard error over children.
    false_gap
        How far below eight of ten the true chance was, on average, when it was false.
    found
        Share of the goals truly reached by the end that it had said by then.
    delay_weeks
        Weeks from truly reached to said, median; early words count below 0.
    """

    goals: int
    said: int
    said_falsely: int
    false_share: Mean
    false_gap: float
    found: float
    delay_weeks: float


@dataclass(frozen=True, kw_only=True)
class SureBin:
    """Weeks in which a forecaster was about so sure of a goal: how sure, and how often rightly."""

    answers: int
    sure: float
    true: Mean


@dataclass(frozen=True, kw_only=True)
class PolicyWorth:
    """What came of choosing steps in one way.

    Attributes
    ----------
    in_band
        Share of the sessions whose true chance was between .60 and .85.
    weeks_to_mastery
        Mean weeks until a goal that was not reached at first truly was; goals never reached
        count as the whole time, so it is a mean over that time and no more.
    mastered
        Share of those goals truly reached by the end.
    gained
        Logits gained per child, mean over its skills.
    """

    in_band: float
    weeks_to_mastery: Mean
    mastered: float
    gained: Mean


def goal_words(streams: Sequence[Stream], forecaster: str) -> GoalWords:
    """Count one forecaster's words over all goals."""
    rows = keyed_goals(streams)
    said = [(key, goal, goal.said[forecaster]) for key, goal in rows if forecaster in goal.said]
    false = np.array([word.true_chance < CRITERION for _, _, word in said], dtype=float)
    gaps = [CRITERION - word.true_chance for _, _, word in said if word.true_chance < CRITERION]
    delays = [word.week - goal.truly_week for _, goal, word in said if goal.truly_week is not None]
    reached = [goal for _, goal in rows if goal.truly_week is not None]
    return GoalWords(
        goals=len(rows),
        said=len(said),
        said_falsely=int(false.sum()),
        false_share=mean_or_nan(false, [key for key, _, _ in said]),
        false_gap=plain_mean(gaps),
        found=plain_mean([forecaster in goal.said for goal in reached]),
        delay_weeks=float(np.median(delays)) if delays else float("nan"),
    )


def sure_bins(streams: Sequence[Stream], forecaster: str) -> list[SureBin]:
    """How often a goal was truly reached by how sure the forecaster was, over all weeks."""
    rows = [(number, one) for number, s in enumerate(streams) for one in s.asked[forecaster]]
    child = np.array([number * 10_000 + one.child for number, one in rows])
    sure = np.array([one.sure for _, one in rows])
    is_met = np.array([one.is_met for _, one in rows], dtype=float)
    bin_of = np.digitize(sure, SURE_EDGES)
    return [
        SureBin(
            answers=int((bin_of == at).sum()),
            sure=float(sure[bin_of == at].mean()),
            true=mean(is_met[bin_of == at], child[bin_of == at]),
        )
        for at in np.unique(bin_of)
    ]


def policy_worth(streams: Sequence[Stream], weeks: int) -> PolicyWorth:
    """Count what a policy reached."""
    open_goals = [(key, goal) for key, goal in keyed_goals(streams) if not goal.met_at_start]
    keys = [key for key, _ in open_goals]
    took = [weeks if goal.truly_week is None else goal.truly_week + 1 for _, goal in open_goals]
    gained = np.concatenate([one.gained for one in streams])
    return PolicyWorth(
        in_band=float(np.mean(np.concatenate([one.in_band for one in streams]))),
        weeks_to_mastery=mean_or_nan(np.array(took, dtype=float), keys),
        mastered=plain_mean([goal.truly_week is not None for _, goal in open_goals]),
        gained=mean(gained, np.arange(len(gained))),
    )


def keyed_goals(streams: Sequence[Stream]) -> list[tuple[int, Declared]]:
    """Goals with a number per child of each cohort."""
    return [
        (number * 10_000 + goal.child, goal)
        for number, one in enumerate(streams)
        for goal in one.goals
    ]


def plain_mean(values: Sequence[float]) -> float:
    """A mean over none is not a number."""
    return float(np.mean(values)) if len(values) else float("nan")


def mean_or_nan(values: Floats, keys: Sequence[int]) -> Mean:
    """The same with its standard error over children."""
    if not len(values):
        return Mean(value=float("nan"), error=float("nan"))
    return mean(values, np.array(keys))
