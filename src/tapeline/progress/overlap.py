"""How far two phases lie apart: NAP and Tau, with intervals.

Every function asks which way is better: `improvement` = "increase" or "decrease".
All errors assume that points are independent; where one day carries over to the next they
are too small.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from tapeline.errors import InputError
from tapeline.progress.rank import RankAgreement, kendall
from tapeline.progress.trend import trend_of

Floats = NDArray[np.float64]
Improvement = Literal["increase", "decrease"]
ErrorKind = Literal["unbiased", "hanley", "null"]
HALVINGS = 60
TIES_WITHIN = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """An index of non-overlap.

    Attributes
    ----------
    estimate
        NAP runs from 0 to 1 (.5 = no difference), Tau from -1 to 1 (0 = none); more is better.
    error
        Standard error; None where a phase has one point.
    low, high
        Ends of the interval.
    """

    estimate: float
    error: float | None
    low: float
    high: float


def nap(
    baseline: Sequence[float],
    treatment: Sequence[float],
    *,
    improvement: Improvement,
    confidence: float = 0.8,
    error: ErrorKind = "unbiased",
) -> Overlap:
    """Non-overlap of all pairs: the chance that a later point beats a baseline point [1]_.

    Parameters
    ----------
    baseline, treatment
        Values of the two phases, one or more each; their order does not matter.
    error
        "unbiased" (Sen 1967, Mee 1990), "hanley" (Hanley and McNeil 1982) or "null" (no
        difference). The first two take NAP no nearer to 0 or 1 than 1/(2mn), so that
        complete separation still has an error.

    Raises
    ------
    InputError
        A phase is empty, or a value is no number.

    Notes
    -----
    Conventions: ties count one half; "decrease" turns all values round. The interval is
    method 5 of Newcombe (2006) [2]_ whatever the error; at complete separation it reaches
    from its one root to the end, not from the end to the end.

    References
    ----------
    .. [1] Parker, R. I. & Vannest, K. (2009). An improved effect size for single-case
           research. Behav Ther 40:357-367 (formulas from a later compilation).
    .. [2] Newcombe, R. G. (2006). Confidence intervals for an effect size measure based on
           the Mann-Whitney statistic. Stat Med 25:559-573 (from memory).
    """
    wins = _wins(_phase(baseline, improvement), _phase(treatment, improvement))
    estimate = float(wins.mean())
    low, high = _newcombe(estimate, len(baseline), len(treatment), confidence)
    return Overlap(estimate=estimate, error=_error(wins, estimate, error), low=low, high=high)


def tau(
    baseline: Sequence[float],
    treatment: Sequence[float],
    *,
    improvement: Improvement,
    confidence: float = 0.8,
) -> Overlap:
    """Tau of baseline against treatment: pairs won less pairs lost, of all pairs; 2 NAP - 1.

    Convention: the denominator is all pairs (mn), not the pairs without ties (tau-b).

    Raises
    ------
    InputError
        As for `nap`.
    """
    found = nap(baseline, treatment, improvement=improvement, confidence=confidence)
    return Overlap(
        estimate=2 * found.estimate - 1,
        error=None if found.error is None else 2 * found.error,
        low=2 * found.low - 1,
        high=2 * found.high - 1,
    )


def share_above_baseline(
    baseline: Sequence[float], treatment: Sequence[float], *, improvement: Improvement
) -> float:
    """Share of later points beyond the best baseline point (PND) [1]_, 0 to 1.

    For a team that asks for it; never the headline: it has no error, a single good day in the
    baseline makes it 0, and it falls as the baseline grows longer. Ties are not beyond.

    Raises
    ------
    InputError
        As for `nap`.

    References
    ----------
    .. [1] Scruggs, T. E., Mastropieri, M. A. & Casto, G. (1987). The quantitative synthesis of
           single-subject research. Remedial Spec Educ 8:24-33 (from memory).
    """
    before, after = _phase(baseline, improvement), _phase(treatment, improvement)
    return float(np.mean(after > before.max()))


def baseline_corrected_tau(
    baseline: Sequence[float],
    treatment: Sequence[float],
    *,
    improvement: Improvement,
    confidence: float = 0.8,
) -> Overlap:
    """Tau after the baseline's own trend is taken out [1]_. Draw the fitted line beside it.

    Parameters
    ----------
    baseline, treatment
        In order, one point per session, numbered 1, 2, ... over both phases; three or more
        in the baseline.

    Raises
    ------
    InputError
        As for `nap`; or a baseline of fewer than three points.

    Notes
    -----
    Conventions: always corrected, without a test of the trend first; Theil-Sen line through
    the baseline; residuals are compared after rounding to ten digits; denominator mn. The
    error leaves out that of the line itself. A short steep baseline can turn the sign.

    References
    ----------
    .. [1] Tarlow, K. R. (2017). An improved rank correlation effect size statistic for
           single-case designs: baseline corrected Tau. Behav Modif 41:427-467 (from memory).
    """
    before, after = residuals_of_baseline(baseline, treatment)
    return tau(before, after, improvement=improvement, confidence=confidence)


def residuals_of_baseline(
    baseline: Sequence[float], treatment: Sequence[float]
) -> tuple[list[float], list[float]]:
    """Both phases less the Theil-Sen line through the baseline, rounded to ten digits.

    Raises
    ------
    InputError
        A baseline of fewer than three points, no later point, or a value that is no number.
    """
    if len(baseline) < 3:
        raise InputError(
            f"A baseline of {len(baseline)} points has no trend to take out.",
            field="baseline",
            hint="Use Tau without correction, or wait for three baseline sessions.",
        )
    both = [_phase(phase, "increase") for phase in (baseline, treatment)]
    times = np.arange(1, len(baseline) + len(treatment) + 1, dtype=np.float64)
    line = trend_of(times[: len(baseline)].tolist(), baseline)
    rest = np.concatenate(both) - line.intercept - line.slope * times
    rounded = np.round(rest, TIES_WITHIN).tolist()
    return rounded[: len(baseline)], rounded[len(baseline) :]


@dataclass(frozen=True, slots=True, kw_only=True)
class RankedPhases:
    """Kendall's tau-b of the baseline against time, and of the phases without and with
    correction for it. Tau-b against two phases cannot reach 1: about .71 at most for equal
    phases.
    """

    baseline_trend: RankAgreement
    uncorrected: RankAgreement
    corrected: RankAgreement

    def after_test(self, alpha: float = 0.05) -> RankAgreement:
        """Corrected where the baseline's trend is beyond chance, else uncorrected."""
        return self.corrected if self.baseline_trend.p < alpha else self.uncorrected


def ranked_phases(baseline: Sequence[float], treatment: Sequence[float]) -> RankedPhases:
    """Baseline-corrected Tau in the form of its paper [1]_: tau-b against a 0/1 phase code.

    Conventions: as measured (a fall is negative, whichever way is better); whoever tests the
    baseline's trend first reads `after_test`.
    `baseline_corrected_tau` has all pairs as denominator and differs from this in size.

    Raises
    ------
    InputError
        As for `residuals_of_baseline`.

    References
    ----------
    .. [1] Tarlow, K. R. (2017), as for `baseline_corrected_tau`.
    """
    before, after = residuals_of_baseline(baseline, treatment)
    code = [0.0] * len(before) + [1.0] * len(after)
    return RankedPhases(
        baseline_trend=kendall([float(n) for n in range(len(baseline))], baseline),
        uncorrected=kendall(code, [*baseline, *treatment]),
        corrected=kendall(code, [*before, *after]),
    )


def _phase(values: Sequence[float], improvement: Improvement) -> Floats:
    found = np.asarray(values, dtype=np.float64)
    if len(found) == 0 or not np.isfinite(found).all():
        raise InputError(
            "A phase to compare has no points, or one that is no number.",
            field="values",
            hint="Give at least one session in each phase.",
        )
    return found if improvement == "increase" else -found


def _wins(baseline: Floats, treatment: Floats) -> Floats:
    """Shape (m, n); 1 where the later point is higher, one half where both are alike."""
    away = treatment[None, :] - baseline[:, None]
    return np.asarray((np.sign(away) + 1) / 2)


def _error(wins: Floats, estimate: float, kind: ErrorKind) -> float | None:
    m, n = wins.shape
    if kind == "null":
        return float(np.sqrt((m + n + 1) / (12 * m * n)))
    if min(m, n) < 2:
        return None
    away = wins - estimate
    q1 = float(np.sum(away.sum(axis=1) ** 2)) / (m * n**2)
    q2 = float(np.sum(away.sum(axis=0) ** 2)) / (m**2 * n)
    q3 = float(np.mean(away**2))
    held = min(max(estimate, 1 / (2 * m * n)), 1 - 1 / (2 * m * n))
    if kind == "hanley":
        return float(np.sqrt((held * (1 - held) + (n - 1) * q1 + (m - 1) * q2) / (m * n)))
    return float(np.sqrt((held * (1 - held) + n * q1 + m * q2 - 2 * q3) / ((m - 1) * (n - 1))))


def _newcombe(estimate: float, m: int, n: int, confidence: float) -> tuple[float, float]:
    z2 = NormalDist().inv_cdf((1 + confidence) / 2) ** 2
    h = (m + n) / 2 - 1

    def too_far(x: float) -> float:
        away = m * n * (estimate - x) ** 2 * (2 - x) * (1 + x)
        return away - z2 * x * (1 - x) * (2 + h + (1 + 2 * h) * x * (1 - x))

    low = _root(too_far, outside=0.0, inside=estimate) if estimate > 0 else 0.0
    high = _root(too_far, outside=1.0, inside=estimate) if estimate < 1 else 1.0
    return low, high


def _root(function: Callable[[float], float], *, outside: float, inside: float) -> float:
    """Where the function turns from positive (outside) to negative, by halving."""
    for _ in range(HALVINGS):
        middle = (outside + inside) / 2
        if function(middle) > 0:
            outside = middle
        else:
            inside = middle
    return (outside + inside) / 2
