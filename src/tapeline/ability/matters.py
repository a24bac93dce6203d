"""Whether a fall at a skill is to be raised with her, asked about first, or was closed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from tapeline.ability.loss import SkillLoss, find_loss, loss_values
from tapeline.ability.replay import DatedTrial
from tapeline.activities.models import Skill
from tapeline.caseload.people import Child, Illness

Stage = Literal["after_illness", "raised"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LossMatter:
    """A fall that she has not closed.

    After an illness it asks first: `ill` is that illness, and the stage is `after_illness`
    until she says that the child is well again or the weeks of grace are over.
    """

    loss: SkillLoss
    stage: Stage
    ill: Illness | None = None


def loss_matter(
    skill: Skill,
    child: Child,
    trials: Sequence[DatedTrial],
    *,
    on: dt.date,
    levels: Sequence[str],
) -> LossMatter | None:
    """The open matter of one child at one skill on a date, or None.

    Parameters
    ----------
    trials
        Rows of this child in the order of recording, that the filter can read.
    """
    loss = find_loss(skill, trials, on=on, levels=levels, after=_closed(child, skill, on))
    if loss is None:
        return None
    ill = _illness_behind(child, loss)
    asks = ill is not None and not _said_well(child, skill, ill, on) and _in_grace(ill, on)
    return LossMatter(loss=loss, stage="after_illness" if asks else "raised", ill=ill)


def _closed(child: Child, skill: Skill, on: dt.date) -> dt.date | None:
    day = child.closed_on(skill.id)
    return day if day is not None and day <= on else None


def _illness_behind(child: Child, loss: SkillLoss) -> Illness | None:
    """The last illness during which, or soon after which, the fall began."""
    grace = dt.timedelta(weeks=loss_values()["illness"]["weeks"])
    found = [one for one in child.ill if one.first <= loss.since <= one.last + grace]
    return max(found, key=lambda one: one.last, default=None)


def _said_well(child: Child, skill: Skill, ill: Illness, on: dt.date) -> bool:
    return any(
        one.skill == skill.id and one.says == "well_again" and ill.first <= one.date <= on
        for one in child.loss_answers
    )


def _in_grace(ill: Illness, on: dt.date) -> bool:
    """Not for ever: a fall that stays down some weeks after the illness is raised anyway."""
    return on <= ill.last + dt.timedelta(weeks=loss_values()["illness"]["weeks"])
