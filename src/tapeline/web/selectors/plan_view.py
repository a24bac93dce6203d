"""A session plan as its page shows it: the running order, one activity chosen, its reasons."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.activities.loader import load_rule_book
from tapeline.activities.models import Activity, Library, Skill, Version
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.own_library import left_out_for_good
from tapeline.caseload.people import Child
from tapeline.planner.difference import difference_in_words
from tapeline.planner.plan import ChildPlan, PartPlan, SessionPlan, what_changed
from tapeline.planner.words import (
    PART_NAMES,
    Names,
    binding_in_words,
    dropped_in_words,
    notices_in_words,
    reason_in_words,
)
from tapeline.sessions.as_planned import library_of_plan
from tapeline.sessions.packet.whole import other_changes
from tapeline.sessions.prepare import names_for
from tapeline.sessions.still_allowed import held_back_now
from tapeline.units import whole_minutes
from tapeline.web.selectors.drawn import Drawn, first_drawn
from tapeline.web.selectors.looking_view import percent_better
from tapeline.web.selectors.meeting_view import tape_kind

PLACES = {"room": "", "home": "at home, live", "home_later": "at home, later"}


@dataclass(frozen=True, kw_only=True)
class PartView:
    """A line of the running order."""

    place: int
    part: str
    name: str
    kind: str
    minute: int
    minutes: int
    rounds: int
    is_locked: bool
    activity: str

    @property
    def tape_length(self) -> int:
        """Length of its strip in px."""
        return max(24, min(48, 8 * self.minutes))


@dataclass(frozen=True, kw_only=True)
class ChildView:
    """A child's row under the chosen activity."""

    child: Child
    row: ChildPlan
    version: Version
    step_place: int | None
    step_count: int
    step_text: str
    how_many: str
    where: str
    reason: str
    checks: tuple[str, ...]
    asked: int | None


@dataclass(frozen=True, kw_only=True)
class ChosenView:
    """The chosen activity with every child's version, and the best swap."""

    line: PartView
    activity: Activity
    skill: Skill | None
    cues: tuple[str, ...]
    move: Drawn | None
    children: tuple[ChildView, ...]
    swap: Activity | None
    swap_cost: str
    others: tuple[Activity, ...]


@dataclass(frozen=True, kw_only=True)
class PlanView:
    """Everything the page shows of a plan."""

    lines: tuple[PartView, ...]
    tapes: tuple[tuple[str, int], ...]
    chosen: ChosenView
    minutes: int
    best: str
    dropped: tuple[str, ...]
    notices: tuple[str, ...]
    binding: tuple[str, ...]
    left_out: tuple[Activity, ...]
    stale: tuple[str, ...]
    held: tuple[str, ...]

    @property
    def before(self) -> PartView | None:
        """The line above the chosen one."""
        place = self.chosen.line.place
        return self.lines[place - 1] if place else None

    @property
    def after(self) -> PartView | None:
        """The line below the chosen one."""
        place = self.chosen.line.place + 1
        return self.lines[place] if place < len(self.lines) else None


def plan_view(plan: SessionPlan, caseload: Caseload, place: int) -> PlanView:
    """The page of a plan with one part chosen (its place in the plan; the nearest there is)."""
    library = library_of_plan(plan, caseload)
    names = names_for(caseload, library, load_rule_book())
    lines = tuple(_line(plan, library, names, at) for at in range(len(plan.parts)))
    place = max(0, min(place, len(lines) - 1))
    stale = stale_sentences(plan, caseload)
    return PlanView(
        lines=lines,
        tapes=tuple((line.kind, plan.parts[line.place].seconds) for line in lines),
        chosen=_chosen(plan, caseload, library, names, lines[place]),
        minutes=whole_minutes(sum(part.seconds for part in plan.parts)),
        best=how_good(plan),
        dropped=tuple(dropped_in_words(one, names) for one in plan.dropped),
        notices=notices_in_words(plan.notices, names),
        binding=tuple(binding_in_words(one, names) for one in plan.binding),
        left_out=tuple(
            library.activities[one]
            for one in plan.request.wishes.left_out
            if one in library.activities
        ),
        stale=stale,
        held=held_back_now(plan, caseload) if stale else (),
    )


def lines_of(plan: SessionPlan, caseload: Caseload) -> tuple[PartView, ...]:
    """The running order of a plan."""
    library = library_of_plan(plan, caseload)
    names = names_for(caseload, library, load_rule_book())
    return tuple(_line(plan, library, names, at) for at in range(len(plan.parts)))


def changes_of(before: SessionPlan, plan: SessionPlan, caseload: Caseload) -> tuple[str, ...]:
    """What differs between the plan before and this one, a sentence each."""
    library = library_of_plan(plan, caseload)
    return difference_in_words(before, plan, names_for(caseload, library, load_rule_book()))


def stale_sentences(plan: SessionPlan, caseload: Caseload, *, but: str = "") -> tuple[str, ...]:
    """One sentence per thing that has changed since the plan was made.

    A child's precautions, goals, home or history, without the one of these named in `but`; who
    belongs to the group; its room; the library; the rules.
    """
    changed = [
        f"{caseload.child(child).name}'s {what}"
        for child, what in what_changed(plan, caseload)
        if what != but
    ]
    changed += other_changes(plan, caseload)
    return tuple(f"Made before {what} changed: plan again." for what in changed)


def how_good(plan: SessionPlan) -> str:
    """How good a plan is, in one sentence; its gap is a share of the most that is possible."""
    bound = plan.bound
    if bound.status == "proved":
        return "Proved: no other choice of these games gives this group more."
    better = percent_better(bound.gap / (1 - bound.gap) if bound.gap < 1 else None)
    if better is None:
        return "A good plan; how much better is possible was not looked for."
    if better == 0:  # the bound is kept to four places
        return "Good, not proved best: less than 1 % better is possible."
    return f"Good, not proved best: at most {better} % better is possible."


def _line(plan: SessionPlan, library: Library, names: Names, at: int) -> PartView:
    part = plan.parts[at]
    minute = part.start_s // 60
    end = (part.start_s + part.seconds) // 60
    return PartView(
        place=at,
        part=_part_title(plan, at),
        name=names.activity(part.activity),
        kind=tape_kind(part.part, part.activity, library),
        minute=minute,
        minutes=end - minute,
        rounds=part.rounds,
        is_locked=any(one.activity == part.activity for one in plan.request.wishes.locked),
        activity=part.activity,
    )


def _part_title(plan: SessionPlan, at: int) -> str:
    part = plan.parts[at].part
    title = PART_NAMES[part].capitalize()
    if part != "course":
        return title
    station = sum(one.part == "course" for one in plan.parts[: at + 1])
    return f"{title}, station {station}"


def _chosen(
    plan: SessionPlan, caseload: Caseload, library: Library, names: Names, line: PartView
) -> ChosenView:
    part = plan.parts[line.place]
    activity = library.activities[part.activity]
    skill = library.skill_of(activity.id)
    children = tuple(
        _child(plan, caseload, library, names, part, row, skill) for row in part.children
    )
    swap = next((one for one in plan.swaps if one.part == line.place), None)
    first = children[0].version
    return ChosenView(
        line=line,
        activity=activity,
        skill=skill,
        cues=first.cues,
        move=first_drawn(one.version for one in children),
        children=children,
        swap=library.activities.get(swap.activity) if swap else None,
        swap_cost=_cost(swap.cost) if swap else "",
        others=tuple(
            other
            for other in library.activities.values()
            if part.part in other.uses
            and other.id not in {activity.id, *left_out_for_good(caseload)}
            and not plan.part_of(other.id)
        ),
    )


def _cost(thousandths: int) -> str:
    if thousandths < 1:
        return "It gives this group just as much."
    return f"The group would gain {thousandths / 10:.1f} % less from the session."


def _child(
    plan: SessionPlan,
    caseload: Caseload,
    library: Library,
    names: Names,
    part: PartPlan,
    row: ChildPlan,
    skill: Skill | None,
) -> ChildView:
    version = library.find_version(row.version)
    step = skill.steps[skill.index_of(version.step)] if skill and version.step else None
    asked = next(
        (
            one.amount
            for one in plan.request.wishes.amounts
            if one.activity == part.activity and one.child in (None, row.id)
        ),
        None,
    )
    return ChildView(
        child=caseload.child(row.id),
        row=row,
        version=version,
        step_place=skill.index_of(step.id) if skill and step else None,
        step_count=len(skill.steps) if skill else 0,
        step_text=step.text if step else "",
        how_many=how_many(row, part.rounds),
        where=PLACES[row.place],
        reason=reason_in_words(row.reason, names),
        checks=tuple(names.rule(flag) for flag in row.flags),
        asked=asked,
    )


def how_many(row: ChildPlan, rounds: int) -> str:
    """Amount in words: ``12 tries``, or ``3 × 4 tries`` for 4 in each of 3 rounds."""
    unit = row.unit if row.amount != 1 else ONE[row.unit]
    words = f"{row.amount} {unit}"
    return f"{rounds} × {words}" if rounds > 1 else words


ONE = {"tries": "try", "seconds": "second", "metres": "metre", "rounds": "round"}
