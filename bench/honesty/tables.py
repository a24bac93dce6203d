"""The bench's figures as tables for a person and as JSON for a program."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from bench.honesty.aims import Aim
from bench.honesty.scores import Mean, Scores
from bench.honesty.summary import GoalWords, PolicyWorth, SureBin

NAME = 21


def with_error(found: Mean, digits: int = 3) -> str:
    """A mean and its standard error."""
    return f"{found.value:.{digits}f} ±{found.error:.{digits}f}"


def score_table(title: str, scores: Mapping[str, Scores]) -> list[str]:
    """A line per forecaster."""
    lines = [
        title,
        f"{'':{NAME}} {'log':>14} {'floored':>7} {'Brier':>13} {'RPS':>13} {'PIT 80':>13}"
        f" {'ECE':>6} {'(if perfect)':>12} {'sd':>5}",
    ]
    for name, one in scores.items():
        lines.append(
            f"{name:{NAME}} {with_error(one.log):>14} {one.floored:7d} {with_error(one.brier):>13}"
            f" {with_error(one.rps):>13} {with_error(one.pit_80):>13} {one.ece:6.3f}"
            f" {one.ece_if_perfect:12.3f} {one.sd:5.3f}"
        )
    return lines


def goal_table(title: str, words: Mapping[str, GoalWords]) -> list[str]:
    """A line per forecaster that can be sure."""
    lines = [
        title,
        f"{'':{NAME}} {'goals':>6} {'said':>5} {'falsely':>7} {'share false':>13}"
        f" {'short by':>8} {'found':>6} {'delay weeks':>11}",
    ]
    for name, one in words.items():
        lines.append(
            f"{name:{NAME}} {one.goals:6d} {one.said:5d} {one.said_falsely:7d}"
            f" {with_error(one.false_share):>13} {one.false_gap:8.3f} {one.found:6.2f}"
            f" {one.delay_weeks:11.1f}"
        )
    return lines


def sure_table(title: str, bins: Sequence[SureBin]) -> list[str]:
    """A line per range of certainty."""
    lines = [title, f"{'sure':>6} {'answers':>7} {'truly reached':>13}"]
    for one in bins:
        lines.append(f"{one.sure:6.3f} {one.answers:7d} {with_error(one.true):>13}")
    return lines


def policy_table(title: str, worth: Mapping[str, PolicyWorth]) -> list[str]:
    """A line per policy."""
    lines = [
        title,
        f"{'':{NAME}} {'in band':>7} {'weeks to mastery':>16} {'mastered':>8}"
        f" {'gained logits':>13}",
    ]
    for name, one in worth.items():
        lines.append(
            f"{name:{NAME}} {one.in_band:7.2f} {with_error(one.weeks_to_mastery, 2):>16}"
            f" {one.mastered:8.2f} {with_error(one.gained, 2):>13}"
        )
    return lines


def aim_table(aims: Sequence[Aim]) -> list[str]:
    """A line per aim: found, wanted, met or not."""
    width = max(len(one.what) for one in aims)
    return [
        f"{one.what:{width}}  {one.found:6.3f}{error_of(one):>8}  aim {wanted(one):<12}"
        f" {'met' if one.is_met else 'NOT MET'}"
        for one in aims
    ]


def error_of(aim: Aim) -> str:
    """Its standard error, where there is one."""
    return "" if aim.error is None else f" ±{aim.error:.3f}"


def wanted(aim: Aim) -> str:
    """Its limits in words."""
    if aim.least is not None and aim.most is not None:
        return f"{aim.least} to {aim.most}"
    return f"at least {aim.least}" if aim.most is None else f"at most {aim.most}"


def as_plain(found: Any) -> Any:
    """Dataclasses as plain values for JSON; aims with "met"; what is not a number as null."""
    if isinstance(found, Aim):
        return as_plain(asdict(found) | {"met": found.is_met})
    if isinstance(found, Mapping):
        return {str(key): as_plain(value) for key, value in found.items()}
    if isinstance(found, list | tuple):
        return [as_plain(one) for one in found]
    if hasattr(found, "__dataclass_fields__"):
        return as_plain(asdict(found))
    return None if isinstance(found, float) and math.isnan(found) else found
