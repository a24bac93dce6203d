"""What every invented cohort has in common, and the scenarios that make it harder."""

from __future__ import annotations

from dataclasses import dataclass

LEVELS = 6
"""Help runs from 1 (full physical) to 6 (on their own)."""

EASIER_WITH_HELP = (-4.4, -3.5, -2.5, -1.7, -0.9, 0.0)
"""How much easier each level makes a step, in logits; each cohort shifts it a little."""

MOST_GOES = 10


@dataclass(frozen=True, kw_only=True)
class Setting:
    """How large a cohort is, how often it comes and how wrong its first impressions are.

    Attributes
    ----------
    comes
        Share of the open weeks a child is there; misses come in runs.
    impression_sd
        Of an ordinary error of a first impression, in logits.
    misjudged, misjudged_by
        Share of the impressions that are wrong by this much on top, up or down alike.
    too_hopeful
        Added to every impression, in logits.
    step_error
        A guess of a step's difficulty is wrong by up to this many logits, evenly.
    """

    name: str = "ordinary"
    children: int = 24
    skills: int = 3
    weeks: int = 30
    comes: float = 0.85
    impression_sd: float = 0.6
    misjudged: float = 0.15
    misjudged_by: float = 2.0
    too_hopeful: float = 0.0
    step_error: float = 1.0


ORDINARY = Setting()
SELDOM_AND_HOPEFUL = Setting(
    name="60 % of weeks, impressions 2 too high", comes=0.6, misjudged=0.0, too_hopeful=2.0
)
SELDOM_AND_MISJUDGED = Setting(
    name="60 % of weeks, impressions 2 off either way", comes=0.6, misjudged=1.0
)
SCENARIOS = (ORDINARY, SELDOM_AND_HOPEFUL, SELDOM_AND_MISJUDGED)
