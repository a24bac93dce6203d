"""Her wishes: what is locked is played, what is left out is not."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.checking.fault import Fault
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
