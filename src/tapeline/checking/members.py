"""Who has a row, where, at which version, in which part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from tapeline.checking.fault import Fault
from tapeline.checking.scene import Scene
from tapeline.checking.shapes import PARTS


def everybody_has_a_row(scene: Scene) -> Iterator[Fault]:
    """Every child who comes has one row in every part."""
    for part in scene.parts:
        rows = Counter(row["id"] for row in part["children"])
        for person in scene.people:
            if rows[person.id] == 1:
                continue
            kind = "row_twice" if rows[person.id] else "missing_row"
            count = f"{rows[person.id]} rows" if rows[person.id] else "no row"
            yield Fault(
                kind=kind,
                child=person.id,
                activity=part["activity"],
                sentence=f"{person.id} has {count} in {part['part']} ({part['activity']}).",
            )


def nobody_else_has_a_row(scene: Scene) -> Iterator[Fault]:
    """Those who are away, inactive or not in the group on the date have none."""
    coming = {person.id for person in scene.people}
    for part in scene.parts:
        for row in part["children"]:
            if row["id"] not in coming:
                yield Fault(
                    kind="not_a_member",
                    child=row["id"],
                    activity=part["activity"],
                    sentence=f"{row['id']} has a row in {part['part']} ({part['activity']}) "
                    f"but does not take part on {scene.on}.",
                )


def places_are_the_members(scene: Scene) -> Iterator[Fault]:
    """A row's place is the membership's."""
    places = {person.id: person.place for person in scene.people}
    for part in scene.parts:
        for row in part["children"]:
            place = places.get(row["id"], row["place"])
            if row["place"] != place:
                yield Fault(
                    kind="place",
                    child=row["id"],
                    activity=part["activity"],
                    sentence=f"{row['id']} is planned for {row['place']} in {part['part']} "
                    f"({part['activity']}), but takes part in {place}.",
                )


def versions_belong_to_the_activity(scene: Scene) -> Iterator[Fault]:
    """A row's version is one of the part's activity, counted in its unit."""
    for part in scene.parts:
        if part["activity"] not in scene.library.activities:
            continue
        for row in part["children"]:
            version = scene.library.version(row["version"])
            if version is None or version.activity != part["activity"]:
                found = f"version {row['version']}, which is not one of {part['activity']}"
            elif row["unit"] != version.unit:
                found = f"{row['unit']} of {version.id}, which counts {version.unit}"
            else:
                continue
            yield Fault(
                kind="version",
                child=row["id"],
                activity=part["activity"],
                sentence=f"{row['id']} has {found}.",
            )


def activities_stand_where_they_may(scene: Scene) -> Iterator[Fault]:
    """An activity is known and lists the part among its uses."""
    for part in scene.parts:
        activity = scene.library.activities.get(part["activity"])
        if activity is None or part["part"] not in activity.uses:
            known = f"serves {', '.join(activity.uses)}" if activity else "is not in the library"
            yield Fault(
                kind="use",
                activity=part["activity"],
                sentence=f"{part['activity']} stands in {part['part']} but {known}.",
            )


def parts_stand_in_order(scene: Scene) -> Iterator[Fault]:
    """Each part once and in order; the stations of a course side by side."""
    names = [block[0]["part"] for block in scene.blocks]
    for before, after in zip(scene.blocks, scene.blocks[1:], strict=False):
        if PARTS.index(after[0]["part"]) <= PARTS.index(before[0]["part"]):
            yield Fault(
                kind="order",
                activity=after[0]["activity"],
                sentence=f"{after[0]['part']} ({after[0]['activity']}) comes after "
                f"{before[0]['part']}.",
            )
    for block in scene.blocks:
        name = block[0]["part"]
        if name != "course" and (len(block) > 1 or names.count(name) > 1):
            yield Fault(
                kind="order",
                activity=block[-1]["activity"],
                sentence=f"{name} stands in the plan more than once.",
            )


def no_activity_twice(scene: Scene) -> Iterator[Fault]:
    """No activity is played twice in one session."""
    counts = Counter(part["activity"] for part in scene.parts)
    for activity, count in counts.items():
        if count > 1:
            yield Fault(
                kind="twice",
                activity=activity,
                sentence=f"{activity} is played {count} times in one session.",
            )
