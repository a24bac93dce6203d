"""Real parts: none takes longer to begin than it is played."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.checking.fault import Fault
from tapeline.checking.scene import Scene
from tapeline.checking.timing import practice_s


def parts_are_real(scene: Scene) -> Iterator[Fault]:
    """As much practice as explaining, setting up and changing; a course over all stations."""
    practice = scene.book.practice
    for block in scene.blocks:
        name = block[0]["part"]
        doing = sum(practice_s(part) for part in block)
        rest = sum(part["seconds"] for part in block) - doing
        if name not in practice.not_real and 0 <= doing < practice.doing_to_the_rest * rest:
            yield Fault(
                kind="small_part",
                activity=block[0]["activity"],
                sentence=f"{name} ({block[0]['activity']}) is played for {doing} s and takes "
                f"{rest} s to explain, set up and change.",
            )


def practice_is_long_enough(scene: Scene) -> Iterator[Fault]:
    """A part that asks for minutes of doing has them; the time that is left sets how many."""
    if not scene.parts:
        return
    left = scene.request["seconds"] - scene.parts[0]["start_s"]
    wanted = scene.book.practice.shape_of(left).doing_s
    for block in scene.blocks:
        name, doing = block[0]["part"], sum(practice_s(part) for part in block)
        least = wanted.get(name, 0)
        if 0 <= doing < least:
            yield Fault(
                kind="small_part",
                activity=block[0]["activity"],
                sentence=f"{name} ({block[0]['activity']}) is played for {doing} s; "
                f"{float(least):g} s at least.",
            )
