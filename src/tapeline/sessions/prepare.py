"""One group, one date: the proposed session."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tapeline.activities.loader import load_rule_book
from tapeline.activities.models import Library
from tapeline.activities.rules import RuleBook
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.her_seconds import with_her_seconds
from tapeline.caseload.own_library import left_out_for_good, library_in_force
from tapeline.caseload.places import Group
from tapeline.errors import InputError, NoFeasiblePlan
from tapeline.planner.benefit import Past
from tapeline.planner.board import Board
from tapeline.planner.clash import refuse_with_reason
from tapeline.planner.given import Given
from tapeline.planner.lay_out import lay_out
from tapeline.planner.places import who_takes_part
from tapeline.planner.plan import Limits, PlanRequest, SessionPlan, Wishes
from tapeline.planner.solve import Choice, Halt, choose
from tapeline.planner.swaps import swaps_for
from tapeline.planner.words import Names
from tapeline.planner.write_up import parts_in_order, write_up
from tapeline.sessions.learn import worths_of


def plan_session(
    caseload: Caseload,
    *,
    group: str,
    on: dt.date,
    wishes: Wishes | None = None,
    adults: int | None = None,
) -> SessionPlan:
    """The session proposed for a group on a date.

    Parameters
    ----------
    group
        Id of the group.
    wishes
        What she locked, left out, or asked an amount of; who is away.
    adults
        Adults in the room that day, where it differs from the group's usual number.

    Raises
    ------
    InputError
        No such group, nobody in it, a closed day, no adult, an unknown activity.
    NoFeasiblePlan
        Wishes and limits clash; the error names them and the ways out.
    """
    given, board = lay_out_session(caseload, group=group, on=on, wishes=wishes, adults=adults)
    return choose_session(given, board).written()


@dataclass(frozen=True, kw_only=True)
class Decided:
    """A choice with what it was made from."""

    given: Given
    board: Board
    choice: Choice

    def written(self) -> SessionPlan:
        """The whole plan, each part's best swap included."""
        swaps = swaps_for(self.board, self.choice, parts_in_order(self.board, self.choice))
        return write_up(self.given, self.board, self.choice, swaps)

    def as_it_stands(self) -> SessionPlan:
        """The plan while its swaps are not looked for yet."""
        return write_up(self.given, self.board, self.choice, ())


def choose_session(
    given: Given,
    board: Board,
    *,
    watch: Callable[[Decided], None] | None = None,
    halt: Halt | None = None,
    bounds: Callable[[int], None] | None = None,
) -> Decided:
    """The best session on a board; where nothing fits, with cautions lifted one by one.

    Parameters
    ----------
    watch, halt, bounds
        As `choose` takes them.

    Raises
    ------
    NoFeasiblePlan
        Nothing fits; or the search was ended before anything was found.
    """
    for tried in (given, *_lifted(given)):
        laid = board if tried is given else lay_out(tried)
        choice = choose(laid, watch=_watching(tried, laid, watch), halt=halt, bounds=bounds)
        if choice is not None:
            return Decided(given=tried, board=laid, choice=choice)
        if halt is not None and halt.is_called:
            raise NoFeasiblePlan("The search was ended before a plan was found.", clash=())
    raise refuse_with_reason(
        laid,
        lay_out_again=lambda changed: lay_out(_given_again(tried, changed)),
        names=names_for(tried.caseload, tried.library, tried.book),
    )


def _watching(
    given: Given, board: Board, watch: Callable[[Decided], None] | None
) -> Callable[[Choice], None] | None:
    if watch is None:
        return None
    return lambda choice: watch(Decided(given=given, board=board, choice=choice))


def _lifted(given: Given) -> Iterator[Given]:
    """The same with cautions lifted one after the other, where nothing fits otherwise.

    Steps that are hard, and with them the step that a lost skill keeps, come before new load;
    what was lifted stands in the plan's notices.
    """
    yield replace(given, allows_too_hard=True)
    if given.losing:
        yield replace(given, allows_too_hard=True, allows_load=True)


def lay_out_session(
    caseload: Caseload,
    *,
    group: str,
    on: dt.date,
    wishes: Wishes | None = None,
    adults: int | None = None,
) -> tuple[Given, Board]:
    """What a session is planned from, and all it may be chosen from; see `plan_session`."""
    given = given_for(caseload, group=group, on=on, wishes=wishes, adults=adults)
    return given, lay_out(given)


def given_for(
    caseload: Caseload,
    *,
    group: str,
    on: dt.date,
    wishes: Wishes | None = None,
    adults: int | None = None,
) -> Given:
    """All that a session is planned from; see `plan_session`."""
    library = with_her_seconds(library_in_force(caseload), caseload)
    book = load_rule_book()
    wanted = caseload.group(group)
    request = _request(caseload, wanted, on, wishes or Wishes(), adults, book)
    _refuse_unknown(request.wishes, library)
    _refuse_left_out(request.wishes, caseload, library)
    return _given(caseload, wanted, library, book, request)


def names_for(caseload: Caseload, library: Library, book: RuleBook) -> Names:
    """Names for the ids of a plan."""
    return Names(
        children={child.id: child.name for child in caseload.children},
        goals={
            (child.id, goal.id): goal.name for child in caseload.children for goal in child.goals
        },
        library=library,
        book=book,
    )


def _given_again(given: Given, request: PlanRequest) -> Given:
    """The same for another request; what children, date and place alone decide is not asked again."""
    again = _given(given.caseload, given.group, given.library, given.book, request, before=given)
    return replace(again, allows_too_hard=given.allows_too_hard, allows_load=given.allows_load)


def _request(
    caseload: Caseload,
    group: Group,
    on: dt.date,
    wishes: Wishes,
    adults: int | None,
    book: RuleBook,
) -> PlanRequest:
    if group.site is not None:
        caseload.site(group.site).refuse_date(on)
    floor = group.floor_of_trials
    request = PlanRequest(
        group=group.id,
        date=on,
        seconds=60 * group.minutes,
        adults=group.adults if adults is None else adults,
        limits=Limits(
            floor_of_trials=book.floor_of_trials if floor is None else floor,
            turn_cap=book.turn_cap,
        ),
        wishes=wishes,
    )
    _refuse_nobody(caseload, group, request)
    return request


def _refuse_nobody(caseload: Caseload, group: Group, request: PlanRequest) -> None:
    coming = [
        (member, child)
        for member, child in caseload.who_comes(group, request.date)
        if child.id not in request.wishes.away
    ]
    if not coming:
        raise InputError(
            f"{group.name} has no children on {request.date}.",
            field="members",
            hint="Add children to the group, or choose another date.",
        )
    in_room = any(member.place == "room" for member, _ in coming)
    if in_room and request.adults < 1:
        raise InputError(
            f"{group.name} has no adult in the room on {request.date}.",
            field="adults",
            hint="Say who will be there, at least one adult.",
        )


def _refuse_unknown(wishes: Wishes, library: Library) -> None:
    named = [lock.activity for lock in wishes.locked] + list(wishes.left_out)
    named += [amount.activity for amount in wishes.amounts]
    for activity in named:
        if activity not in library.activities:
            raise InputError(
                f"There is no activity {activity!r} in the library.",
                field="activity",
                hint="Choose one the library lists.",
            )


def _refuse_left_out(wishes: Wishes, caseload: Caseload, library: Library) -> None:
    for lock in wishes.locked:
        if lock.activity in left_out_for_good(caseload):
            raise InputError(
                f"{library.activities[lock.activity].name} is locked here and left out for good.",
                field="activity",
                hint="Unlock it, or take it in again in the library.",
            )


def _given(
    caseload: Caseload,
    group: Group,
    library: Library,
    book: RuleBook,
    request: PlanRequest,
    *,
    before: Given | None = None,
) -> Given:
    taking = who_takes_part(caseload, group, on=request.date, away=request.wishes.away)
    is_alike = before is not None and (before.taking, before.request.date) == (taking, request.date)
    return Given(
        request=request,
        caseload=caseload,
        group=group,
        taking=taking,
        library=library,
        book=book,
        worth=before.worth
        if before is not None and is_alike
        else worths_of(caseload, library, [one.child for one in taking], on=request.date),
        past=past_of(caseload, group, request.date),
        rulings=before.rulings if before is not None and is_alike else {},
    )


def past_of(caseload: Caseload, group: Group, before: dt.date) -> Past:
    """What the group has played before a date, latest first; cancelled sessions left out."""
    earlier = [
        (session.date, frozenset(session.activities))
        for session in caseload.sessions_of(group.id)
        if session.date < before and session.status in ("planned", "held") and session.activities
    ]
    return Past(sessions=tuple(reversed(earlier)))
