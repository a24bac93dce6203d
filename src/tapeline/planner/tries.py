"""How many tries a plan has, child by child."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tapeline.activities.models import PARTS_WITH_TRIALS, Library, Version
from tapeline.planner.plan import ChildPlan, PartPlan


def tries_planned(
    parts: Iterable[PartPlan], library: Library
) -> Iterator[tuple[ChildPlan, Version, int]]:
    """Each child's row in the parts that make tries: its version, and its tries in all rounds."""
    for part in parts:
        if part.part in PARTS_WITH_TRIALS and library.skill_of(part.activity) is not None:
            for row in part.children:
                version = library.find_version(row.version)
                yield row, version, row.amount * part.rounds // version.try_size
