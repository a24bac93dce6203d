"""What the filter says, in plain English: whole numbers of ten, and how sure it is."""

from __future__ import annotations

from collections.abc import Mapping

from tapeline.ability.next_step import StepProposal
from tapeline.ability.outlook import StepOutlook
from tapeline.ability.seen import DaySeen
from tapeline.ability.settings import Band, usual_band
from tapeline.activities.models import Skill


def chance_in_words(step: StepOutlook, band: Band | None = None) -> str:
    """One sentence on one step: how often of ten, and between what.

    "Not enough seen yet" where there were no tries, or the interval is wider than the band.
    """
    low, high = round(10 * step.low), round(10 * step.high)
    if not step.tries:
        return "Not enough seen yet. No tries are on record; this is a first guess."
    if not step.is_known(band):
        return f"Not enough seen yet (likely between {low} and {high} in 10)."
    middle = round(10 * step.chance)
    if low == high:
        return f"Most days about {middle} in 10 at this step."
    return f"Most days about {middle} in 10 at this step (likely between {low} and {high})."


def place_in_words(skill: Skill, steps: Mapping[str, StepOutlook], band: Band | None = None) -> str:
    """One sentence on a whole progression: the hardest step that mostly works, and the next.

    Parameters
    ----------
    steps
        Outlook by step id of this skill.
    """
    band = band or usual_band()
    works = [step for step in skill.steps if steps[step.id].chance >= band.low]
    here = skill.steps.index(works[-1]) if works else 0
    told = [
        f"{_quoted(step.text)} about {round(10 * steps[step.id].chance)} in 10"
        for step in skill.steps[here : here + 2]
    ]
    if not any(steps[step.id].tries for step in skill.steps):
        return f"Not enough seen yet. A first guess is: {', then '.join(told)}."
    return f"Most days {', then '.join(told)}."


def day_in_words(day: DaySeen, level_names: Mapping[str, str]) -> str:
    """What was seen on a day: how many of how many alone, and the usual help."""
    sentence = f"{day.alone} of {day.tries} on their own"
    if day.help is None:
        return f"{sentence}."
    return f"{sentence}; the help needed was mostly: {level_names.get(day.help, day.help)}."


def proposal_in_words(proposal: StepProposal, skill: Skill, level_names: Mapping[int, str]) -> str:
    """One sentence why this step is proposed.

    Parameters
    ----------
    level_names
        Name of each prompt level, 1 = most help.
    """
    texts = {step.id: step.text for step in skill.steps}
    chance = f"about {proposal.values['chance_in_ten']} in 10"
    match proposal.code:
        case "in_the_band":
            return f"Stay here: {chance} expected, hard enough to learn from."
        case "ready_for_more":
            return f"One step up: {chance} expected."
        case "easier_first":
            return f"One step easier: {chance} expected."
        case "stay_close":
            return f"Stay here: {chance} expected, and another step would hardly help more."
        case "one_step_a_week":
            above = _quoted(texts[str(proposal.values["above"])])
            return f"One step a week: {chance} expected here, so the next step, {above}, can wait."
        case "top_of_the_steps":
            return f"The last step: {chance} expected. Add a step, or choose another skill."
        case "help_first":
            if "help_stays" in proposal.values:
                return f"The first step, with the help you give now. Alone {chance} expected."
            help_given = level_names[int(proposal.values["level"])]
            return f"The first step, with this help: {help_given}. Alone {chance} expected."
        case "ask_first":
            return (
                "Seen less than before on several days: the step stays until you decide. "
                "Talk with the family first."
            )
        case "gap":
            return _gap_in_words(proposal, chance, texts, level_names)
    raise ValueError(f"no sentence for {proposal.code}")


def _gap_in_words(
    proposal: StepProposal,
    chance: str,
    texts: Mapping[str, str],
    level_names: Mapping[int, str],
) -> str:
    above = _quoted(texts[str(proposal.values["next"])])
    level = proposal.values.get("level")
    if level is None:
        return f"{chance.capitalize()} expected, and the next step, {above}, is far off."
    help_given = level_names[int(level)]
    return (
        f"{chance.capitalize()} expected, and a gap follows: go on to {above} with this help "
        f"and change nothing else: {help_given}."
    )


def _quoted(text: str) -> str:
    return f"“{text.rstrip('.')}”"
