"""The clock of a plan: parts end to end, practice time, each child's time, changes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tapeline.checking.fault import Fault
from tapeline.checking.scene import Played, Scene

OLDER_FROM_MONTHS = 60


def parts_follow_each_other(scene: Scene) -> Iterator[Fault]:
    """Parts begin at 0 and follow each other without gap or overlap.

    Those that were planned while the session ran begin when that was.
    """
    again = scene.request["played"]
    expected = again["seconds"] if again else 0
    for part in scene.ahead.parts:
        if part["start_s"] != expected:
            yield Fault(
                kind="gap",
                activity=part["activity"],
                sentence=f"{part['part']} ({part['activity']}) begins at {part['start_s']} s; "
                f"what is before it ends at {expected} s.",
            )
        expected = part["start_s"] + part["seconds"]


def parts_fit_the_session(scene: Scene) -> Iterator[Fault]:
    """The seconds of all parts are at most those of the session."""
    total = sum(part["seconds"] for part in scene.ahead.parts)
    again = scene.request["played"]
    total += again["seconds"] if again else 0
    if total > scene.request["seconds"]:
        yield Fault(
            kind="too_long",
            sentence=f"The parts take {total} s; the session has {scene.request['seconds']} s.",
        )


def practice_time_is_there(scene: Scene) -> Iterator[Fault]:
    """Explaining, setting up and changing leave a part no less than 0 seconds."""
    for part in scene.parts:
        pieces = (part["explain_s"], part["setup_s"], part["change_s"])
        if practice_s(part) < 0 or min(pieces) < 0:
            yield Fault(
                kind="no_practice_time",
                activity=part["activity"],
                sentence=f"{part['part']} ({part['activity']}) has {part['seconds']} s, of which "
                f"{pieces[0]} explaining, {pieces[1]} setting up and {pieces[2]} changing.",
            )


def children_have_the_time(scene: Scene) -> Iterator[Fault]:
    """A child's units fit the practice time times the child's share of it."""
    for one in scene.played:
        if practice_s(one.part) < 0:
            continue
        takes = one.units * seconds_each(one, scene)
        has = practice_s(one.part) * share(one, scene)
        if takes > has:
            yield Fault(
                kind="child_time",
                child=one.person.id,
                activity=one.activity.id,
                sentence=f"{one.words} takes {float(takes):g} s for {one.units} "
                f"{one.version.unit}; the child's share of the part is {float(has):.5g} s.",
            )


def seconds_each(one: Played, scene: Scene) -> Fraction:
    """Seconds one unit takes the child: as she timed it at that age, else as the library says.

    Of several timings the middle one holds; one of no child holds for both ages.
    """
    is_young = one.person.age_months < OLDER_FROM_MONTHS
    born = {child["id"]: child["born"] for child in scene.caseload["children"]}
    timed: list[Fraction] = sorted(
        Fraction(str(row["seconds"])) / row["units"]
        for row in scene.caseload["timings"]
        if row["version"] == one.version.id
        and (row["child"] not in born or _is_young(born[row["child"]], row["date"]) == is_young)
    )
    if not timed:
        return one.version.seconds_each(one.person.age_months)
    half = len(timed) // 2
    return timed[half] if len(timed) % 2 else (timed[half - 1] + timed[half]) / 2


def _is_young(born: str, on: str) -> bool:
    """Whether a child of this birth month is younger than five on a date."""
    year, month = (int(part) for part in born.split("-"))
    then_year, then_month = (int(part) for part in on.split("-")[:2])
    return 12 * (then_year - year) + then_month - month < OLDER_FROM_MONTHS


def changes_are_long_enough(scene: Scene) -> Iterator[Fault]:
    """Between two parts there is time to change; inside a course and at the end there is none."""
    young = any(person.age_months < 60 for person in scene.people)
    least = scene.book.change_young_s if young else scene.book.change_older_s
    for part, after in zip(scene.parts, [*scene.parts[1:], None], strict=True):
        found = part["change_s"]
        at_the_end = after is None
        inside = after is not None and part["part"] == after["part"] == "course"
        if (at_the_end or inside) and found:
            where = "after the last part" if at_the_end else "inside the course"
            sentence = f"{part['activity']} has {found} s to change {where}, where none is needed."
        elif not (at_the_end or inside) and found < least:
            sentence = (
                f"{part['part']} ({part['activity']}) has {found} s to change; {least} s at least."
            )
        else:
            continue
        yield Fault(kind="change", activity=part["activity"], sentence=sentence)


def explaining_is_long_enough(scene: Scene) -> Iterator[Fault]:
    """Each part is explained, a course once for all its stations."""
    for block in scene.blocks:
        found = sum(part["explain_s"] for part in block)
        if found < scene.book.explain_s:
            yield Fault(
                kind="explain",
                activity=block[0]["activity"],
                sentence=f"{block[0]['part']} ({block[0]['activity']}) has {found} s of "
                f"explaining; {scene.book.explain_s} s at least.",
            )


def practice_s(part: dict[str, int]) -> int:
    """Seconds of a part in which children practise."""
    return part["seconds"] - part["explain_s"] - part["setup_s"] - part["change_s"]


def share(one: Played, scene: Scene) -> Fraction:
    """The share of the practice time a child is at the activity."""
    lanes = one.activity.lanes
    if one.person.place != "room" or lanes <= 0:
        return Fraction(1)
    return min(Fraction(1), Fraction(lanes, max(1, scene.crowd(one.part["part"]))))
