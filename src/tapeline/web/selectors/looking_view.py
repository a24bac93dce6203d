"""What a page says while a plan is looked for: how much better one could be, never a timer."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tapeline.web.services.asking import Standing

LARGEST_SAID = 100


@dataclass(frozen=True, kw_only=True)
class LookingView:
    """The sentence about the search, whether what stands can be taken, and which news it is."""

    sentence: str
    can_take: bool
    said: str


def looking_in_words(standing: Standing, *, has_plan: bool) -> LookingView | None:
    """The search as her page shows it; None where none goes on."""
    if not standing.is_open:
        return None
    sentence = _sentence(standing, has_plan=has_plan)
    return LookingView(
        sentence=sentence,
        can_take=bool(standing.stored) and not standing.is_decided,
        said=f"{standing.stored}.{percent_better(standing.left)}.{int(standing.is_decided)}",
    )


def _sentence(standing: Standing, *, has_plan: bool) -> str:
    if not standing.stored:
        if has_plan:
            return "Looking for a plan with what you asked. Here is the one you have."
        return "Looking for a first plan."
    better = percent_better(standing.left)
    if standing.is_decided or better == 0:  # how good it is, the plan itself says
        return "The search is done. Now the best swap for each part."
    if better is None:
        return "Still looking for a better one."
    return f"Still looking. At most {better} % better is possible."


def percent_better(share: float | None) -> int | None:
    """A share in whole hundredths, never too few; None where it is not known or says nothing."""
    if share is None:
        return None
    better = math.ceil(round(100 * share, 6))
    return better if better <= LARGEST_SAID else None
