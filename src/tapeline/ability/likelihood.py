"""How likely a try's outcome is at each ability: cumulative logit with a lapse.

With levels 1..K (K = on their own) and s the logistic function [1]_:
P(y >= k) = lapse / 2 + (1 - lapse) s(ability - difficulty - c_k).

References
----------
.. [1] Samejima, F. (1969). Estimation of latent ability using a response pattern of graded
       scores. Psychometrika Monograph 17 (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from tapeline.ability.grid import Floats
from tapeline.ability.settings import FilterValues
from tapeline.errors import InputError

Ints = NDArray[np.int64]
Says = Literal["at_least", "exactly", "below"]


class Event(NamedTuple):
    """What a try says about y, the least help that worked: at least, exactly or below k."""

    says: Says
    k: int


def event_of(outcome: str, level: int, procedure: str, values: FilterValues) -> Event:
    """What an outcome says, with prompt level `level` (1 = most help) in force.

    Alone is y >= K whatever help stood by. With help k is y = k where the least help that
    works was sought, y >= k where the help was planned beforehand. Not yet with help k in
    force is y < k: nothing is known of more help.

    Raises
    ------
    InputError
        The level is not in the list, or the outcome is "with help" without any help.
    """
    most = values.on_their_own
    if not 1 <= level <= most:
        raise InputError(
            f"The prompt level {level} is not in the list of {most}.",
            field="help",
            hint=f"Use a level from 1 to {most}.",
        )
    if outcome == "alone":
        return Event("at_least", most)
    if outcome == "not_yet":
        return Event("below", level)
    if level == most:
        raise InputError(
            "A try says it worked with help, and the help in force is none.",
            field="help",
            hint="Name the help that was given, or count the try as on their own.",
        )
    return Event("exactly" if procedure == "least_help" else "at_least", level)


def log_likelihood(
    ability: Floats, difficulty: float, event: Event, values: FilterValues
) -> Floats:
    """Log probability of one try's event at each ability; same shape as `ability`, finite."""
    says, k = event
    eta = ability - difficulty
    if says == "exactly":
        return _log_between(eta, k, values)
    reached = eta - values.thresholds[k - 1]
    half = values.lapse / 2
    inner = _log_logistic(reached if says == "at_least" else -reached) + np.log1p(-values.lapse)
    return np.asarray(np.logaddexp(inner, np.log(half))) if half else inner


class LogTable:
    """Log likelihoods of all events, to be read off at any difficulty.

    Parameters
    ----------
    width
        Abilities wanted at once, as many as a day's points.

    Notes
    -----
    Difficulties are rounded to a tenth of the grid's spacing (.01 logits on the shipped grid);
    beyond `END` logits from a step's difficulty the likelihood is taken at that end.
    """

    PARTS = 10
    END = 24.0

    def __init__(
        self, events: Sequence[Event], values: FilterValues, *, spacing: float, width: int
    ) -> None:
        self._part = spacing / self.PARTS
        self._half = math.ceil(self.END / spacing) * self.PARTS
        at = self._part * np.arange(-self._half, self._half, dtype=np.float64)
        logs = np.array([log_likelihood(at, 0.0, event, values) for event in events])
        by_part = logs.reshape(len(events), -1, self.PARTS).transpose(0, 2, 1)
        self._windows = sliding_window_view(np.ascontiguousarray(by_part), width, axis=2)

    def rows(self, event: Ints, lowest: Floats) -> Floats:
        """Shape (n, width); log likelihood of each event at rising abilities.

        `lowest`, shape (n,), is the first of them less the step's difficulty.
        """
        place = np.round(lowest / self._part).astype(np.int64) + self._half
        place = np.clip(place, 0, self._windows.shape[2] * self.PARTS - 1)
        return np.asarray(self._windows[event, place % self.PARTS, place // self.PARTS])


@lru_cache(maxsize=16)
def log_table(values: FilterValues, spacing: float, width: int) -> LogTable:
    """The table of every event there is, numbered by `number_of`."""
    return LogTable(all_events(values), values, spacing=spacing, width=width)


def all_events(values: FilterValues) -> list[Event]:
    """Every event there is with these levels."""
    levels = range(1, values.on_their_own + 1)
    found = [Event("at_least", k) for k in levels] + [Event("below", k) for k in levels]
    return found + [Event("exactly", k) for k in levels if k < values.on_their_own]


def number_of(event: Event, values: FilterValues) -> int:
    """Place of an event among all there are."""
    block = {"at_least": 0, "below": 1, "exactly": 2}[event.says]
    return block * values.on_their_own + event.k - 1


def chance_of(ability: Floats, difficulty: float, k: int, values: FilterValues) -> Floats:
    """P(y >= k) at each ability: managing the step with help k or less."""
    return np.asarray(np.exp(log_likelihood(ability, difficulty, Event("at_least", k), values)))


def _log_between(eta: Floats, k: int, values: FilterValues) -> Floats:
    """Log P(y = k) for 1 <= k < K, as a product, so that no small difference is lost.

    s(a) - s(b) = s(a) s(-b) (1 - exp(b - a)) with a - b the distance of two thresholds.
    """
    lower, upper = values.thresholds[k - 1], values.thresholds[k]
    apart = np.log(-np.expm1(lower - upper)) + np.log1p(-values.lapse)
    return np.asarray(_log_logistic(eta - lower) + _log_logistic(upper - eta) + apart)


def _log_logistic(at: Floats) -> Floats:
    return np.asarray(-np.logaddexp(0.0, -at))
