"""Whether what a plan lets each child do may still be done, and what could take its place.

Asked again when a precaution, a thing, a go-ahead, a home or an adult's hands changed: the same
ruling as when the session was planned, with what is on file now.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tapeline.activities.allowed import InForce, Ruling, rules_in_force, what_is_allowed
from tapeline.activities.loader import load_rule_book
from tapeline.activities.models import Library, Version
from tapeline.caseload.caseload import Caseload
from tapeline.planner.given import Slot
from tapeline.planner.places import Taking, who_takes_part, with_children
from tapeline.planner.plan import ChildPlan, PartPlan, SessionPlan, what_changed
from tapeline.planner.words import Names
from tapeline.sessions.as_planned import library_of_plan
from tapeline.sessions.packet.basis import basis_of
from tapeline.sessions.prepare import names_for
from tapeline.sessions.release import release_list

CHANGES_A_RELEASE = frozenset({"precautions", "home"})


@dataclass(frozen=True, kw_only=True)
class _Now:
    """A plan beside what is on file now."""

    plan: SessionPlan
    caseload: Caseload
    library: Library
    names: Names
    taking: dict[str, Taking]
    in_room: int
    in_force: dict[str, InForce]

    def ruling(self, part: PartPlan, version: Version, taking: Taking) -> Ruling:
        """The ruling on a version for a child in a part, as it was asked when planning."""
        stations = sum(one.part == "course" for one in self.plan.parts)
        slot = Slot(
            activity=self.library.activities[version.activity],
            part=part.part,
            practice_s=0,
            stations=max(1, stations) if part.part == "course" else 1,
        )
        return what_is_allowed(
            version,
            who=taking.who,
            here=with_children(taking.here, slot.at_once(self.in_room)),
            library=self.library,
            book=self.names.book,
            on=self.plan.request.date,
            in_force=self.in_force[taking.child.id],
        )


def held_back_now(plan: SessionPlan, caseload: Caseload) -> tuple[str, ...]:
    """A sentence for each thing of a plan that somebody may not do any more, with its swap.

    Those whom the release list of the recording holds back follow, where what it rests on
    changed.
    """
    now = _now(plan, caseload)
    return (*_gone(now), *_held(now), *_off_the_list(now))


def _now(plan: SessionPlan, caseload: Caseload) -> _Now:
    library, book = library_of_plan(plan, caseload), load_rule_book()
    group = caseload.group(plan.request.group)
    taking = who_takes_part(caseload, group, on=plan.request.date, away=plan.away)
    return _Now(
        plan=plan,
        caseload=caseload,
        library=library,
        names=names_for(caseload, library, book),
        taking={one.child.id: one for one in taking},
        in_room=sum(one.member.place == "room" for one in taking),
        in_force={
            one.child.id: rules_in_force(
                who=one.who, here=one.here, book=book, on=plan.request.date
            )
            for one in taking
        },
    )


def _gone(now: _Now) -> Iterator[str]:
    planned = dict.fromkeys(row.id for part in now.plan.parts for row in part.children)
    for child in planned:
        if child not in now.taking:
            yield f"{now.names.child(child)} no longer comes."


def _held(now: _Now) -> Iterator[str]:
    """One sentence for a game and a rule; children whom the same rule stops share it."""
    for part in now.plan.parts:
        stopped: dict[str, list[ChildPlan]] = {}
        for row in part.children:
            taking = now.taking.get(row.id)
            if taking is None:
                continue
            ruling = now.ruling(part, now.library.find_version(row.version), taking)
            if ruling.status == "blocked":
                stopped.setdefault(ruling.rules[0], []).append(row)
        for rule, rows in stopped.items():
            whom = " and ".join(now.names.child(row.id) for row in rows)
            yield (
                f"{now.names.activity(part.activity)} is held back for {whom}: "
                f"{_small(now.names.rule(rule))}. {_swap(now, part, rows)}"
            )


def _swap(now: _Now, part: PartPlan, rows: list[ChildPlan]) -> str:
    """Another version of the game for those who need one, else another game for all."""
    own = [_other_version(now, part, now.taking[row.id]) for row in rows]
    found = [one for one in own if one is not None]
    if len(found) == len(rows):
        return "Swap to: " + " ".join(dict.fromkeys(one.do for one in found))
    place = now.plan.parts.index(part)
    for swap in now.plan.swaps:
        if swap.part == place and _is_for_all(now, part, swap.activity):
            return f"Swap the game for {now.names.activity(swap.activity)}."
    return "Plan again for another game."


def _other_version(now: _Now, part: PartPlan, taking: Taking) -> Version | None:
    versions = now.library.activities[part.activity].versions
    free = (one for one in versions if now.ruling(part, one, taking).status != "blocked")
    return next(free, None)


def _is_for_all(now: _Now, part: PartPlan, activity: str) -> bool:
    if activity not in now.library.activities:
        return False
    versions = now.library.activities[activity].versions
    return all(
        any(now.ruling(part, one, taking).status != "blocked" for one in versions)
        for taking in now.taking.values()
    )


def _off_the_list(now: _Now) -> Iterator[str]:
    """Recorded children whose release changed: whom the film may not be sent as it is."""
    changed = {
        child for child, what in what_changed(now.plan, now.caseload) if what in CHANGES_A_RELEASE
    }
    recorded = [one for one in now.taking.values() if one.member.place == "home_later"]
    if not changed & {one.child.id for one in recorded}:
        return
    releases = release_list(basis_of(now.plan, now.caseload))
    for column, one in enumerate(recorded):
        if one.child.id not in changed:
            continue
        held = [row.activity for row in releases.rows if row.cells[column].status == "blocked"]
        if held:
            yield (
                f"Release list: {now.names.child(one.child.id)} may not be sent "
                f"{', '.join(held)} as the film shows it. The list says the swap."
            )


def _small(text: str) -> str:
    return text[:1].lower() + text[1:]
