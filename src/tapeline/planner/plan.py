"""The plan: what is handed over, one to one with plan.json (docs/plan-file.md).

No names, no clock time: ids, whole seconds from the start of the session, and reasons as
code and values, so that any language can say them and the checker can read them.
"""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from pydantic import TypeAdapter

from tapeline.activities.models import PartName, Unit
from tapeline.caseload.caseload import Caseload, fingerprints_of
from tapeline.caseload.history import Session
from tapeline.caseload.places import Place
from tapeline.errors import InputError

FORMAT = 1
Value = str | int | float | bool | None


@dataclass(frozen=True, kw_only=True)
class Reason:
    """Why, as a code of `planner.words` and the values its sentence needs."""

    code: str
    values: dict[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Lock:
    """An activity she wants to keep; `part` None = wherever it fits."""

    activity: str
    part: PartName | None = None


@dataclass(frozen=True, kw_only=True)
class Amount:
    """How many she wants one child (None = every child) to do of an activity."""

    activity: str
    amount: int
    child: str | None = None


@dataclass(frozen=True, kw_only=True)
class Wishes:
    """What she asked for: keep, leave out, this many; who is away today.

    `stay_near` lists activities of the plan before, kept where nothing speaks against it, so
    that asking again for one part does not turn the others over. `any_skill` lists children
    whose floor of tries may be on any skill today, where none of their goals finds room.
    """

    locked: tuple[Lock, ...] = ()
    left_out: tuple[str, ...] = ()
    amounts: tuple[Amount, ...] = ()
    away: tuple[str, ...] = ()
    stay_near: tuple[Lock, ...] = ()
    any_skill: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Limits:
    """Values of the rule book in force for this plan."""

    floor_of_trials: int
    turn_cap: int
    new_things: int = 1


@dataclass(frozen=True, kw_only=True)
class Played:
    """So many parts were played when the rest was planned; the rest begins at this second."""

    parts: int
    seconds: int


@dataclass(frozen=True, kw_only=True)
class PlanRequest:
    """What was asked: group, date, length, adults in the room, wishes, limits.

    `played` stands in a plan that was made again while its session ran.
    """

    group: str
    date: dt.date
    seconds: int
    adults: int
    limits: Limits
    wishes: Wishes = field(default_factory=Wishes)
    played: Played | None = None


@dataclass(frozen=True, kw_only=True)
class ChildPlan:
    """What one child does in one part.

    `amount` is in units for one round. `things` serve the version's needs, in their order.
    `flags` are the ids of rules to look at; they never block.
    """

    id: str
    place: Place
    version: str
    amount: int
    unit: Unit
    new: bool
    reason: Reason
    things: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class PartPlan:
    """One activity in its part; a course is one entry per station, in order.

    `seconds` = explaining + setting up + practice + the change to the next part.
    """

    part: PartName
    activity: str
    start_s: int
    seconds: int
    explain_s: int
    setup_s: int
    change_s: int
    rounds: int
    children: tuple[ChildPlan, ...]

    @property
    def practice_s(self) -> int:
        """Seconds left for doing."""
        return self.seconds - self.explain_s - self.setup_s - self.change_s


@dataclass(frozen=True, kw_only=True)
class Dropped:
    """A goal this session does not serve, why, and the date it comes back."""

    child: str
    goal: str
    reason: Reason
    back: dt.date | None = None


@dataclass(frozen=True, kw_only=True)
class Binding:
    """A rule that took something away, and from whom."""

    rule: str
    children: tuple[str, ...] = ()
    activities: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Swap:
    """The best other activity for one part (its place in `parts`) and what it costs.

    `cost` is the loss of the whole session's benefit, in thousandths of it.
    """

    part: int
    activity: str
    cost: int


@dataclass(frozen=True, kw_only=True)
class Bound:
    """How good the plan is: `proved` best, or `good` with the gap that is left (0 to 1).

    `number` counts the plans found on the way to it, itself included. A plan that was taken
    early says by it where the search stopped; its gap is 1 where nothing was known of it yet.
    """

    status: Literal["proved", "good"]
    gap: float
    number: int = 1


@dataclass(frozen=True, kw_only=True)
class MadeFrom:
    """Fingerprints of what the plan rests on; a changed one means: plan again.

    `texts` is the fingerprint of each activity of the plan, as it read then.
    """

    library: str
    rules: str
    children: dict[str, dict[str, str]]
    place: str
    texts: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class SessionPlan:
    """One session, ready to be printed and run."""

    program: str
    made_from: MadeFrom
    request: PlanRequest
    parts: tuple[PartPlan, ...]
    dropped: tuple[Dropped, ...]
    binding: tuple[Binding, ...]
    swaps: tuple[Swap, ...]
    bound: Bound
    notices: tuple[Reason, ...]
    format: int = FORMAT

    @property
    def away(self) -> tuple[str, ...]:
        """Who is away the whole session: one who left while it ran has rows in what was played."""
        there = {row.id for part in self.parts for row in part.children}
        return tuple(child for child in self.request.wishes.away if child not in there)

    def part_of(self, activity: str) -> PartPlan | None:
        """The part that plays an activity, or None."""
        return next((part for part in self.parts if part.activity == activity), None)


ADAPTER: TypeAdapter[SessionPlan] = TypeAdapter(SessionPlan)
WISHES: TypeAdapter[Wishes] = TypeAdapter(Wishes)


def plan_json(plan: SessionPlan) -> str:
    """The text of plan.json: sorted keys, two spaces, a line end."""
    plain = ADAPTER.dump_python(plan, mode="json")
    return json.dumps(plain, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def plan_as_data(plan: SessionPlan) -> dict[str, Any]:
    """The plan as plain JSON values, to be stored."""
    data: dict[str, Any] = ADAPTER.dump_python(plan, mode="json")
    return data


def wishes_json(wishes: Wishes) -> str:
    """Wishes as JSON, for a button that asks for them."""
    return json.dumps(WISHES.dump_python(wishes, mode="json"), sort_keys=True)


def wishes_from_json(text: str) -> Wishes:
    """Wishes as a button asks for them.

    Raises
    ------
    InputError
        They are not what a button of ours holds.
    """
    try:
        return WISHES.validate_json(text)
    except ValueError:
        raise InputError(
            "What the button asked for could not be read.", field="wishes", hint="Ask again."
        ) from None


def with_plan(session: Session, plan: SessionPlan) -> Session:
    """A session with its plan, and the activities that are played in it."""
    played = tuple(dict.fromkeys(part.activity for part in plan.parts))
    return replace(session, plan=plan_as_data(plan), activities=played)


def read_plan(data: Any) -> SessionPlan:
    """The plan in plain JSON values.

    Raises
    ------
    InputError
        It is no plan of this format.
    """
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise InputError(
            f"This is no plan of format {FORMAT}.",
            field="format",
            hint="Choose a plan.json that tapeline wrote, or plan again.",
        )
    return ADAPTER.validate_python(data)


def what_changed(plan: SessionPlan, caseload: Caseload) -> tuple[tuple[str, str], ...]:
    """Pairs (child, what) whose fingerprint differs from when the plan was made."""
    changed: list[tuple[str, str]] = []
    for child_id, before in plan.made_from.children.items():
        now = fingerprints_of(caseload, caseload.child(child_id))
        changed += [(child_id, what) for what in sorted(before) if before[what] != now.get(what)]
    return tuple(changed)
