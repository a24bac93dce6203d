"""Her own things laid over the shipped library, so that an update never overwrites them.

Four kinds, each in plain values as a caseload file holds them: *materials* and *activities* of
her own, *versions* she added to a shipped activity, and *changes*, one for each line of a
shipped activity that says something else with her. A change remembers what the line said when
she wrote it. One whose line is no longer there is kept and does nothing.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from tapeline.activities.build import build_activity, build_material, build_version
from tapeline.activities.library_files import short_hash
from tapeline.activities.lines import ACTIVITY_FIELDS, IN_SPANISH, READ, line_of, tail_of
from tapeline.activities.models import (
    LINES_IN_SPANISH,
    Activity,
    Library,
    Material,
    OwnSpanish,
    Version,
)
from tapeline.activities.own_spanish import row_of_spanish
from tapeline.activities.records import Faults
from tapeline.activities.spanish import shipped_fingerprint
from tapeline.errors import ManyFaults

MOST_LETTERS = 600
Row = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class Hers:
    """All that lies on top, as rows of plain values."""

    activities: tuple[Row, ...] = ()
    materials: tuple[Row, ...] = ()
    versions: tuple[Row, ...] = ()
    changes: tuple[Row, ...] = ()

    def __bool__(self) -> bool:
        """Whether there is anything."""
        return any((self.activities, self.materials, self.versions, self.changes))


def overlay(shipped: Library, hers: Hers, *, may_replace: bool = False) -> Library:
    """The library in force: the shipped one with hers on top.

    Parameters
    ----------
    may_replace
        A version of hers takes the place of a shipped one with its id, as happens when an
        update brings one; else that is a fault.

    Returns
    -------
    Library
        Its `version` is a hash of the shipped one's and of hers.

    Raises
    ------
    ManyFaults
        Something of hers cannot be used; holds every fault.
    """
    if not hers:
        return shipped
    faults = Faults()
    _refuse_unfit_texts(hers, faults)
    library = _with_materials(shipped, hers.materials, faults)
    library = _with_activities(library, hers.activities, faults)
    library = _with_versions(library, hers.versions, faults, may_replace=may_replace)
    library = _with_changes(library, hers.changes, faults)
    faults.refuse("Your own activities")
    rows = json.dumps(
        [[dict(row) for row in part] for part in _parts(hers)], sort_keys=True, default=str
    )
    return replace(library, version=short_hash(shipped.version, rows))


def usable(shipped: Library, hers: Hers) -> tuple[Library, tuple[Row, ...]]:
    """The library with as much of hers as can be used, and the rows that cannot.

    For what is on file already: an update of the program may take away what a row of hers
    names, and then that row alone is set aside.
    """
    try:
        return overlay(shipped, hers, may_replace=True), ()
    except ManyFaults:
        kept, aside = Hers(), []
        for name in ("materials", "activities", "versions", "changes"):
            for row in getattr(hers, name):
                more = replace(kept, **{name: (*getattr(kept, name), row)})
                try:
                    overlay(shipped, more, may_replace=True)
                except ManyFaults:
                    aside.append(row)
                else:
                    kept = more
        return overlay(shipped, kept, may_replace=True), tuple(aside)


def applies(change: Row, shipped: Library) -> bool:
    """Whether the line of a change is there."""
    activity = shipped.activities.get(str(change.get("activity")))
    if activity is None:
        return False
    line = line_of(activity, str(change.get("version", "")), str(change.get("field", "")))
    return line is not None


def changed_activity(activity: Activity, changes: Iterable[Row], faults: Faults) -> Activity:
    """An activity with changed lines; each is checked as if it stood in the library."""
    rows = list(changes)
    ours = [row for row in rows if not row.get("version")]
    own = {row["field"]: row["now"] for row in ours}
    made = []
    for version in activity.versions:
        lines = [row for row in rows if row.get("version") == tail_of(version)]
        made.append(_changed_version(version, lines, faults) if lines else version)
    kept = {name: own[name] for name in ACTIVITY_FIELDS if name in own}
    block = {
        **_plain(activity),
        **kept,
        "spanish": _spanish_with(activity.spanish, ours),
        "versions": [version for version in made if version],
        "own_words": tuple(dict.fromkeys((*activity.own_words, *own_words_of(rows)))),
        "shipped_english": shipped_fingerprint(activity),
    }
    return faults.record(Activity, block, f"Your changes to {activity.id}") or activity


def own_words_of(changes: Iterable[Row]) -> tuple[str, ...]:
    """Which lines that families read are hers: the end of a version's id, a stroke, the line."""
    read = [row for row in changes if row["field"] in LINES_IN_SPANISH]
    return tuple(dict.fromkeys(f"{row.get('version', '')}/{row['field']}" for row in read))


def _spanish_with(before: OwnSpanish | None, rows: Iterable[Row]) -> dict[str, Any] | None:
    """Her Spanish with the lines of some changes."""
    block = row_of_spanish(before) or {"lines": {}, "english": {}, "read": ""}
    for row in rows:
        name = str(row["field"]).removeprefix(IN_SPANISH)
        if row["field"] == READ:
            block["read"] = row["now"]
        elif name != row["field"]:
            block["lines"][name] = row["now"]
            block["english"][name] = row.get("english", "")
    return block if block["lines"] or block["read"] else None


def _changed_version(version: Version, lines: list[Row], faults: Faults) -> Version | None:
    block: dict[str, Any] = asdict(version)
    block["spanish"] = _spanish_with(version.spanish, lines)
    for row in lines:
        name = str(row["field"])
        if name.startswith(IN_SPANISH):
            continue
        if name.startswith("adult."):
            block["adult"] = {**block["adult"], name.partition(".")[2]: row["now"]}
        elif name == "touches":
            block["touches"] = list(dict.fromkeys([*version.touches, *row["now"]]))
        else:
            block[name] = row["now"]
    return faults.record(Version, block, f"Your changes to {version.id}")


def _plain(activity: Activity) -> dict[str, Any]:
    return {name: getattr(activity, name) for name in Activity.__dataclass_fields__}


def _parts(hers: Hers) -> tuple[tuple[Row, ...], ...]:
    return (hers.activities, hers.materials, hers.versions, hers.changes)


def _with_materials(library: Library, rows: Iterable[Row], faults: Faults) -> Library:
    """Her materials, and hers among the substitutes of what it stands in for."""
    materials = dict(library.materials)
    for place, row in enumerate(rows, start=1):
        block = dict(row)
        name, where = str(block.pop("id", "?")), f"own material {place}"
        stands_in_for = faults.rows(block.pop("stands_in_for", None), where)
        made = build_material(name, block, where, faults)
        if made is None:
            continue
        if name in library.materials:
            faults.add(where, f"{name} is a shipped material.", name="id", hint="Use another id.")
            continue
        _refuse_landing(made, where, faults)
        materials[name] = made
        for other in stands_in_for:
            known = materials.get(str(other))
            if known is None:
                faults.add(where, f"{name} stands in for {other}, which nobody knows.")
            else:
                materials[known.id] = replace(known, substitutes=(*known.substitutes, name))
    for material in materials.values():
        for other in material.substitutes:
            if other not in materials:
                faults.add(material.id, f"it has the substitute {other}, which nobody knows.")
    return replace(library, materials=materials)


def _refuse_landing(material: Material, where: str, faults: Faults) -> None:
    if "landing" in material.functions:
        faults.add(
            where,
            f"{material.id} is called a landing; what a thing absorbs is not known.",
            name="functions",
            hint="Leave landing out.",
        )


def _with_activities(library: Library, rows: Iterable[Row], faults: Faults) -> Library:
    made = []
    for place, row in enumerate(rows, start=1):
        where = f"own activity {place}"
        named = row.get("skill")
        if named is not None and named not in library.skills:
            _unknown_skill(where, str(named), library, faults)
            continue
        skill = library.skills[str(named)] if named is not None else None
        activity = build_activity(row, where, faults, skill=skill)
        if activity is not None:
            _refuse_unknown_things(activity.versions, where, library, faults)
            is_shipped = activity.id in library.activities
            tails = tuple(tail_of(version) for version in activity.versions)
            made.append(replace(activity, own_words=("", *tails)) if is_shipped else activity)
    faults.same_id(((activity.id, "your own activities") for activity in made), "activity")
    return _with(library, made)


def _unknown_skill(where: str, named: str, library: Library, faults: Faults) -> None:
    faults.add(
        where,
        f"it names the skill {named}, which the library does not have.",
        name="skill",
        hint=f"Choose one of {', '.join(sorted(library.skills))}.",
    )


def _with_versions(
    library: Library, rows: Iterable[Row], faults: Faults, *, may_replace: bool
) -> Library:
    """Versions she added; one whose activity is gone is kept on file and left out here."""
    for place, row in enumerate(rows, start=1):
        block, where = dict(row), f"own version {place}"
        block.pop("before", None)
        activity = library.activities.get(str(block.pop("activity", "?")))
        if activity is None:
            continue
        made = build_version(block, where, faults, activity=activity.id, common={})
        if made is None or not _fits_progression(made, activity, where, library, faults):
            continue
        _refuse_unknown_things((made,), where, library, faults)
        others = tuple(one for one in activity.versions if one.id != made.id)
        if len(others) != len(activity.versions) and not may_replace:
            faults.add(where, f"{made.id} is there already.", hint="Give it another variant.")
        library = _with(library, [_with_version(activity, others, made)])
    return library


def _with_version(activity: Activity, others: tuple[Version, ...], made: Version) -> Activity:
    """The activity with a version of hers, of which there is no shipped Spanish."""
    return replace(
        activity,
        versions=(*others, made),
        own_words=tuple(dict.fromkeys((*activity.own_words, tail_of(made)))),
        shipped_english=shipped_fingerprint(activity),
    )


def _fits_progression(
    version: Version, activity: Activity, where: str, library: Library, faults: Faults
) -> bool:
    skill = library.skills.get(activity.skill) if activity.skill else None
    known = [step.id for step in skill.steps] if skill else [None]
    if version.step in known:
        return True
    faults.add(
        where,
        f"{version.id} names the step {version.step}, which {activity.name} does not have.",
        name="step",
        hint=f"Choose one of {', '.join(str(step) for step in known)}.",
    )
    return False


def _with_changes(library: Library, rows: Iterable[Row], faults: Faults) -> Library:
    by_activity: dict[str, list[Row]] = {}
    for row in rows:
        if applies(row, library):
            by_activity.setdefault(str(row["activity"]), []).append(row)
    made = [
        changed_activity(library.activities[name], own, faults) for name, own in by_activity.items()
    ]
    return _with(library, made)


def _with(library: Library, made: Iterable[Activity]) -> Library:
    more = {activity.id: activity for activity in made}
    return replace(library, activities={**library.activities, **more})


def _refuse_unknown_things(
    versions: Iterable[Version], where: str, library: Library, faults: Faults
) -> None:
    needed = {
        (version.activity, thing)
        for version in versions
        for need in version.things
        for thing in need.any_of
    }
    for activity, thing in sorted(needed):
        if thing not in library.materials:
            faults.add(where, f"{activity} needs {thing}, which nobody knows.", name="things")


def _refuse_unfit_texts(hers: Hers, faults: Faults) -> None:
    """Texts too long to be read by anybody, and signs of another language than plain words."""
    for part in _parts(hers):
        for row in part:
            whose = str(row.get("id") or row.get("activity") or "?")[:80]
            longest = max(map(len, texts_in(row)), default=0)
            if longest > MOST_LETTERS:
                faults.add(
                    whose,
                    f"it has a text of {longest} letters.",
                    hint=f"Keep every text to {MOST_LETTERS} letters.",
                )
            elif part is not hers.activities and any(_has_sign(text) for text in texts_in(row)):
                faults.add(whose, "a text holds a < or >.", hint="Write plain text.")


def _has_sign(text: str) -> bool:
    return "<" in text or ">" in text


def texts_in(found: object) -> Iterator[str]:
    """Every text in a row of plain values, wherever it stands."""
    if isinstance(found, str):
        yield found
    elif isinstance(found, Mapping):
        for value in found.values():
            yield from texts_in(value)
    elif isinstance(found, list | tuple):
        for value in found:
            yield from texts_in(value)
