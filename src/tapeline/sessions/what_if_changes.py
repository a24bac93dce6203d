"""Changes that are worth trying on a part of a plan, or for one child in it."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tapeline.activities.allowed import Here, candidates_for
from tapeline.activities.models import Version
from tapeline.activities.rules import Rule
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, Trial
from tapeline.caseload.people import ChildPrecaution, GoAhead, Thing
from tapeline.planner.given import Given
from tapeline.planner.places import Taking
from tapeline.planner.plan import SessionPlan, Wishes
from tapeline.planner.words import wish_in_words
from tapeline.sessions.prepare import names_for

MORE_MINUTES = 5
TRIES = 10
MOST_THINGS = 2
MOST_RULES = 3
DAY = dt.timedelta(days=1)


@dataclass(frozen=True, kw_only=True)
class Change:
    """One change: its words, and what differs from what the plan was made from."""

    words: str
    caseload: Caseload | None = None
    wishes: Wishes | None = None
    adults: int | None = None
    more_minutes: int = 0


NO_CHANGE = Change(words="")


def changes_worth_trying(
    given: Given, plan: SessionPlan, place: int, child: str | None
) -> Iterator[Change]:
    """The changes, those first that are in her hands today."""
    yield from _wishes(given, plan, place)
    yield from _adults(given, plan)
    yield Change(words=f"With {MORE_MINUTES} minutes more", more_minutes=MORE_MINUTES)
    yield Change(words=f"With {MORE_MINUTES} minutes less", more_minutes=-MORE_MINUTES)
    yield from _things(given, plan, place, child)
    yield from _go_aheads(given, plan, place, child)
    if child is not None:
        yield from _tries(given, plan, place, child)


def _wishes(given: Given, plan: SessionPlan, place: int) -> Iterator[Change]:
    """Without each of her wishes, the others staying."""
    names = names_for(given.caseload, given.library, given.book)
    wishes = plan.request.wishes
    for lock in wishes.locked:
        rest = tuple(one for one in wishes.locked if one != lock)
        near = tuple(one for one in wishes.stay_near if one.activity != lock.activity)
        yield Change(
            words=f"Without the lock on {names.activity(lock.activity)}",
            wishes=replace(wishes, locked=rest, stay_near=near),
        )
    for activity in wishes.left_out:
        words = wish_in_words("take_in", activity, names).rstrip(".")
        left = tuple(one for one in wishes.left_out if one != activity)
        yield Change(words=f"If you {_small(words)}", wishes=replace(wishes, left_out=left))
    for asked in wishes.amounts:
        if asked.activity == plan.parts[place].activity:
            rest_of = tuple(one for one in wishes.amounts if one != asked)
            yield Change(
                words=f"Without the {asked.amount} you asked for",
                wishes=replace(wishes, amounts=rest_of),
            )


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]


def _adults(given: Given, plan: SessionPlan) -> Iterator[Change]:
    if not given.in_room:
        return
    adults = plan.request.adults
    yield Change(words="With one more adult in the room", adults=adults + 1)
    if adults > 1:
        yield Change(words="With one adult less in the room", adults=adults - 1)


# ---- things that are not there


def _things(given: Given, plan: SessionPlan, place: int, child: str | None) -> Iterator[Change]:
    """With a thing that keeps games away by itself, the one that keeps most away first."""
    missing: Counter[tuple[str, str]] = Counter()
    for taking, version, rules in blocked(given, plan, place, child):
        things = _missing(version, taking.here, given) if rules == ("things",) else []
        if len(things) == 1:
            missing[_place_of(taking), things[0]] += 1
    ranked = sorted(missing, key=lambda one: (-missing[one], one))
    for where, thing in ranked[:MOST_THINGS]:
        name = given.library.materials[thing].name
        at = "in the room" if where == "room" else f"at {_home_name(given, where)}"
        yield Change(words=f"With this {at}: {name}", caseload=_with_thing(given, where, thing))


def _place_of(taking: Taking) -> str:
    return "room" if taking.member.place == "room" else (taking.child.home or "")


def _home_name(given: Given, home: str) -> str:
    return next((one.name for one in given.caseload.homes if one.id == home), "") or "that home"


def _missing(version: Version, here: Here, given: Given) -> list[str]:
    """One thing for each need of a version that nothing here serves."""
    found = []
    for need in version.things:
        able = [
            thing
            for thing in candidates_for(need, given.library)
            if (stock := here.things.get(thing)) is not None
            and (stock.count is None or stock.count >= need.count)
        ]
        if not able:
            found.append(need.any_of[0])
    return found


def _with_thing(given: Given, where: str, material: str) -> Caseload:
    caseload, thing = given.caseload, Thing(material=material)
    if where != "room":
        homes = tuple(
            replace(one, things=(*one.things, thing)) if one.id == where else one
            for one in caseload.homes
        )
        return replace(caseload, homes=homes)
    sites = tuple(
        replace(
            site,
            rooms=tuple(
                replace(room, things=(*room.things, thing)) if room.id == given.group.room else room
                for room in site.rooms
            ),
        )
        if site.id == given.group.site
        else site
        for site in caseload.sites
    )
    return replace(caseload, sites=sites)


# ---- what a written go-ahead would lift


def _go_aheads(given: Given, plan: SessionPlan, place: int, child: str | None) -> Iterator[Change]:
    by_id = {rule.id: rule for rule in given.book.rules}
    counted: Counter[tuple[str, str]] = Counter()
    for taking, _, rules in blocked(given, plan, place, child):
        for rule in (by_id[one] for one in rules if one in by_id):
            for holder in _holders(given, taking, rule):
                counted[holder, str(rule.precaution)] += 1
    ranked = sorted(counted, key=lambda one: (-counted[one], one))
    for holder, kind in ranked[:MOST_RULES]:
        precaution, name = given.book.precautions[kind], given.caseload.child(holder).name
        yield Change(
            words=(
                f"With a written go-ahead for {name} ({_small(precaution.name)}; "
                f"check with {precaution.check_with})"
            ),
            caseload=_with_go_ahead(given, holder, kind),
        )


def _holders(given: Given, taking: Taking, rule: Rule) -> Iterator[str]:
    """Children whose precaution makes a rule hold that a go-ahead can lift."""
    if rule.precaution is None or rule.lifted_by != "go_ahead":
        return
    everyone = (taking, *given.taking) if rule.scope == "room" else (taking,)
    for one in {other.child.id: other for other in everyone}.values():
        if rule.precaution in one.who.precautions:
            yield one.child.id


def _with_go_ahead(given: Given, holder: str, kind: str) -> Caseload:
    paper = GoAhead(written_by="somebody", date=given.request.date)

    def lifted(one: ChildPrecaution) -> ChildPrecaution:
        return replace(one, go_aheads=(*one.go_aheads, paper)) if one.kind == kind else one

    children = tuple(
        replace(child, precautions=tuple(lifted(one) for one in child.precautions))
        if child.id == holder
        else child
        for child in given.caseload.children
    )
    return replace(given.caseload, children=children)


# ---- how the tries before would go


def _tries(given: Given, plan: SessionPlan, place: int, child: str) -> Iterator[Change]:
    row = next(one for one in plan.parts[place].children if one.id == child)
    version = given.library.find_version(row.version)
    if version.step is None:
        return
    name = given.caseload.child(child).name
    for alone in (TRIES, 0):
        how = "all" if alone else "none"
        yield Change(
            words=f"If {name} managed {how} of {TRIES} tries alone at this step the day before",
            caseload=_with_tries(given, child, version, alone=alone),
        )


def _with_tries(given: Given, child: str, version: Version, *, alone: int) -> Caseload:
    caseload, on = given.caseload, given.request.date - DAY
    session = Session(id="what-if", group=given.group.id, date=on, status="held")
    level = caseload.prompt_levels[-1].id
    trial = Trial(
        id="what-if",
        session=session.id,
        child=child,
        version=version.id,
        step=str(version.step),
        outcome="alone" if alone else "not_yet",
        help=level,
        count=TRIES,
    )
    return replace(caseload.with_session(session), trials=(*caseload.trials, trial))


# ---- what is held back


def blocked(
    given: Given, plan: SessionPlan, place: int, child: str | None
) -> Iterator[tuple[Taking, Version, tuple[str, ...]]]:
    """Versions that somebody may not do here, with the rules that say so.

    Of this game for a child, else of all this part's. They stand in the rulings of what was
    laid out.
    """
    part = plan.parts[place]
    takings = {one.child.id: one for one in given.taking}
    for (activity, who, _), rulings in given.rulings.items():
        is_asked = activity == part.activity if child else _may_be_here(given, activity, part.part)
        if not is_asked or (child is not None and who != child):
            continue
        for version, ruling in rulings:
            if ruling.status == "blocked":
                yield takings[who], version, ruling.rules


def _may_be_here(given: Given, activity: str, part: str) -> bool:
    return part in given.library.activities[activity].uses
