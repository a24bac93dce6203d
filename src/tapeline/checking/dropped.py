"""Goals that a session does not serve: each is named, and what is said of it holds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from tapeline.checking.amounts import WITH_TRIALS, tries_of
from tapeline.checking.fault import Fault
from tapeline.checking.scene import Scene


def no_goal_is_forgotten(scene: Scene) -> Iterator[Fault]:
    """A goal has tries in the session, or stands among those that wait; never both."""
    named = Counter((row["child"], row["goal"]) for row in scene.plan["dropped"])
    tries = tries_of(scene)
    for person in scene.people:
        for goal in person.record["goals"]:
            found = tries[person.id][goal["skill"]]
            times = named[(person.id, goal["id"])]
            if times != (not found):
                yield _fault(
                    person.id,
                    f"{goal['id']} of {person.id} has {found} tries and stands {times} times "
                    "among the goals that wait.",
                )


def what_is_said_of_a_goal_holds(scene: Scene) -> Iterator[Fault]:
    """A goal that waits is somebody's, of the skill that is said, and waits for what is so."""
    goals = {
        (person.id, goal["id"]): goal for person in scene.people for goal in person.record["goals"]
    }
    for row in scene.plan["dropped"]:
        goal = goals.get((row["child"], row["goal"]))
        for found in _wrong(row, goal, scene):
            yield _fault(row["child"], f"The goal {row['goal']} of {row['child']} waits, {found}.")


def _wrong(row: dict[str, Any], goal: dict[str, Any] | None, scene: Scene) -> Iterator[str]:
    if goal is None:
        yield "and no child who takes part has it"
        return
    said = row["reason"]["values"]
    if said.get("skill") != goal["skill"]:
        yield f"as one of {said.get('skill')}, and is one of {goal['skill']}"
    if row["back"] is not None and row["back"] <= scene.request["date"]:
        yield f"and comes back on {row['back']}, which is not after the session"
    part = said.get("part")
    if part in {played["part"] for played in scene.parts}:
        yield f"because there is no {part}, and there is one"
    elif part is not None and part not in parts_of(goal["skill"], scene):
        yield f"because there is no {part}, where no activity of its skill stands"


def parts_of(skill: str, scene: Scene) -> set[str]:
    """Parts in which an activity of a skill may stand and counts tries."""
    return {
        use
        for activity in scene.library.activities.values()
        if activity.skill == skill
        for use in activity.uses
        if use in WITH_TRIALS
    }


def _fault(child: str, sentence: str) -> Fault:
    return Fault(kind="dropped", child=child, sentence=sentence)
