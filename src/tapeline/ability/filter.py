"""The grid filter: beliefs of a whole caseload moved, updated and learned from, date by date.

Each date [1]_: move the beliefs concerned (drift, decay, random walk, what was learned since);
weigh them by the day's tries with the child's day effect shared by its skills (`today`); then
learn how hard the steps are, how fast each child gains, and what first guesses are worth. What is learned on a date counts from the next date on.

One bad day is held back: the belief of that morning keeps part of its weight, so the mean falls
by a bounded amount. The next day weighs both; a second bad day running moves it freely.

Beliefs are kept as they would be if difficulties and gains were known to be what they are
thought to be. How a belief would shift if they were not is kept beside it: `shares` per step
(an ability is known in terms of the steps practised) and `pace` (weeks of practice that its
mean still rests on). So a change of mind later moves the belief along, and the evidence of a
day gives slope and bend for both [2]_.

References
----------
.. [1] Smith, A. C. et al. (2004). Dynamic analysis of learning in behavioral experiments.
       J Neurosci 24:447-461 (abstract read).
.. [2] Kalman filtering of a state with unknown constants, written as sensitivities; the slope
       of the log evidence in the prior's mean is (posterior mean - prior mean) / prior
       variance for a normal prior (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapeline.ability.belief import FirstDay
from tapeline.ability.days import Bools, Days, Gaps, Ints, Roster, one_by_one
from tapeline.ability.difficulty import NO_KIND, Alike, Steps
from tapeline.ability.drift import Drift
from tapeline.ability.grid import Floats, Grid, day_points, moved_along, ring_of
from tapeline.ability.impressions import Impressions
from tapeline.ability.likelihood import log_table, number_of
from tapeline.ability.settings import FilterValues
from tapeline.ability.today import shared_day

LEAST_KEPT = 0.02  # of the spread before a day; less would be the grid's own coarseness
NOTHING = 1e-12
USUAL_MOVES = 3.0  # spreads of a usual day's move; what is beyond teaches no more


@dataclass(kw_only=True)
class Morning:
    """What was believed before each belief's last day: a last day never decides alone.

    The attributes are those of `State`.
    """

    weights: Floats
    shares: Floats
    pace: Floats
    start: Floats
    start_variance: Floats
    start_with_now: Floats

    def keep(self, who: Ints, before: Floats, state: State) -> None:
        """What is believed of some beliefs this morning."""
        self.weights[who] = before
        for name in ("shares", "pace", "start", "start_variance", "start_with_now"):
            getattr(self, name)[who] = getattr(state, name)[who]


@dataclass(kw_only=True)
class State:
    """All that is believed after some dates; `Filter.take` changes it in place.

    Attributes
    ----------
    weights
        Shape (n, points); beliefs were difficulties and gains known.
    shares
        Shape (n, most_steps); parts of each belief's mean that rest on each step, sum 1.
    guessed
        Shape (n,); part of each belief's mean that still rests on the first guess.
    pace
        Shape (n,); logits a belief's mean rises per logit a week of drift.
    steps_used, drift_used
        Difficulties and gains that the weights were last brought up to.
    days, days_at
        Shape (n,), (n, most_steps); days seen, and days on which each step was tried.
    start, start_variance, start_with_now
        Shape (n,); mean and variance of ability on the first day as now thought, and its
        covariance with ability on the last day.
    held
        Shape (n,); whether the last day was held back.
    """

    weights: Floats
    shares: Floats
    guessed: Floats
    pace: Floats
    steps_used: Floats
    drift_used: Floats
    days: Ints
    days_at: Ints
    start: Floats
    start_variance: Floats
    start_with_now: Floats
    held: Bools
    morning: Morning
    steps: Steps
    drift: Drift
    impressions: Impressions | None


@dataclass(frozen=True, kw_only=True)
class Filter:
    """The filter for one roster of beliefs."""

    roster: Roster
    grid: Grid
    values: FilterValues

    def at_first(self, prior: Floats | None = None) -> State:
        """Before any try; `prior`, shape (n, points), in place of learned first impressions."""
        roster, n = self.roster, len(self.roster.child)
        steps = Steps.at_first(roster.difficulties, self.values)
        drift = Drift.at_first(roster.n_children, self.values)
        impressions = None
        if prior is None:
            impressions = Impressions.at_first(roster, self.grid, self.values)
            prior = np.full((n, self.grid.points), 1 / self.grid.points)
        return State(
            weights=prior.copy(),
            shares=roster.rests_on.copy(),
            guessed=np.ones(n),
            pace=np.zeros(n),
            steps_used=steps.at[roster.skill],
            drift_used=drift.mean[roster.child],
            days=np.zeros(n, dtype=np.int64),
            days_at=np.zeros(roster.rests_on.shape, dtype=np.int64),
            start=np.zeros(n),
            start_variance=np.ones(n),
            start_with_now=np.ones(n),
            held=np.zeros(n, dtype=bool),
            morning=Morning(
                weights=prior.copy(),
                shares=roster.rests_on.copy(),
                pace=np.zeros(n),
                start=np.zeros(n),
                start_variance=np.ones(n),
                start_with_now=np.ones(n),
            ),
            steps=steps,
            drift=drift,
            impressions=impressions,
        )

    def follow(self, state: State, days: Days) -> State:
        """The state after all days, changed in place."""
        at = np.array([difficulty for difficulty, _ in days.kinds])
        event = np.array([number_of(event, self.values) for _, event in days.kinds])
        step = np.array(days.kind_step or [0] * len(days.kinds))
        for of_day, rows in days.by_date():
            kind = days.row_kind[rows]
            today = Today(
                belief=days.belief[of_day],
                gaps=days.gaps.at(of_day),
                row_of=days.row_day[rows] - of_day.start,
                row_difficulty=at[kind],
                row_event=event[kind],
                row_step=step[kind],
                row_count=days.row_count[rows],
            )
            self.take(state, today)
        return state

    def take(self, state: State, today: Today) -> None:
        """One date."""
        who = today.belief
        tried = self._tried(today)
        before = self._arrive(state, today, tried)
        state.morning.keep(who, before, state)
        logs = self._logs(state, today)
        found = shared_day(before, logs, self.roster.child[who], grid=self.grid, values=self.values)
        after = before * found.likelihood
        after /= after.sum(axis=1, keepdims=True)
        new = np.flatnonzero(state.days[who] == 0)
        alike = self._alike(state, who)
        if state.impressions is not None and len(new):
            after[new] = state.impressions.learn(who[new], found.likelihood[new])
        self._conclude(state, who, tried, before, after, found.day_variance, alike)

    def weights_on(self, state: State, which: Ints, gaps: Gaps) -> Floats:
        """Beliefs some time after their last day, with all that is unsure of the gain."""
        gone = gaps.practised + gaps.elsewhere + gaps.absent
        too_soon = np.where(gone > 0, 0.0, self._late_gain(state, which))
        moved = self._shift(state, which, gaps) - too_soon
        pace = state.pace[which] + gaps.practised
        unsure = pace**2 * state.drift.variance[self.roster.child[which]]
        wider = self._widening(gaps) + unsure
        weights = moved_along(state.weights[which], moved, wider, grid=self.grid)
        new = np.flatnonzero(state.days[which] == 0)
        if state.impressions is not None and len(new):
            weights[new] = state.impressions.first(which[new])
        return weights

    def weights_before(self, state: State, which: Ints) -> Floats:
        """Beliefs on the morning of their last day, with all that is unsure of the gain."""
        morning = state.morning
        moved = self._learned_of_steps(state, which, morning.shares)
        unsure = morning.pace[which] ** 2 * state.drift.variance[self.roster.child[which]]
        return moved_along(morning.weights[which], moved, unsure, grid=self.grid)

    def unsure_of_scale(self, state: State, which: Ints) -> Floats:
        """Shape (n,); variance of ability itself for what is unsure of the steps it rests on.

        It does not matter for chances at those steps, and it does for ability in logits.
        """
        guess = state.guessed[which, None] * self.roster.rests_on[which]
        seen = state.shares[which] - guess
        own = self.values.step_child_sd**2 * (seen**2).sum(axis=1)
        return np.asarray(state.steps.unsure(self.roster.skill[which], seen) + own)

    def first_days(
        self, state: State, which: Ints, of: State | Morning | None = None
    ) -> list[FirstDay | None]:
        """Ability on the first day of some beliefs, as now thought; None before it.

        `of` is the state (None) or its mornings: what was thought then.
        """
        of = of or state
        start = of.start[which] + self._learned_of_steps(state, which, of.shares)
        rows = zip(
            (state.days[which] > 0).tolist(),
            start.tolist(),
            of.start_variance[which].tolist(),
            of.start_with_now[which].tolist(),
            strict=True,
        )
        return [
            FirstDay(mean=mean, variance=variance, with_now=now) if seen else None
            for seen, mean, variance, now in rows
        ]

    def unsure_of_steps(self, state: State, which: Ints, of: Morning | None = None) -> Floats:
        """Shape (n, most_steps); variance of each step's difficulty for a child.

        It is counted in terms of what the child's ability rests on: a step practised for
        weeks is known for this child, however unsure its difficulty is for others.
        """
        shares = (of or state).shares[which]
        most = shares.shape[1]
        found = np.empty((len(which), most))
        for step in range(most):
            away = shares - np.eye(most)[step]
            own = self.values.step_child_sd**2 * (away**2).sum(axis=1)
            found[:, step] = state.steps.unsure(self.roster.skill[which], away) + own
        return found

    def _alike(self, state: State, who: Ints) -> Alike:
        """What the first guesses among some beliefs may all be off by, before the day."""
        if state.impressions is None:
            return Alike.nothing(len(who))
        new = state.days[who] == 0
        kind = np.where(new, state.impressions.kind[who], NO_KIND)
        spread = state.impressions.bias_variance()
        return Alike(kind=kind, variance=np.where(new, spread[kind], 0.0))

    def _tried(self, today: Today) -> Floats:
        """Shape (n, most_steps); shares of the day's tries at each step."""
        most = self.roster.difficulties.shape[1]
        place = today.row_of * most + today.row_step
        counts = np.bincount(place, today.row_count, minlength=len(today.belief) * most)
        by_step = counts.reshape(-1, most)
        return np.asarray(by_step / by_step.sum(axis=1, keepdims=True))

    def _arrive(self, state: State, today: Today, tried: Floats) -> Floats:
        """Beliefs on the morning of a day, as they would be if all else were known."""
        who, values = today.belief, self.values
        own = values.step_child_sd**2 * ((state.shares[who] - tried) ** 2).sum(axis=1)
        new = state.days[who] == 0
        wider = self._widening(today.gaps) + np.where(new, 0.0, own)
        moved = moved_along(
            state.weights[who], self._shift(state, who, today.gaps), wider, grid=self.grid
        )
        state.start[who] += self._learned_of_steps(state, who)
        state.steps_used[who] = state.steps.at[self.roster.skill[who]]
        state.drift_used[who] = state.drift.mean[self.roster.child[who]]
        state.pace[who] += today.gaps.practised
        if state.impressions is not None and new.any():
            moved[new] = state.impressions.first(who[new])
        return moved

    def _learned_of_steps(self, state: State, who: Ints, shares: Floats | None = None) -> Floats:
        """Logits that what was learned of steps since a belief's last day shifts it."""
        shares = state.shares if shares is None else shares
        steps = state.steps.at[self.roster.skill[who]] - state.steps_used[who]
        return np.asarray((shares[who] * steps).sum(axis=1))

    def _late_gain(self, state: State, who: Ints) -> Floats:
        """Logits that what was learned of gains since a belief's last day would shift it."""
        gain = state.drift.mean[self.roster.child[who]]
        return np.asarray(state.pace[who] * (gain - state.drift_used[who]))

    def _shift(self, state: State, who: Ints, gaps: Gaps) -> Floats:
        """Logits a belief moves: drift, decay, and what was learned of steps and gain since."""
        gain = state.drift.mean[self.roster.child[who]]
        learned = self._learned_of_steps(state, who)
        learned += self._late_gain(state, who)
        passing = gain * gaps.practised - self.values.decay * gaps.absent
        return np.asarray(learned + passing)

    def _widening(self, gaps: Gaps) -> Floats:
        seen = self.values.weekly_sd**2 * (gaps.practised + gaps.elsewhere)
        return seen + self.values.weekly_sd_absent**2 * gaps.absent

    def _logs(self, state: State, today: Today) -> Floats:
        """Shape (n, n_wide); log likelihood of the day's tries at each ability of that day."""
        reach = ring_of(self.grid, self.values.day_sd).reach
        wide = day_points(self.grid, reach)
        skill = self.roster.skill[today.belief][today.row_of]
        learned = (state.steps.at - state.steps.guess)[skill, today.row_step]
        table = log_table(self.values, self.grid.spacing, len(wide))
        rows = table.rows(today.row_event, wide[0] - today.row_difficulty - learned)
        starts = np.searchsorted(today.row_of, np.arange(len(today.belief)))
        return np.asarray(np.add.reduceat(rows * today.row_count[:, None], starts, axis=0))

    def _conclude(
        self,
        state: State,
        who: Ints,
        tried: Floats,
        before: Floats,
        after: Floats,
        day_variance: Floats,
        alike: Alike,
    ) -> None:
        """Keep what was found, hold back one bad day, and learn."""
        mean, variance = _moments(before, self.grid)
        found, left = _moments(after, self.grid)
        away = state.shares[who] - tried
        kept = np.clip(left / variance, LEAST_KEPT, 1.0)
        usual = USUAL_MOVES * np.sqrt((1 - kept) * variance)
        pull = np.clip(found - mean, -usual, usual) / variance
        information = (1 - kept) / variance
        most = self._most_of_a_bad_day(state, who, away, pull)
        is_bad = mean - found > most
        part = np.where(is_bad, most / np.where(is_bad, mean - found, 1.0), 1.0)[:, None]
        state.weights[who] = part * after + (1 - part) * before
        self._look_back(state, who, found, left, pull, information, kept)
        state.held[who] = is_bad
        self._learn(state, who, away, pull, information, day_variance, alike)
        state.shares[who] = kept[:, None] * state.shares[who] + (1 - kept)[:, None] * tried
        state.guessed[who] *= kept
        state.pace[who] *= kept
        state.days[who] += 1
        state.days_at[who] += tried > 0

    def _look_back(
        self,
        state: State,
        who: Ints,
        found: Floats,
        left: Floats,
        pull: Floats,
        information: Floats,
        kept: Floats,
    ) -> None:
        """What today says about the first day (a fixed-point smoother)."""
        new, along = state.days[who] == 0, state.start_with_now[who]
        start = state.start[who] + along * pull
        variance = np.maximum(state.start_variance[who] - along**2 * information, NOTHING)
        state.start[who] = np.where(new, found, start)
        state.start_variance[who] = np.where(new, left, variance)
        state.start_with_now[who] = np.where(new, left, along * kept)

    def _most_of_a_bad_day(self, state: State, who: Ints, away: Floats, pull: Floats) -> Floats:
        """Shape (n,); logits that the mean may fall, less what the day moves difficulties.

        Without limit in the first days, and on the day after a bad one.
        """
        cov = state.steps.covariance[self.roster.skill[who]]
        along = np.einsum("ni,nij,nj->n", state.shares[who], cov, away)
        late = (state.days[who] >= self.values.bad_day_after) & ~state.held[who]
        most = self.values.bad_day_most - np.maximum(-along * pull, 0.0)
        return np.asarray(np.where(late, np.maximum(most, 0.0), np.inf))

    def _learn(
        self,
        state: State,
        who: Ints,
        away: Floats,
        pull: Floats,
        information: Floats,
        day_variance: Floats,
        alike: Alike,
    ) -> None:
        """Difficulties and gains, each with what the other leaves unsure taken off.

        A first day says nothing of gains.
        """
        skill, child, pace = self.roster.skill[who], self.roster.child[who], state.pace[who]
        unsure_steps = state.steps.unsure(skill, away)
        unsure_gain = pace**2 * state.drift.variance[child]
        alone = information / np.maximum(1 - information * day_variance, LEAST_KEPT)
        day_weight = 1 / max(self.values.day_sd**2, NOTHING)
        less = np.where(state.days[who] == 0, np.inf, 1 + information * unsure_steps)
        state.drift.learn(child, pace, pull / less, alone / less, day_weight)
        less = 1 + information * unsure_gain
        state.steps.learn(skill, away, pull / less, information / less, alike)


@dataclass(frozen=True, kw_only=True)
class Today:
    """The tries of one date.

    Attributes
    ----------
    belief, gaps
        Shape (n,); beliefs concerned, rising, and weeks since their days before.
    row_of
        Shape (n_rows,); place in `belief` of each row, never falling.
    row_difficulty, row_event, row_step, row_count
        Shape (n_rows,); first guess of the step's difficulty, number of the event, number of
        the step, and how many alike tries.
    """

    belief: Ints
    gaps: Gaps
    row_of: Ints
    row_difficulty: Floats
    row_event: Ints
    row_step: Ints
    row_count: Floats


def run(prior: Floats, days: Days, *, grid: Grid, values: FilterValues) -> Floats:
    """Shape (n, points); beliefs after all days, each filtered by itself from a given prior.

    Parameters
    ----------
    prior
        Shape (n, points); non-negative, each row sums to 1.
    """
    alone = Filter(roster=one_by_one(len(prior)), grid=grid, values=values)
    return alone.follow(alone.at_first(prior), days).weights


def _moments(weights: Floats, grid: Grid) -> tuple[Floats, Floats]:
    """Mean and variance of each belief."""
    mean = weights @ grid.at
    return mean, np.asarray(weights @ grid.at**2 - mean**2)
