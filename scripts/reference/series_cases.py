"""Worked examples of single-case measures: from a case's words to what tapeline finds."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import Any, Literal

from scripts.reference.case import (
    NotOffered,
    Outcome,
    Spread,
    compare,
    half_digit,
    tolerance_of,
)
from tapeline.errors import InputError
from tapeline.progress.aim import median_rule, run_rule, slope_rule
from tapeline.progress.overlap import (
    ErrorKind,
    Improvement,
    Overlap,
    baseline_corrected_tau,
    nap,
    ranked_phases,
    share_above_baseline,
    tau,
)
from tapeline.progress.phases import describe_phase, percent_of_goal
from tapeline.progress.rank import kendall
from tapeline.progress.swing import (
    autocorrelation,
    error_of_measurement,
    least_change,
    reliable_change,
)
from tapeline.progress.trend import trend_of

Values = Mapping[str, Any]
Found = dict[str, Any]
USUAL_CONFIDENCE = 0.95
ERRORS: dict[str, ErrorKind] = {"unbiased": "unbiased", "hanley": "hanley", "null": "null"}
RUNS = {"three": 3, "four": 4, "five": 5, "six": 6}
NOT_OFFERED = (
    (r"\bPEM\b", "NAP says the same of all baseline points and has an error"),
    (
        r"\b(PAND|IRD)\b",
        "two definitions in use give different numbers, and both grow with the phases",
    ),
    (
        r"Tau-?U|SD of S",
        "programs divide by different pairs and it can leave -1 to 1; Tau and "
        "baseline-corrected Tau are offered",
    ),
    (
        r"SMD|means, SDs|Glass|Hedges|Cohen",
        "it divides by the child's own spread, so that no two of them compare",
    ),
    (
        r"LRR|log ratio|LRM",
        "a hold or a distance is judged yes or no against its step; the ratio has no page",
    ),
    (r"log odds|LOR", "shares of a few tries are too coarse; the ability model takes its place"),
    (
        r"conservative dual|dual criterion|CDC",
        "the rules beside the aim line and the trend's interval take its place",
    ),
    (r"celeration", "no step is judged by a rate per minute"),
)


def outcome_of(key: str, case: Values) -> Outcome:
    """One worked example beside what tapeline finds."""
    expected = case.get("expected")
    if not isinstance(expected, Mapping):
        return _no(key, {}, "the case expects nothing that can be compared")
    try:
        found = _find(str(case.get("measure", "")), case)
    except NotOffered as why:
        return _no(key, expected, str(why))
    except InputError as error:
        return _no(key, expected, f"the data give no such figure. {error}")
    except (KeyError, TypeError, ValueError, AttributeError, IndexError) as error:
        return _no(key, expected, f"the case's data cannot be read ({error!r})")
    return compare(key, expected, found, tolerance_of(case))


def _no(key: str, expected: Values, why: str) -> Outcome:
    said = ", ".join(f"{name} {value}" for name, value in expected.items())
    return Outcome(id=key, verdict="not offered", expected=said, found="", remark=why)


def _find(measure: str, case: Values) -> Found:
    data, args = case["data"], dict(case.get("args") or {})
    names = _listed(measure)
    if len(names) > 1 and (rows := _of_list(names, measure, data, args, case["expected"])):
        return rows
    for pattern, adapter in ADAPTERS:
        if re.match(pattern, measure, re.IGNORECASE):
            return adapter(measure, data, args)
    for pattern, why in NOT_OFFERED:
        if re.search(pattern, measure, re.IGNORECASE):
            raise NotOffered(why)
    raise NotOffered(f"no measure of the name {measure!r} is known here")


def _take(args: dict[str, Any], **usual: Any) -> list[Any]:
    """Arguments by name with what holds without them; one that is unknown is not offered."""
    unknown = [name for name in args if name not in usual]
    if unknown:
        raise NotOffered(f"the argument {unknown[0]}={args[unknown[0]]!r} is unknown here")
    return [args.get(name, value) for name, value in usual.items()]


def _way(measure: str, asked: Any) -> Improvement:
    if asked not in (None, "increase", "decrease"):
        raise NotOffered(f"improvement={asked!r} is no direction")
    if asked is None:
        return "decrease" if re.search(r"decreas\w* (is )?desired", measure) else "increase"
    return "decrease" if asked == "decrease" else "increase"


def _share(measure: str, confidence: Any) -> float:
    """The confidence asked for, by argument or as ``90% CI`` in the measure's words."""
    said = re.search(r"(\d+(?:\.\d+)?)\s*% CI", measure)
    usual = float(said[1]) / 100 if said else USUAL_CONFIDENCE
    return usual if confidence is None else float(confidence)


def _nap(measure: str, data: Values, args: dict[str, Any]) -> Found:
    improvement, confidence, error = _take(args, improvement=None, confidence=None, se="unbiased")
    kind = ERRORS.get(str(error).lower())
    if kind is None:
        raise NotOffered(f"the error se={error!r} is unknown here")
    found = nap(
        data["A"],
        data["B"],
        improvement=_way(measure, improvement),
        confidence=_share(measure, confidence),
        error=kind,
    )
    percent = 100 * found.estimate
    rescaled = 2 * percent - 100
    more = {"v": rescaled} if "rescaled" in measure else {}
    return _as_found(found) | {"pct": percent, "rescaled": rescaled, "NAP": found.estimate} | more


def _tau(measure: str, data: Values, args: dict[str, Any]) -> Found:
    improvement, confidence = _take(args, improvement=None, confidence=None)
    way, share = _way(measure, improvement), _share(measure, confidence)
    found = tau(data["A"], data["B"], improvement=way, confidence=share)
    return _as_found(found) | {"Tau": found.estimate}


def _corrected_tau(measure: str, data: Values, args: dict[str, Any]) -> Found:
    improvement, confidence = _take(args, improvement=None, confidence=None)
    way, share = _way(measure, improvement), _share(measure, confidence)
    found = baseline_corrected_tau(data["A"], data["B"], improvement=way, confidence=share)
    return _as_found(found) | {"TauBC": found.estimate}


def _ranked(measure: str, data: Values, args: dict[str, Any]) -> Found:
    _take(args)
    found = ranked_phases(data["A"], data["B"])
    rows = (found.baseline_trend, found.uncorrected, found.corrected)
    lists = {"tau": [row.tau_b for row in rows], "z": [row.z for row in rows]}
    lists["p"] = [row.p for row in rows]
    parts = [one for values in lists.values() for one in values]
    whole = None if None in parts else math.fsum(one for one in parts if one is not None)
    return {**lists, "sum": whole}


def _as_found(found: Overlap) -> Found:
    return {"Est": found.estimate, "SE": found.error, "CI": [found.low, found.high]}


def _pnd(measure: str, data: Values, args: dict[str, Any]) -> Found:
    (improvement,) = _take(args, improvement=None)
    found = share_above_baseline(data["A"], data["B"], improvement=_way(measure, improvement))
    return {"Est": found, "PND": found, "pct": 100 * found}


def _kendall(measure: str, data: Values, args: dict[str, Any]) -> Found:
    _take(args)
    found = kendall(data["x"], data["y"])
    return {
        "S": found.s,
        "D": found.pairs,
        "tau_b": found.tau_b,
        "tau": found.tau_b,
        "z": found.z,
        "p": found.p,
    }


def _theil_sen(measure: str, data: Values, args: dict[str, Any]) -> Found:
    alpha, confidence = _take(args, alpha=None, confidence=None)
    share = _share(measure, None if alpha is None else 1 - alpha)
    share = share if confidence is None else float(confidence)
    times = data["x"] if "x" in data else _counted(data["y"])
    found = trend_of(times, data["y"], confidence=share)
    separate = trend_of(times, data["y"], intercept="separate")
    return {
        "slope": found.slope,
        "lower": found.low,
        "upper": found.high,
        "CI": [found.low, found.high],
        "intercept_joint": found.intercept,
        "intercept_separate": separate.intercept,
    }


def _percent_of_goal(measure: str, data: Values, args: dict[str, Any]) -> Found:
    goal, confidence, improvement = _take(args, goal=None, confidence=None, improvement=None)
    _way(measure, improvement)  # the sign follows from goal and baseline
    if goal is None:
        raise NotOffered("the case names no goal")
    share = _share(measure, confidence)
    found = percent_of_goal(data["A"], data["B"], goal=float(goal), confidence=share)
    return {"Est": found.percent, "SE": found.error, "CI": [found.low, found.high]}


def _autocorrelation(measure: str, data: Values, args: dict[str, Any]) -> Found:
    (lag,) = _take(args, lag=None)
    lags = (
        [int(lag)]
        if lag is not None
        else [int(one) for one in re.findall(r"lag[- ]?(\d+)", measure)]
    )
    found = [autocorrelation(data["y"], lag=one) for one in lags or [1]]
    return {"r": found, **{f"r{one}": value for one, value in zip(lags, found, strict=False)}}


def _reliable_change(measure: str, data: Values, args: dict[str, Any]) -> Found:
    (reliability,) = _take(args, reliability=None)
    if reliability is None:
        raise NotOffered("the case names no reliability")
    before, after = describe_phase(data["A"]), describe_phase(data["B"])
    if before.sd is None:
        raise NotOffered("a baseline of one point has no spread")
    error = error_of_measurement(before.sd, float(reliability))
    change = after.mean - before.mean
    return {
        "mean_diff": change,
        "sem": error,
        "se_diff": math.sqrt(2) * error,
        "rci_sem": None if error == 0 else change / error,
        "rci_diff": reliable_change(change, error),
    }


def _least_change(measure: str, data: Values, args: dict[str, Any]) -> Found:
    """Limits of agreement are met within what a coefficient's printed digits leave open."""
    _take(args)
    sds = data["SD"] if isinstance(data["SD"], list) else [data["SD"]]
    sd = math.fsum(sds) / len(sds)
    reach = half_digit(data["ICC"])
    at, worst, best = (
        least_change(error_of_measurement(sd, min(1.0, float(data["ICC"]) + away)))
        for away in (0.0, -reach, reach)
    )
    found = dict.fromkeys(("MDC", "MDC95", "mdc", "mdc95"), at)
    return found | {
        "SEM": error_of_measurement(sd, float(data["ICC"])),
        "LoA": Spread(value=at, low=best, high=worst),
    }


def _run_rule(measure: str, data: Values, args: dict[str, Any]) -> Found:
    _take(args)
    number = measure.split("-")[0].lower()
    found = run_rule(data["y"], data["aim"], run=RUNS[number])
    return {"below": found.below, "above": found.above}


def _slope_rule(measure: str, data: Values, args: dict[str, Any]) -> Found:
    _take(args)
    found = slope_rule(data["y"], times=data.get("x"))
    return {"ols": found.least_squares, "ts": found.theil_sen}


def _median_rule(measure: str, data: Values, args: dict[str, Any]) -> Found:
    _take(args)
    found = median_rule(data["y"], float(data["aim_last"]))
    return {"med": found.median, "gap": found.gap}


def _counted(values: list[float]) -> list[float]:
    return [float(n + 1) for n in range(len(values))]


ADAPTERS: tuple[tuple[str, Callable[[str, Values, dict[str, Any]], Found]], ...] = (
    (r"NAP\b", _nap),
    (r"Tau-BC.*tau-b form|checksum: sum of tau-b, z, p", _ranked),
    (r"Tau-BC\b|baseline[- ]corrected tau", _corrected_tau),
    (r"Tau(?!-?U)\b", _tau),
    (r"PND\b", _pnd),
    (r"Kendall (S|tau)\b", _kendall),
    (r"Theil[-–]Sen\b", _theil_sen),
    (r"percent of goal|PoGO", _percent_of_goal),
    (r"(lag-\d.*)?autocorrelation", _autocorrelation),
    (r"SEM\b|reliable change", _reliable_change),
    (r"MDC|least detectable|minimal detectable", _least_change),
    (r"(three|four|five|six)-point rule", _run_rule),
    (r"trend-line rule", _slope_rule),
    (r"median-of-last-three", _median_rule),
)


def _listed(measure: str) -> list[str]:
    """Names of a table's columns: what stands between commas, without the direction."""
    words = re.sub(r"[;,] decrease desired.*", "", measure)
    return [name.strip() for name in words.split(", ")]


def _of_list(
    names: list[str], measure: str, data: Values, args: dict[str, Any], expected: Values
) -> Found | None:
    """A table of several measures at once; None where the words are no such table."""
    if sum(name in COLUMNS or name == "Tau-BC" for name in names) < 2:
        return None
    (improvement,) = _take(args, improvement=None)
    way = _way(measure, improvement)
    if list(expected) == ["v"]:
        if len(expected["v"]) != len(names):
            return None
        return {"v": [COLUMNS[name](data, way) if name in COLUMNS else None for name in names]}
    corrected = baseline_corrected_tau(data["A"], data["B"], improvement=way).estimate
    shares = {name: COLUMNS[name](data, way) / 100 for name in ("PND", "NAP")}
    return shares | {"TauBC": corrected}


def _of_phase(which: Literal["A", "B"], part: str) -> Callable[[Values, Improvement], float | None]:
    def found(data: Values, _way: Improvement) -> float | None:
        phase = describe_phase(data[which], times=data.get(f"mt{which}"))
        value: float | None = getattr(phase, part)
        return value

    return found


def _difference(part: str) -> Callable[[Values, Improvement], float | None]:
    def found(data: Values, way: Improvement) -> float | None:
        before, after = (_of_phase(one, part)(data, way) for one in ("A", "B"))
        return None if before is None or after is None else after - before

    return found


def _table_tau(data: Values, _way: Improvement) -> float | None:
    """After a test of the baseline's trend, in the direction as measured."""
    return ranked_phases(data["A"], data["B"]).after_test().tau_b


COLUMNS: dict[str, Callable[[Values, Improvement], Any]] = {
    "PND": lambda data, way: 100 * share_above_baseline(data["A"], data["B"], improvement=way),
    "NAP": lambda data, way: 100 * nap(data["A"], data["B"], improvement=way).estimate,
    "base tau": _table_tau,
    "mean diff": _difference("mean"),
    "slope diff": _difference("slope"),
    "mA": _of_phase("A", "mean"),
    "mB": _of_phase("B", "mean"),
    "sdA": _of_phase("A", "sd"),
    "sdB": _of_phase("B", "sd"),
    "madA": _of_phase("A", "mad"),
    "madB": _of_phase("B", "mad"),
    "OLS trend A": _of_phase("A", "slope"),
    "OLS trend B": _of_phase("B", "slope"),
}
