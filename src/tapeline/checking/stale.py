"""Fingerprints: whether the plan was made from this caseload and these rules."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from typing import Any

from tapeline.checking.fault import Fault
from tapeline.checking.scene import Scene, home_of

CHANGED = {
    "precautions": "precautions",
    "goals": "goals or starting steps",
    "home": "home",
    "history": "trials or family answers",
}


def children_are_as_they_were(scene: Scene) -> Iterator[Fault]:
    """Each child's precautions, goals, home and history are those the plan was made from."""
    made_from = scene.plan["made_from"]["children"]
    children = {child["id"]: child for child in scene.caseload["children"]}
    coming = {person.id for person in scene.people}
    for child in sorted(coming - set(made_from)):
        yield _stale(child, f"was made without {child}")
    for child in sorted(set(made_from) & set(children)):
        now = fingerprints_of(scene.caseload, children[child])
        for part, words in CHANGED.items():
            if made_from[child][part] != now[part]:
                yield _stale(child, f"was made before {child}'s {words} changed")


def the_place_is_as_it_was(scene: Scene) -> Iterator[Fault]:
    """The group and its room are those the plan was made from."""
    if scene.plan["made_from"]["place"] != fingerprint([scene.group, scene.room]):
        yield _stale(None, f"was made before group {scene.group['id']} or its room changed")


def the_rules_are_as_they_were(scene: Scene) -> Iterator[Fault]:
    """The rules are of the date the plan was made by."""
    found = scene.plan["made_from"]["rules"]
    if found != scene.book.date:
        yield _stale(None, f"was made by the rules of {found}; those of {scene.book.date} hold")


def fingerprint(value: object) -> str:
    """First 12 hex digits of the SHA-256 of a value as canonical JSON."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def fingerprints_of(caseload: dict[str, Any], child: dict[str, Any]) -> dict[str, str]:
    """What a plan is made from, for one child."""

    def own(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
        return [row for row in rows if row["child"] == child["id"]]

    return {
        "precautions": fingerprint([child["precautions"], child["gets_about"], child["born"]]),
        "goals": fingerprint(
            [child["goals"], child["skills"], *([child["band"]] if child["band"] else [])]
        ),
        "home": fingerprint(home_of(caseload, child)),
        "history": fingerprint(
            [
                own(caseload["trials"]),
                own(caseload["family_answers"]),
                *(child[name] for name in ("ill", "loss_answers") if child[name]),
            ]
        ),
    }


def _stale(child: str | None, what: str) -> Fault:
    return Fault(kind="stale", child=child, sentence=f"The plan {what}: plan again.")
