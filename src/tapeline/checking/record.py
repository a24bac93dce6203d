"""What is on record of a child: steps tried, the step in hand, the help it was last given."""

from __future__ import annotations

from tapeline.checking.people import Person
from tapeline.checking.scene import Scene


def steps_tried(child: str, scene: Scene) -> set[str]:
    """Steps with a trial on record."""
    return {trial["step"] for trial in scene.trials.get(child, ())}


def steps_begun(person: Person, scene: Scene) -> dict[str, int]:
    """By skill, how many steps lie below the highest one with a start or a trial."""
    known = {start["step"] for start in person.record["skills"]}
    known |= steps_tried(person.id, scene)
    reached = {
        skill: [place for place, step in enumerate(order) if step in known]
        for skill, order in scene.library.steps.items()
    }
    return {skill: max(places) for skill, places in reached.items() if places}


def last_help(person: Person, step: str, scene: Scene) -> str | None:
    """The help a child was last given at a step, or None where it was never tried."""
    given = [trial["help"] for trial in scene.trials.get(person.id, ()) if trial["step"] == step]
    return given[-1] if given else None
