"""Skills, activities and versions made from what the library's files hold."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from tapeline.activities.models import Activity, Material, Skill, Version
from tapeline.activities.records import Faults

STEP_APART = 1.2  # logits between two steps where the library gives no guess of its own
_KEPT_APART = ("all", "versions")
_ID = re.compile(r"[a-z0-9_]{1,60}")


def build_skill(found: object, where: str, faults: Faults) -> Skill | None:
    """A skill with its steps; a step without `difficulty` is 1.2 logits after the one before."""
    block = faults.block(found, where)
    here = f"{where}, skill {block.get('id', '?')}"
    steps = _with_difficulties(faults.rows(block.get("steps"), here), here, faults)
    return faults.record(Skill, {**block, "steps": steps}, here)


def _with_difficulties(steps: list[Any], where: str, faults: Faults) -> list[dict[str, Any]]:
    made = []
    guess = 0.0
    for place, found in enumerate(steps):
        step = faults.block(found, where)
        own = step.get("difficulty")
        if isinstance(own, (int, float)):
            guess = float(own)
        elif place:
            guess = round(guess + STEP_APART, 6)
        made.append({**step, "difficulty": guess if own is None else own})
    return made


def build_activity(
    found: object, where: str, faults: Faults, *, skill: Skill | None
) -> Activity | None:
    """An activity with its versions, what stands under `all` written into each of them."""
    block = faults.block(found, where)
    name = str(block.get("id", "?"))
    here = f"{where}, activity {name}"
    _check_id(name, here, faults)
    for text in _texts(block):
        if "<" in text or ">" in text:
            faults.add(here, f"{text[:40]!r} holds a < or >.", hint="Write plain text.")
        elif not text.replace("\n", "").isprintable():
            faults.add(
                here, f"{text[:40]!r} holds a sign that nobody can see.", hint="Type it anew."
            )
    common = faults.block(block.get("all", {}), f"{here}, all")
    rows = faults.rows(block.get("versions"), here)
    versions = [
        build_version(row, f"{here}, version {place}", faults, activity=name, common=common)
        for place, row in enumerate(rows, start=1)
    ]
    if not rows:
        faults.add(here, "it has no version.", hint="Write at least one version.")
    own = {key: value for key, value in block.items() if key not in _KEPT_APART}
    if skill is not None:
        own["skill"] = skill.id
    own.setdefault("skill", None)
    made = [version for version in versions if version is not None]
    _check_steps(made, here, faults, skill=skill)
    faults.same_id(((version.id, here) for version in made), "version")
    return faults.record(Activity, {**own, "versions": made}, here)


def build_version(
    found: object, where: str, faults: Faults, *, activity: str, common: Mapping[str, Any]
) -> Version | None:
    """One version: its own lines over the common ones, the adult's lines merged by name."""
    block = faults.block(found, where)
    if "id" in block or "activity" in block:
        faults.add(where, "the id of a version is made from its activity, step and variant.")
    merged = {**common, **block}
    if "adult" in common and "adult" in block:
        common_adult = faults.block(common["adult"], f"{where}, adult")
        merged["adult"] = {**common_adult, **faults.block(block["adult"], f"{where}, adult")}
    merged.setdefault("step", None)
    merged.setdefault("variant", "usual")
    if merged.get("move_parameters") is None:
        merged.pop("move_parameters", None)
    step = merged["step"]
    tail = str(step).split(".", 1)[-1] if step else "any"
    _check_id(str(merged["variant"]), where, faults)
    merged |= {"activity": activity, "id": f"{activity}.{tail}.{merged['variant']}"}
    return faults.record(Version, merged, f"{where} ({merged['id']})")


def build_material(name: str, found: object, where: str, faults: Faults) -> Material | None:
    """A thing a game may need, under its id."""
    here = f"{where}, {name}"
    block = {"may_contain_latex": "unknown", **faults.block(found, here), "id": name}
    return faults.record(Material, block, here)


def _check_id(name: str, where: str, faults: Faults) -> None:
    if not _ID.fullmatch(name):
        faults.add(
            where,
            f"{name[:40]!r} cannot be an id.",
            name="id",
            hint="Use small letters a to z, figures and underscores, at most 60.",
        )


def _check_steps(
    versions: Iterable[Version], where: str, faults: Faults, *, skill: Skill | None
) -> None:
    known = {step.id for step in skill.steps} if skill else set()
    for version in versions:
        if version.step is None and skill is None:
            continue
        if version.step not in known:
            whose = f"the skill {skill.id}" if skill else "this activity, which has no skill"
            faults.add(
                where,
                f"{version.id} names the step {version.step}, which is none of {whose}.",
                name="step",
                hint=f"Choose one of {', '.join(sorted(known))}." if known else "Leave step out.",
            )


def _texts(found: object) -> Iterable[str]:
    if isinstance(found, str):
        yield found
    elif isinstance(found, Mapping):
        for value in found.values():
            yield from _texts(value)
    elif isinstance(found, (list, tuple)):
        for value in found:
            yield from _texts(value)
