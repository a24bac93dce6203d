"""A skill that seems to be lost, in plain English: what was seen, and whom to talk with.

Our own words. They say what was counted, not why: that is for the family and a doctor.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from tapeline.ability.goal_words import in_ten
from tapeline.ability.matters import LossMatter
from tapeline.ability.seen import DaySeen
from tapeline.activities.models import Skill

SHOWN = 4


def loss_seen(matter: LossMatter, skill: Skill, days: Sequence[DaySeen]) -> str:
    """What was counted on the lower days, beside how it went before."""
    loss = matter.loss
    step = skill.steps[skill.index_of(loss.step)]
    return (
        f"{skill.name} is seen less than before on {loss.days} days: {_counts(matter, days)}. "
        f"Before, “{step.text.rstrip('.')}” worked {in_ten(loss.before_in_ten / 10)} times."
    )


def loss_to_do(matter: LossMatter) -> tuple[str, ...]:
    """What to do about it, one sentence each."""
    if matter.stage == "after_illness" and matter.ill is not None:
        return (
            f"The child was ill until {_day(matter.ill.last)}: it may be that, and pass.",
            "Ask the family whether the child is well again. Until then it is not raised.",
            "If something else worries you or the family, do not wait: ask the doctor now.",
        )
    return (
        "Talk with the family soon: do they see it too, since when, did anything happen?",
        "Ask them to tell the child's doctor soon. This program cannot say why, and you need "
        "not either.",
        "If something worries you or the family now, do not wait: follow the child's emergency "
        "plan, or ring the doctor.",
        "Until you close this, the step stays and plans add nothing new that jumps or tires.",
    )


def loss_fact(matter: LossMatter, skill: Skill, days: Sequence[DaySeen]) -> str:
    """The same as one fact for a session note, to be edited."""
    return f"{loss_seen(matter, skill, days)} To be talked about with the family."


def _counts(matter: LossMatter, days: Sequence[DaySeen]) -> str:
    low = [day for day in days if matter.loss.since <= day.date <= matter.loss.last]
    said = [f"{day.alone} of {day.tries} alone on {_day(day.date)}" for day in low[-SHOWN:]]
    return ", ".join(said)


def _day(day: dt.date) -> str:
    return f"{day.day} {day:%B}"
