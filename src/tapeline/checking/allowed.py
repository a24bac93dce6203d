"""Whether a child may do a version in a place, with these things and these people, on a date."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator

from tapeline.checking.fault import Fault
from tapeline.checking.library import Library, Material, Version
from tapeline.checking.people import Person, Spot
from tapeline.checking.rulebook import Rule
from tapeline.checking.scene import Played, Scene, number_wanted
from tapeline.checking.shapes import NOISES


def no_rule_blocks(scene: Scene) -> Iterator[Fault]:
    """A block holds unless what lifts it is on file; the things of the row count too."""
    for one in scene.played:
        touched = touched_by(one.version, one.row["things"], one.spot, scene.library)
        for rule in standing(scene.book.rules, touched, one.person, one.spot, scene.on):
            if rule.effect == "blocks":
                yield _fault(one, "rule", f"is blocked by rule {rule.id}: {rule.sentence}")


def flags_are_named(scene: Scene) -> Iterator[Fault]:
    """What only flags is said on the row, so that it reaches the paper."""
    for one in scene.played:
        touched = touched_by(one.version, one.row["things"], one.spot, scene.library)
        for rule in standing(scene.book.rules, touched, one.person, one.spot, scene.on):
            if rule.effect == "flags" and rule.id not in one.row["flags"]:
                yield _fault(one, "flag", f"does not carry the flag {rule.id}: {rule.sentence}")


def versions_run_there(scene: Scene) -> Iterator[Fault]:
    """A version is written for the room or for home, as the row needs."""
    for one in scene.played:
        if one.spot.kind not in one.version.where:
            yield _fault(one, "where", f"is written for {', '.join(one.version.where)} only.")


def floors_fit(scene: Scene) -> Iterator[Fault]:
    """The floor with its clear space fits the room or the home, either way round."""
    for one in scene.played:
        if not one.spot.has_floor(one.version.length_cm, one.version.width_cm):
            yield _fault(
                one,
                "too_small",
                f"takes {one.version.length_cm} by {one.version.width_cm} cm with its clear "
                f"space; {one.spot.name} is {one.spot.length_cm} by {one.spot.width_cm} cm.",
            )


def needs_have_things(scene: Scene) -> Iterator[Fault]:
    """Each need has a thing that serves it, is there, and is there often enough."""
    for one in scene.played:
        for sentence in _missing(one, scene):
            yield _fault(one, "thing", sentence)


def home_adults_have_hands(scene: Scene) -> Iterator[Fault]:
    """The adult at home has the hands the version needs."""
    for one in scene.played:
        hands = one.spot.hands
        if hands is not None and one.version.hands > hands:
            yield _fault(
                one, "hands", f"needs {one.version.hands} free hands; the adult has {hands}."
            )


def noise_fits(scene: Scene) -> Iterator[Fault]:
    """A version is no louder than the home bears."""
    for one in scene.played:
        if not _quiet_enough(one.version, one.spot):
            yield _fault(
                one,
                "noise",
                f"is {one.version.noise}; {one.spot.name} bears {one.spot.loudest} at most.",
            )


def ways_of_getting_about_are_served(scene: Scene) -> Iterator[Fault]:
    """A version serves the child's way of getting about."""
    for one in scene.played:
        way = one.person.record["gets_about"]
        if way not in one.version.gets_about:
            yield _fault(
                one, "gets_about", f"serves {', '.join(one.version.gets_about)}, not {way}."
            )


def may_be_done(version: Version, person: Person, scene: Scene, *, at_once: int) -> bool:
    """Whether a version is allowed for a child with the best choice of things there."""
    spot = scene.spots[person.id]
    return (
        spot.kind in version.where
        and spot.has_floor(version.length_cm, version.width_cm)
        and (spot.hands is None or version.hands <= spot.hands)
        and _quiet_enough(version, spot)
        and person.record["gets_about"] in version.gets_about
        and _free(version.touches, person, spot, scene)
        and all(
            any(
                name in spot.stock
                and spot.stock[name].covers(number_wanted(need, spot, at_once))
                and _free(touched_by_thing(name, spot, scene.library), person, spot, scene)
                for name in scene.library.serving(need)
            )
            for need in version.needs
        )
    )


def touched_by(
    version: Version, things: Iterable[str], spot: Spot, library: Library
) -> frozenset[str]:
    """Words a version touches with these things: its own, and the hazards of the things."""
    return version.touches.union(*(touched_by_thing(name, spot, library) for name in things))


def touched_by_thing(name: str, spot: Spot, library: Library) -> frozenset[str]:
    """Hazards of one thing; rubber counts as latex until somebody has looked."""
    material = library.materials.get(
        name, Material(latex="no", touches=frozenset(), substitutes=())
    )
    looked_at = spot.stock[name].latex if name in spot.stock else None
    latex = {"latex"} if (looked_at or material.latex) != "no" else set()
    return material.touches | latex


def standing(
    rules: Iterable[Rule], touched: frozenset[str], person: Person, spot: Spot, on: dt.date
) -> Iterator[Rule]:
    """Rules that speak to what is touched, hold here, and are lifted by nothing on file.

    Her own dated reason is kept as a go-ahead of the precaution; a rule about the youngest
    who is there has no place for one and stands.
    """
    for rule in rules:
        if rule.touches not in touched:
            continue
        if rule.youngest_under_months is not None:
            if spot.youngest_months < rule.youngest_under_months:
                yield rule
        elif not all(_lifted(rule, holder, on) for holder in holders(rule, person, spot)):
            yield rule


def holders(rule: Rule, person: Person, spot: Spot) -> list[Person]:
    """Children whose precaution brings a rule to this child: the child, or all who are there."""
    reach = spot.people if rule.scope == "room" else (person,)
    return [other for other in reach if rule.precaution in other.kinds]


def _lifted(rule: Rule, holder: Person, on: dt.date) -> bool:
    if rule.lifted_by == "nothing":
        return False
    day = on.isoformat()
    return any(
        paper["date"] <= day
        and (paper["ends"] is None or day <= paper["ends"])
        and (not paper["allows"] or rule.touches in paper["allows"])
        for held in holder.record["precautions"]
        if held["kind"] == rule.precaution
        for paper in held["go_aheads"]
    )


def _free(touched: frozenset[str], person: Person, spot: Spot, scene: Scene) -> bool:
    found = standing(scene.book.rules, touched, person, spot, scene.on)
    return all(rule.effect != "blocks" for rule in found)


def _quiet_enough(version: Version, spot: Spot) -> bool:
    return spot.loudest is None or NOISES.index(version.noise) <= NOISES.index(spot.loudest)


def _missing(one: Played, scene: Scene) -> Iterator[str]:
    things = one.row["things"]
    needs = one.version.needs
    if len(things) != len(needs):
        yield f"names {len(things)} things for {len(needs)} needs."
        return
    at_once = scene.at_once(one.part["part"], one.activity.lanes)
    wanted: dict[str, int] = {}
    for need, name in zip(needs, things, strict=True):
        if not scene.library.serves(name, need):
            yield f"uses {name}, which does not stand in for {' or '.join(need.any_of)}."
        wanted[name] = wanted.get(name, 0) + number_wanted(need, one.spot, at_once)
    for name, number in wanted.items():
        stock = one.spot.stock.get(name)
        if stock is None:
            yield f"uses {name}, which {one.spot.name} does not have."
        elif not stock.covers(number):
            yield f"uses {number} {name}; {one.spot.name} has {stock.count}."


def _fault(one: Played, kind: str, found: str) -> Fault:
    return Fault(
        kind=kind, child=one.person.id, activity=one.activity.id, sentence=f"{one.words} {found}"
    )
