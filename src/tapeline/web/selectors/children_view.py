"""Children as lists and their own page show them: ages in words, groups, papers in force."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Count

from tapeline.activities.models import Library, Step
from tapeline.activities.rules import Precaution, Rule, RuleBook
from tapeline.caseload.people import Child, ChildPrecaution, GoAhead, Goal
from tapeline.caseload.places import Group, Membership
from tapeline.web.records.models import Child as ChildRow
from tapeline.web.records.models import Membership as MembershipRow
from tapeline.web.words import age_in_words


@dataclass(frozen=True, kw_only=True)
class ChildName:
    """A child as far as lists and choices go, without what hangs on the record."""

    id: str
    name: str
    born: str
    mark: str
    active: bool
    precautions: int

    def age_months(self, on: dt.date) -> int:
        """Whole months from the first day of the birth month."""
        year, month = (int(part) for part in self.born.split("-"))
        return (on.year - year) * 12 + on.month - month


def child_names() -> tuple[ChildName, ...]:
    """Every child, in one query; active ones first, by name."""
    rows = ChildRow.objects.annotate(held=Count("precautions"))
    found = (
        ChildName(id=key, name=name, born=born, mark=mark, active=active, precautions=held)
        for key, name, born, mark, active, held in rows.values_list(
            "key", "name", "born", "mark", "active", "held"
        )
    )
    return tuple(sorted(found, key=lambda child: (not child.active, child.name.casefold())))


@dataclass(frozen=True, kw_only=True)
class ChildLine:
    """One child in a list."""

    child: ChildName
    age: str
    groups: tuple[str, ...]


def child_lines(
    children: Iterable[ChildName], groups: Iterable[Group], *, on: dt.date
) -> tuple[ChildLine, ...]:
    """The lines of a list of children; asks the database nothing."""
    names: dict[str, list[str]] = {}
    for group in groups:
        for member in group.members:
            if member.ends is None or member.ends >= on:
                names.setdefault(member.child, []).append(group.name)
    return tuple(
        ChildLine(
            child=child,
            age=age_in_words(child.age_months(on)),
            groups=tuple(dict.fromkeys(names.get(child.id, ()))),
        )
        for child in children
    )


@dataclass(frozen=True, kw_only=True)
class StartLine:
    """Where a child starts in a skill."""

    family: str
    skill: str
    step: Step
    place: int
    count: int


def start_lines(child: Child, library: Library) -> tuple[StartLine, ...]:
    """The starting steps of a child, skill by skill."""
    found = []
    for start in child.skills:
        skill = library.skills[start.skill]
        place = skill.index_of(start.step)
        found.append(
            StartLine(
                family=skill.family,
                skill=skill.name,
                step=skill.steps[place],
                place=place,
                count=len(skill.steps),
            )
        )
    return tuple(found)


@dataclass(frozen=True, kw_only=True)
class GoalLine:
    """A goal with its step in words."""

    goal: Goal
    family: str
    skill: str
    step: str
    help: str


def goal_lines(child: Child, library: Library, level_names: dict[str, str]) -> tuple[GoalLine, ...]:
    """The goals of a child in words."""
    found = []
    for goal in child.goals:
        skill = library.skills[goal.skill]
        found.append(
            GoalLine(
                goal=goal,
                family=skill.family,
                skill=skill.name,
                step=skill.steps[skill.index_of(goal.step)].text,
                help=level_names.get(goal.help_at_most, goal.help_at_most),
            )
        )
    return tuple(found)


@dataclass(frozen=True, kw_only=True)
class PaperLine:
    """A written go-ahead: whether it counts today, and what it allows in words."""

    paper: GoAhead
    place: int
    state: str
    allows: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class PrecautionLine:
    """A precaution of a child with its papers; `place` finds it in the address."""

    held: ChildPrecaution
    place: int
    precaution: Precaution
    papers: tuple[PaperLine, ...]
    can_be_allowed: bool
    blocked: tuple[str, ...]
    never: tuple[str, ...]
    flagged: tuple[str, ...]


def precaution_lines(child: Child, book: RuleBook, *, on: dt.date) -> tuple[PrecautionLine, ...]:
    """The precautions of a child, in their order."""
    return tuple(
        precaution_line(held, place, book, on=on) for place, held in enumerate(child.precautions)
    )


def precaution_line(
    held: ChildPrecaution, place: int, book: RuleBook, *, on: dt.date
) -> PrecautionLine:
    """One precaution: what is blocked until a go-ahead, what stays blocked, what is flagged."""
    rules = [rule for rule in book.rules if rule.precaution == held.kind]
    return PrecautionLine(
        held=held,
        place=place,
        precaution=book.precautions[held.kind],
        papers=tuple(
            PaperLine(
                paper=paper,
                place=at,
                state=paper_state(paper, on=on),
                allows=tuple(book.touches[word] for word in paper.allows),
            )
            for at, paper in enumerate(held.go_aheads)
        ),
        can_be_allowed=any(rule.lifted_by == "go_ahead" for rule in rules),
        blocked=_words(rules, book, "blocks", liftable=True),
        never=_words(rules, book, "blocks", liftable=False),
        flagged=_words(rules, book, "flags", liftable=None),
    )


def paper_state(paper: GoAhead, *, on: dt.date) -> str:
    """``ended``, ``to_come`` or ``counts``, as the rules see it on that day."""
    if paper.ends is not None and paper.ends < on:
        return "ended"
    return "to_come" if paper.date > on else "counts"


def _words(
    rules: Iterable[Rule], book: RuleBook, effect: str, *, liftable: bool | None
) -> tuple[str, ...]:
    chosen = [
        book.touches[rule.touches]
        for rule in rules
        if rule.effect == effect and (liftable is None or (rule.lifted_by != "nothing") is liftable)
    ]
    return tuple(dict.fromkeys(chosen))


@dataclass(frozen=True, kw_only=True)
class MemberLine:
    """A group a child is in."""

    group: Group
    member: Membership
    is_over: bool


def memberships_of(
    child_key: str, groups: Iterable[Group], *, on: dt.date
) -> tuple[MemberLine, ...]:
    """The groups of a child, those that are over last."""
    found = [
        MemberLine(group=group, member=one, is_over=bool(one.ends and one.ends < on))
        for group in groups
        for one in group.members
        if one.child == child_key
    ]
    return tuple(sorted(found, key=lambda line: line.is_over))


def marks_taken_near(child_key: str) -> dict[str, str]:
    """Marks of the active children who share a group with this one, and whose they are."""
    groups = MembershipRow.objects.filter(child__key=child_key).values("group")
    mates = MembershipRow.objects.filter(group__in=groups, child__active=True)
    pairs = mates.exclude(child__key=child_key).values_list("child__mark", "child__name")
    return {mark: name for mark, name in pairs if mark}


def counts_recorded(child_key: str) -> dict[str, int]:
    """How much is recorded about a child, for the page that deletes it."""
    from tapeline.web.records import models as rows

    return {
        "tries": sum(
            rows.Trial.objects.filter(child__key=child_key).values_list("count", flat=True)
        ),
        "blanks": rows.Blank.objects.filter(child__key=child_key).count(),
        "answers": rows.FamilyAnswer.objects.filter(child__key=child_key).count(),
        "notes": rows.SessionNote.objects.filter(child__key=child_key).count(),
        "reports": rows.KeptReport.objects.filter(child__key=child_key).count(),
    }


def home_goes_too(child_key: str) -> bool:
    """Whether the child's home goes with the child, because nobody else lives there."""
    from tapeline.web.records import models as rows

    home = rows.Home.objects.filter(children__key=child_key).first()
    return home is not None and home.children.count() == 1
