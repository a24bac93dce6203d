"""Which step to try next: the most useful one inside the guard rails, with a second choice."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from tapeline.ability.belief import Belief
from tapeline.ability.outlook import expected_telling, expected_usefulness, is_likely_too_hard
from tapeline.ability.settings import Band, ability_values, usual_band
from tapeline.activities.models import Skill, Step

Code = Literal[
    "in_the_band",
    "ready_for_more",
    "easier_first",
    "stay_close",
    "one_step_a_week",
    "gap",
    "top_of_the_steps",
    "help_first",
    "ask_first",
]
Value = str | int


@dataclass(frozen=True, kw_only=True)
class StepProposal:
    """The step proposed, the second choice, and why.

    Attributes
    ----------
    step, second
        Step ids; no second where the progression offers none.
    code
        Why, as a code; its sentence is made by `ability.words.proposal_in_words`.
    values
        What the sentence needs: `chance_in_ten` at the step; `level` (1 = most help) where
        help is to fill in, `next` for which step; `above` where a step has to wait;
        `help_stays` = 1 where the step changes and so the help does not.
    changes
        The one thing that changes: the set-up (another step), the help, or nothing yet.
    """

    step: str
    second: str | None
    code: Code
    values: dict[str, Value] = field(default_factory=dict)
    changes: Literal["nothing", "step", "help"] = "nothing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where a child stands at a skill: the step of the last day, and since when.

    `is_held` where the skill seems to be lost: the step then stays until she decides.
    """

    step: str
    since: dt.date | None = None
    is_held: bool = False


def next_step(
    skill: Skill,
    belief: Belief,
    standing: Standing,
    *,
    on: dt.date,
    band: Band | None = None,
) -> StepProposal:
    """The step to try next.

    Parameters
    ----------
    standing
        The step practised last (or her starting step), and the first day at it.
    band
        Chance of success to practise at, where it differs from the shipped one.

    Notes
    -----
    Highest expected usefulness over the belief; never a step likelier than not below 4 in
    10, unless even the first step is; one step at most in a week once two days were seen;
    stay unless the gain is worth it. Ties go to the easier step. In the first two sessions a
    step that tells more is preferred a little. Where the skill seems to be lost, the step
    stays whatever the numbers say, and an easier one is named as her choice.

    One thing changes at a time: help is proposed at the step in hand only.
    """
    band = band or usual_band()
    here = skill.index_of(standing.step)
    if standing.is_held:
        return _held(skill, belief, here)
    scores = _scores(skill, belief, band)
    fair = _not_too_hard(skill.steps, belief, band)
    allowed = [index for index in fair if index in _reach(len(scores), here, belief, standing, on)]
    if not allowed:
        allowed = [max(fair, default=0)]
    best = _most_useful(allowed, scores)
    chosen = _stay_if_close(best, here, allowed, scores)
    code, values = _why_this_one(skill.steps, belief, band, chosen)
    if code is None:
        free = _most_useful(fair, scores) if fair else best
        code = _why_not_another(chosen, best=best, free=free, here=here)
        if code == "one_step_a_week":
            values["above"] = skill.steps[chosen + 1].id
    if code == "help_first" and chosen != here:
        values["help_stays"] = 1  # the step changes now, the help once that was tried
    return StepProposal(
        step=skill.steps[chosen].id,
        second=_second(skill.steps, chosen, fair, scores),
        code=code,
        values=values,
        changes="step" if chosen != here else "help" if code == "help_first" else "nothing",
    )


def _held(skill: Skill, belief: Belief, here: int) -> StepProposal:
    steps = skill.steps
    near = here - 1 if here else 1
    return StepProposal(
        step=steps[here].id,
        second=steps[near].id if near < len(steps) else None,
        code="ask_first",
        values={"chance_in_ten": round(10 * belief.chance(steps[here].difficulty))},
    )


def _scores(skill: Skill, belief: Belief, band: Band) -> list[float]:
    """Usefulness of each step, 0 to 1; in the first sessions partly what a try there tells."""
    values = ability_values()["next_step"]
    found = [expected_usefulness(belief, step.difficulty, band.usefulness) for step in skill.steps]
    if belief.days >= values["free_sessions"]:
        return found
    share = values["share_of_telling"]
    telling = [expected_telling(belief, step.difficulty) for step in skill.steps]
    return [(1 - share) * one + share * other for one, other in zip(found, telling, strict=True)]


def _most_useful(places: Sequence[int], scores: Sequence[float]) -> int:
    return max(places, key=lambda place: (scores[place], -place))


def _not_too_hard(steps: Sequence[Step], belief: Belief, band: Band) -> list[int]:
    return [
        index
        for index, step in enumerate(steps)
        if not is_likely_too_hard(belief, step.difficulty, band)
    ]


def _reach(count: int, here: int, belief: Belief, standing: Standing, on: dt.date) -> range:
    """Steps that may come next: any at the start, then one down to one up, one up a week."""
    values = ability_values()["next_step"]
    if belief.days < values["free_sessions"]:
        return range(count)
    waited = standing.since is None or (on - standing.since).days >= values["days_between_steps"]
    return range(max(0, here - 1), min(count, here + (2 if waited else 1)))


def _stay_if_close(best: int, here: int, allowed: Sequence[int], scores: Sequence[float]) -> int:
    gain = ability_values()["next_step"]["stay_unless_gain"]
    if here in allowed and scores[best] - scores[here] <= gain:
        return here
    return best


def _second(
    steps: Sequence[Step], chosen: int, fair: Sequence[int], scores: Sequence[float]
) -> str | None:
    """The better neighbour that is not too hard, else the easier one, else the next."""
    near = [index for index in (chosen - 1, chosen + 1) if 0 <= index < len(steps)]
    fair_near = [index for index in near if index in fair]
    if fair_near:
        return steps[max(fair_near, key=lambda index: (scores[index], -index))].id
    return steps[near[0]].id if near else None


def _why_this_one(
    steps: Sequence[Step], belief: Belief, band: Band, chosen: int
) -> tuple[Code | None, dict[str, Value]]:
    """The progression's own reason: too hard from the start, at its top, or before a gap."""
    chance = belief.chance(steps[chosen].difficulty)
    values: dict[str, Value] = {"chance_in_ten": round(10 * chance)}
    if is_likely_too_hard(belief, steps[chosen].difficulty, band):
        return "help_first", values | {"level": _filling_level(belief, steps[chosen], band) or 1}
    if chance <= band.high:
        return None, values
    if chosen == len(steps) - 1:
        return "top_of_the_steps", values
    above = steps[chosen + 1]
    if belief.chance(above.difficulty) >= band.low:
        return None, values
    level = _filling_level(belief, above, band)
    return "gap", values | {"next": above.id} | ({"level": level} if level else {})


def _why_not_another(chosen: int, *, best: int, free: int, here: int) -> Code:
    if free > max(chosen, here):
        return "one_step_a_week"
    if chosen != best:
        return "stay_close"
    if chosen == here:
        return "in_the_band"
    return "ready_for_more" if chosen > here else "easier_first"


def _filling_level(belief: Belief, step: Step, band: Band) -> int | None:
    """The least help that brings a step into the band, or None."""
    for level in range(belief.values.on_their_own - 1, 0, -1):
        if band.low <= belief.chance(step.difficulty, level=level):
            return level
    return None
