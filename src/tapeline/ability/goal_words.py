"""What is believed of a goal, in plain English: whole numbers of ten, never more."""

from __future__ import annotations

from tapeline.ability.goal import GoalForecast

NOT_ENOUGH = "Not enough seen yet to say whether this goal is met."


def goal_in_words(found: GoalForecast | None) -> str:
    """At most three sentences: whether it is met, by its date, and what would settle it.

    `found` is None where too little was seen.
    """
    if found is None:
        return NOT_ENOUGH
    said = [_now(found)]
    if found.by_date is not None and not found.is_level_reached:
        said.append(_by_date(found))
    said.append(_settle(found))
    return " ".join(one for one in said if one)


def in_ten(chance: float) -> str:
    """``about 7 in 10``; the ends are said as less or more than one in ten."""
    tenth = round(10 * chance)
    if tenth <= 0:
        return "less than 1 in 10"
    return "more than 9 in 10" if tenth >= 10 else f"about {tenth} in 10"


def _now(found: GoalForecast) -> str:
    now = f"Tested now, it would come out {in_ten(found.met_now)} times"
    if found.is_level_reached:
        return f"Very likely met: the level is reached. {now}."
    if not found.is_step_seen:
        return f"Not enough seen yet at this step to say whether it is met. {now}."
    if found.is_nearly_said:
        return f"It may be met: another day like the last would say so. {now}."
    return f"Not met yet, as far as seen. {now}."


def _by_date(found: GoalForecast) -> str:
    if not found.sessions_left:
        return "No session is left before its date at this pace."
    left = found.sessions_left
    sessions = "1 more session" if left == 1 else f"{left} more sessions"
    chance = in_ten(found.by_date or 0.0)
    return (
        f"By its date, after {sessions}, it will have come out once {chance} times, luck included."
    )


def _settle(found: GoalForecast) -> str:
    if found.is_level_reached or found.is_nearly_said or not found.is_step_seen:
        return ""
    if found.days_to_settle == 0:
        return "Enough was seen to say so."
    if found.days_to_settle is None:
        return "The level lies close to what the goal asks: many more days would be needed."
    days = "1 more day" if found.days_to_settle == 1 else f"{found.days_to_settle} more days"
    return f"About {days} would likely settle it; more tries on one day tell little."
