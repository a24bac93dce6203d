"""Plan a session that runs again from now: what was played stays, the minutes left are planned."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, standing_trials
from tapeline.errors import InputError
from tapeline.planner.board import Board, Candidate, CourseShape, Level, Option, PartShape
from tapeline.planner.given import Given
from tapeline.planner.lay_out import lay_out, shape_of
from tapeline.planner.plan import (
    ChildPlan,
    Lock,
    PartPlan,
    Played,
    Reason,
    SessionPlan,
    Wishes,
)
from tapeline.planner.prune import without_dominated
from tapeline.planner.solve import Choice, choose
from tapeline.planner.wishes import near
from tapeline.planner.write_up import write_up
from tapeline.sessions.prepare import given_for
from tapeline.units import SECONDS_A_MINUTE

WORK_FOR_THE_REST = 0.6
PLAYED_KEY = -1


@dataclass(frozen=True, kw_only=True)
class PlannedAgain:
    """The plan from now on, what of the plan before found no time, and locks given up."""

    plan: SessionPlan
    dropped: tuple[PartPlan, ...]
    unlocked: tuple[str, ...]


def plan_from_now(
    caseload: Caseload,
    plan: SessionPlan,
    *,
    played: int,
    minutes_left: int,
    away: tuple[str, ...] = (),
    adults: int | None = None,
) -> PlannedAgain:
    """The session with its first parts as they were played, and the rest planned anew.

    Turns, new things and the floor of tries count over both. Tries that a child cannot have
    made (a blank, a game before it came) are not counted for its floor. No other activities
    are looked for, because she waits with the group. Where the time left
    holds no plan with the floor, or with what she had locked, these give way, in this order.

    Parameters
    ----------
    played
        How many of the plan's parts were played; the stations of a course go together.
    minutes_left
        Whole minutes from now to the end.
    away
        Who is not there from now on. What such a child played stays in the plan.
    adults
        Adults in the room from now on; None = as many as were planned.

    Raises
    ------
    InputError
        Too little time is left for anything, or nobody is there.
    """
    played = _whole_course(plan, played)
    minutes_left = min(minutes_left, plan.request.seconds // SECONDS_A_MINUTE)
    wishes = _wishes(plan, played, away)
    given = given_for(
        caseload,
        group=plan.request.group,
        on=plan.request.date,
        wishes=wishes,
        adults=plan.request.adults if adults is None else adults,
    )
    wishes = replace(wishes, locked=(*wishes.locked, *_locks(plan.parts[:played])))
    seconds = plan.request.seconds  # the group's minutes may have changed since
    given = replace(given, request=replace(given.request, seconds=seconds, wishes=wishes))
    rest = _Rest(plan=plan, played=played, minutes=minutes_left, made=_made(caseload, plan))
    rest.refuse_no_time()
    for tried, laid in rest.ways(given):
        choice = choose(without_dominated(laid), fixed=rest.fixed, work=WORK_FOR_THE_REST)
        if choice is not None:
            return rest.written(tried, laid, choice)
    raise InputError(
        f"Nothing for these children fits the {minutes_left} minutes that are left.",
        field="away",
        hint="Go on with the plan as it is, or finish.",
    )


def _whole_course(plan: SessionPlan, played: int) -> int:
    """The number of parts played, with all stations of a course that was begun."""
    played = max(0, min(played, len(plan.parts)))
    while 0 < played < len(plan.parts) and (
        plan.parts[played - 1].part == plan.parts[played].part == "course"
    ):
        played += 1
    return played


def _wishes(plan: SessionPlan, played: int, away: tuple[str, ...]) -> Wishes:
    """What she wished of the rest."""
    names = {part.activity for part in plan.parts[:played]}
    wishes = near(plan)
    locked = tuple(lock for lock in wishes.locked if lock.activity not in names)
    left_out = tuple(one for one in wishes.left_out if one not in names)
    return replace(wishes, locked=locked, left_out=left_out, away=away)


def _locks(parts: tuple[PartPlan, ...]) -> tuple[Lock, ...]:
    return tuple(Lock(activity=part.activity, part=part.part) for part in parts)


@dataclass(frozen=True, kw_only=True)
class _Made:
    """Children who made no tries at a game, as far as is known."""

    blanks: frozenset[tuple[str, str | None]]
    late: frozenset[str]
    tried: frozenset[tuple[str, str]]

    def none_at(self, child: str, activity: str) -> bool:
        if (child, activity) in self.tried:
            return False
        return child in self.late or bool({(child, activity), (child, None)} & self.blanks)


def _made(caseload: Caseload, plan: SessionPlan) -> _Made:
    session = _session_of(caseload, plan)
    if session is None:
        return _Made(blanks=frozenset(), late=frozenset(), tried=frozenset())
    return _Made(
        blanks=frozenset(
            (one.child, one.activity) for one in caseload.blanks if one.session == session.id
        ),
        late=frozenset(
            one.child
            for one in caseload.late_or_early
            if one.session == session.id and one.kind == "late"
        ),
        tried=frozenset(
            (one.child, one.version.partition(".")[0])
            for one in standing_trials(caseload.trials)
            if one.session == session.id
        ),
    )


def _session_of(caseload: Caseload, plan: SessionPlan) -> Session | None:
    return next(
        (
            session
            for session in caseload.sessions_of(plan.request.group)
            if session.date == plan.request.date and session.status in ("planned", "held")
        ),
        None,
    )


@dataclass(frozen=True, kw_only=True)
class _Rest:
    """The parts that were played, and how the others are planned."""

    plan: SessionPlan
    played: int
    minutes: int
    made: _Made

    @property
    def done(self) -> tuple[PartPlan, ...]:
        return self.plan.parts[: self.played]

    @property
    def fixed(self) -> frozenset[tuple[str, str]]:
        return frozenset((part.part, part.activity) for part in self.done)

    @property
    def ahead(self) -> tuple[PartPlan, ...]:
        return self.plan.parts[self.played :]

    def refuse_no_time(self) -> None:
        if not any(shape.least <= self.minutes for shape in self._shapes_ahead()):
            raise InputError(
                f"{max(0, self.minutes)} minutes are left: too few to plan anything.",
                field="part",
                hint="Go on with the plan as it is, or finish.",
            )

    def ways(self, given: Given) -> Iterator[tuple[Given, Board]]:
        """Boards to try, the one that keeps most first."""
        laid = self._laid(given)
        yield given, self._board(given, laid)
        no_floor = _without_floor(given)
        yield no_floor, self._board(no_floor, laid)
        free = self._without_locks(no_floor)
        if free != no_floor:
            yield free, self._board(free, self._laid(free))
        hard = replace(free, allows_too_hard=True)
        yield hard, self._board(hard, self._laid(hard))

    def _laid(self, given: Given) -> Board:
        return lay_out(given, only={shape.part for shape in self._shapes_ahead()})

    def _without_locks(self, given: Given) -> Given:
        names = {part.activity for part in self.done}
        wishes = given.request.wishes
        locked = tuple(lock for lock in wishes.locked if lock.activity in names)
        wishes = replace(wishes, locked=locked, amounts=())
        return replace(given, request=replace(given.request, wishes=wishes))

    def _board(self, given: Given, board: Board) -> Board:
        """What was played as the only choice of its part, taking no time; the rest to choose."""
        over = {part.part for part in self.done} - {part.part for part in self.ahead}
        names = {part.activity for part in self.done}
        before = {shape.part for shape in self._shapes_ahead()}
        candidates = tuple(one for one in board.candidates if one.activity not in names)
        course = [part for part in self.done if part.part == "course"]
        return replace(
            board,
            request=replace(given.request, seconds=self.minutes * SECONDS_A_MINUTE),
            parts=tuple(
                PartShape(part=shape.part, least=0, most=0, always=True)
                if shape.part in over
                else self._shape(shape)
                for shape in board.parts
                if shape.part in over or shape.part in before
            ),
            courses=(
                CourseShape(
                    key=PLAYED_KEY, minutes=0, stations=len(course), rounds=course[0].rounds
                ),
            )
            if course
            else board.courses
            if "course" in before
            else (),
            candidates=(*(self._candidate(given, board, part) for part in self.done), *candidates),
        )

    def _shapes_ahead(self) -> tuple[PartShape, ...]:
        """Parts that come after the last one played."""
        minutes = self.plan.request.seconds // SECONDS_A_MINUTE
        shapes, _courses = shape_of(minutes, in_room=True)
        done = {part.part for part in self.done}
        last = max((at for at, shape in enumerate(shapes) if shape.part in done), default=-1)
        return shapes[last + 1 :]

    def _shape(self, shape: PartShape) -> PartShape:
        """A part ahead has to be there only as the closing, where there is time for it."""
        is_last = shape.part == "closing" and shape.least <= self.minutes
        return replace(shape, always=shape.always and is_last)

    def _candidate(self, given: Given, board: Board, part: PartPlan) -> Candidate:
        activity = given.library.activities[part.activity]
        skill = given.library.skills.get(activity.skill) if activity.skill else None
        rows = {row.id: row for row in part.children}
        options = {
            child.id: (self._option(given, part, child.id, rows.get(child.id)),)
            for child in board.children
        }
        level = Level(
            key=PLAYED_KEY,
            minutes=0,
            stations=1,
            rounds=part.rounds,
            explain_s=0,
            setup_s=0,
            change_s=0,
            idle_s=0,
            options=options,
        )
        return Candidate(
            part=part.part,
            activity=part.activity,
            skill=activity.skill,
            family=skill.family if skill else None,
            lanes=0,
            levels=(level,),
        )

    def _option(self, given: Given, part: PartPlan, child: str, row: ChildPlan | None) -> Option:
        """What a child has had of a part: its tries, its new step, its turns; no adult any more."""
        if row is None:
            return _had(version="", amount=0, unit="tries", tries=0, new=False, turns=0)
        version = given.library.find_version(row.version)
        units = row.amount * part.rounds
        is_none = version.step is None or self.made.none_at(child, part.activity)
        return _had(
            version=row.version,
            amount=row.amount,
            unit=row.unit,
            tries=0 if is_none else units // version.try_size,
            new=row.new,
            turns=version.whole_turns * units,
        )

    def written(self, given: Given, board: Board, choice: Choice) -> PlannedAgain:
        written = write_up(replace(given, request=board.request), board, choice, swaps=())
        starts = self.plan.request.seconds - self.minutes * SECONDS_A_MINUTE
        rest = tuple(
            replace(part, start_s=part.start_s + starts) for part in written.parts[self.played :]
        )
        request = replace(
            given.request,
            seconds=self.plan.request.seconds,
            played=Played(parts=self.played, seconds=starts),
        )
        plan = replace(written, request=request, parts=(*self.done, *rest))
        kept = {part.part for part in rest}
        locked = {lock.activity for lock in request.wishes.locked}
        return PlannedAgain(
            plan=plan,
            dropped=tuple(part for part in self.ahead if part.part not in kept),
            unlocked=tuple(
                lock.activity
                for lock in self.plan.request.wishes.locked
                if lock.activity not in locked
            ),
        )


def _had(**what: object) -> Option:
    return Option(
        adult=0,
        value=0,
        floor_cm2=0,
        things=(),
        counts=(),
        flags=(),
        reason=Reason(code="played"),
        **what,  # type: ignore[arg-type]
    )


def _without_floor(given: Given) -> Given:
    limits = replace(given.request.limits, floor_of_trials=0)
    return replace(given, request=replace(given.request, limits=limits))
