"""Six ways in which practice could make a child better. None of them is the engine's.

Each law says how much one session of eight goes moves a child, as a multiple of the child's own
rate, given the chance of success it was practised at. Nobody knows which is right for children
with motor difficulties, so a forecaster has to be honest in all of them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

Law = Callable[[float, float], float]


@dataclass(frozen=True, kw_only=True)
class World:
    """One way to learn.

    `law` gets the day's chance of success and a uniform draw, and answers in multiples of the
    child's rate. `lost_per_week` is what a week without this skill takes, in logits.
    """

    name: str
    law: Law
    lost_per_week: float = 0.02


def challenge(chance: float, _: float) -> float:
    """Learning is fastest where success and failure are equally likely."""
    return 5 * chance * (1 - chance)


def confidence(chance: float, _: float) -> float:
    """Success teaches: best near 85 in 100, little where a child mostly fails."""
    return 1.6 * chance if chance <= 0.85 else 1.6 * 0.85 * (1 - chance) / 0.15


def errors(chance: float, _: float) -> float:
    """Misses teach, as long as something works at all."""
    return 2.4 * (1 - chance) * min(1.0, chance / 0.2)


def any_practice(_: float, __: float) -> float:
    """Goes count, however hard they are."""
    return 1.0


def leaps(chance: float, draw: float) -> float:
    """Nothing for weeks, then a leap: one session in twelve where it is neither easy nor hopeless.

    A leap is worth between 8 and 16 ordinary sessions.
    """
    likely = 1 / 12 if 0.25 <= chance <= 0.9 else 1 / 36
    return 8 + 8 * draw / likely if draw < likely else 0.0


def narrow(chance: float, _: float) -> float:
    """Only a narrow band about 70 in 100 teaches."""
    return 1.6 * max(0.0, 1 - abs(chance - 0.7) / 0.3)


WORLDS = (
    World(name="challenge", law=challenge),
    World(name="confidence", law=confidence),
    World(name="errors", law=errors),
    World(name="any practice", law=any_practice),
    World(name="leaps", law=leaps),
    World(name="narrow, forgets", law=narrow, lost_per_week=0.08),
)
