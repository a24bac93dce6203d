"""May this child do this version here, with these things and these people, on this date?

One function, `what_is_allowed`, answers for planner, packet, release list, course and
library check. It answers *allowed*, *flagged* or *blocked*, with the ids of the rules.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from tapeline.activities.models import (
    Activity,
    GetsAbout,
    Latex,
    Library,
    Material,
    Need,
    Version,
    Where,
)
from tapeline.activities.rules import Rule, RuleBook

Status = Literal["allowed", "flagged", "blocked"]
NOISE_ORDER = ("quiet", "usual", "loud")


@dataclass(frozen=True, kw_only=True)
class Permission:
    """A written go-ahead for one precaution: empty `allows` lifts all it can lift."""

    precaution: str
    allows: tuple[str, ...]
    starts: date
    ends: date | None

    def covers(self, rule: Rule, on: date) -> bool:
        """Whether this go-ahead lifts the rule on that date (its last day included)."""
        in_time = self.starts <= on and (self.ends is None or on <= self.ends)
        right_thing = not self.allows or rule.touches in self.allows
        return rule.precaution == self.precaution and in_time and right_thing


@dataclass(frozen=True, kw_only=True)
class Who:
    """The child as far as rules go; `left_out` are activities she does not give this child."""

    id: str
    age_months: int
    gets_about: GetsAbout
    precautions: frozenset[str]
    permissions: tuple[Permission, ...] = ()
    left_out: frozenset[str] = frozenset()


@dataclass(frozen=True, kw_only=True)
class Stock:
    """A thing that is there: how many (None = enough), and what is known of its latex."""

    count: int | None = None
    latex: Latex | None = None


@dataclass(frozen=True, kw_only=True)
class Here:
    """A place as far as rules go: floor, things, people, noise.

    `others` are the children in the same room whose room-wide precautions reach this child;
    `youngest_months` is the age of the youngest person there, brothers and sisters included.
    `hands` is how many hands the helping adult has free (a baby on the arm leaves one).
    """

    where: Where
    length_cm: int
    width_cm: int
    things: Mapping[str, Stock]
    hands: int
    loudest: str
    youngest_months: int
    others: tuple[Who, ...] = ()
    children: int = 1
    dated_reasons: frozenset[str] = frozenset()


@dataclass(frozen=True, kw_only=True)
class Ruling:
    """The answer: a status, the rules that flag or block, and which thing serves each need."""

    status: Status
    rules: tuple[str, ...]
    things: tuple[str, ...] = ()


InForce = Mapping[str, tuple[Rule, ...]]


def rules_in_force(*, who: Who, here: Here, book: RuleBook, on: date) -> InForce:
    """Rules that hold for one child in one place on one date, by the word they look at."""
    return {
        word: held
        for word, rules in book.by_touch.items()
        if (held := tuple(rule for rule in rules if _holds(rule, who, here, on)))
    }


def what_is_allowed(
    version: Version,
    *,
    who: Who,
    here: Here,
    library: Library,
    book: RuleBook,
    on: date,
    in_force: InForce | None = None,
) -> Ruling:
    """The ruling on one version for one child in one place on one date.

    Blocks win over flags. The ids `place`, `gets_about`, `space`, `things`, `hands` and
    `noise` stand for the plain facts, and `left_out` for what she does not give this child;
    all others are rows of the rule book. Where several owned things could serve a need, the
    first one that no rule blocks is taken.

    Parameters
    ----------
    in_force
        What `rules_in_force` answers, for one who asks about many versions.
    """
    if in_force is None:
        in_force = rules_in_force(who=who, here=here, book=book, on=on)
    plain = _plain_facts(version, who, here)
    chosen, missing = _choose_things(version, here, library, in_force)
    hits = _hits(version.touches, in_force)
    for thing in chosen:
        hits += _hits(_touches_of(thing, here, library), in_force)
    blocks = plain + (["things"] if missing else []) + _ids(hits, "blocks")
    if blocks:
        return Ruling(status="blocked", rules=_once(blocks), things=chosen)
    flags = _ids(hits, "flags")
    return Ruling(status="flagged" if flags else "allowed", rules=_once(flags), things=chosen)


def _plain_facts(version: Version, who: Who, here: Here) -> list[str]:
    facts = {
        "left_out": version.activity not in who.left_out,
        "place": here.where in version.where,
        "gets_about": who.gets_about in version.gets_about,
        "space": _fits(version, here),
        "hands": version.hands <= here.hands,
        "noise": NOISE_ORDER.index(version.noise) <= NOISE_ORDER.index(here.loudest),
    }
    return [name for name, holds in facts.items() if not holds]


def _fits(version: Version, here: Here) -> bool:
    long, short = sorted(
        (version.length_cm + 2 * version.clear_cm, version.width_cm + 2 * version.clear_cm),
        reverse=True,
    )
    room_long, room_short = sorted((here.length_cm, here.width_cm), reverse=True)
    return long <= room_long and short <= room_short


def _choose_things(
    version: Version, here: Here, library: Library, in_force: InForce
) -> tuple[tuple[str, ...], bool]:
    chosen: list[str] = []
    missing = False
    for need in version.things:
        able = [thing for thing in candidates_for(need, library) if _enough(thing, need, here)]
        if not able:
            missing = True
            continue
        free = [
            thing
            for thing in able
            if not _ids(_hits(_touches_of(thing, here, library), in_force), "blocks")
        ]
        chosen.append((free or able)[0])
    return tuple(chosen), missing


def candidates_for(need: Need, library: Library) -> tuple[str, ...]:
    """Material ids that can serve a need, best first: those named, then their substitutes."""
    named = list(need.any_of)
    for thing in need.any_of:
        named += library.materials[thing].substitutes
    return _once(named)


def _enough(thing: str, need: Need, here: Here) -> bool:
    stock = here.things.get(thing)
    if stock is None:
        return False
    wanted = need.count * (here.children if need.each else 1)
    return stock.count is None or stock.count >= wanted


def _touches_of(thing: str, here: Here, library: Library) -> tuple[str, ...]:
    """Hazards of a thing as it stands here; unknown rubber counts as latex."""
    material = library.materials[thing]
    known = here.things[thing].latex if thing in here.things else None
    return _hazards(material, known or material.may_contain_latex)


def _hazards(material: Material, latex: Latex) -> tuple[str, ...]:
    return material.touches + (("latex",) if latex != "no" else ())


def rules_on(activity: Activity, library: Library, book: RuleBook) -> list[Rule]:
    """Every rule that looks at an activity: its versions' movements, and the things named first."""
    found: dict[str, None] = {}
    for version in activity.versions:
        found |= dict.fromkeys(version.touches)
        for need in version.things:
            material = library.materials[need.any_of[0]]
            found |= dict.fromkeys(_hazards(material, material.may_contain_latex))
    return _hits(found, book.by_touch)


def _hits(touches: Iterable[str], in_force: InForce) -> list[Rule]:
    return [rule for word in dict.fromkeys(touches) for rule in in_force.get(word, ())]


def _holds(rule: Rule, who: Who, here: Here, on: date) -> bool:
    if rule.lifted_by == "reason" and rule.id in here.dated_reasons:
        return False
    if rule.youngest_under_months is not None:
        return here.youngest_months < rule.youngest_under_months
    return any(_binds(rule, person, on) for person in _reached_by(rule, who, here))


def _reached_by(rule: Rule, who: Who, here: Here) -> tuple[Who, ...]:
    return (who, *here.others) if rule.scope == "room" else (who,)


def _binds(rule: Rule, person: Who, on: date) -> bool:
    if rule.precaution not in person.precautions:
        return False
    if rule.lifted_by != "go_ahead":
        return True
    return not any(permission.covers(rule, on) for permission in person.permissions)


def _ids(rules: Iterable[Rule], effect: str) -> list[str]:
    return [rule.id for rule in rules if rule.effect == effect]


def _once(ids: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(ids))
