"""Her wishes: what is locked is played; what is left out, today or for longer, is not."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.checking.fault import Fault
from tapeline.checking.own import is_left_out
from tapeline.checking.scene import Scene


def locked_activities_are_played(scene: Scene) -> Iterator[Fault]:
    """A lock is kept, in its part where it names one."""
    played = {(part["activity"], part["part"]) for part in scene.parts}
    anywhere = {activity for activity, _ in played}
    for lock in scene.request["wishes"]["locked"]:
        activity, part = lock["activity"], lock["part"]
        if (part is None and activity in anywhere) or (activity, part) in played:
            continue
        where = f" in {part}" if part else ""
        yield Fault(
            kind="locked",
            activity=activity,
            sentence=f"{activity} is locked{where} and is not played{' there' if part else ''}.",
        )


def left_out_activities_are_not_played(scene: Scene) -> Iterator[Fault]:
    """What she left out stays out."""
    left_out = set(scene.request["wishes"]["left_out"])
    for part in scene.parts:
        if part["activity"] in left_out:
            yield Fault(
                kind="left_out",
                activity=part["activity"],
                sentence=f"{part['activity']} is left out and stands in {part['part']}.",
            )


def nobody_plays_what_is_left_out_for_longer(scene: Scene) -> Iterator[Fault]:
    """What is left out for good, for a child or for a home stays out of every plan."""
    people = {person.id: person for person in scene.people}
    for part in scene.parts:
        for row in part["children"]:
            person = people.get(row["id"])
            if person and is_left_out(scene.caseload, part["activity"], person):
                yield Fault(
                    kind="left_out",
                    child=person.id,
                    activity=part["activity"],
                    sentence=f"{person.id} plays {part['activity']} in {part['part']}, "
                    "which is left out.",
                )
