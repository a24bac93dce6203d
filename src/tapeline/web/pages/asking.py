"""Ask for a plan: a press answers at once, the search goes on behind, and the page keeps up."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from tapeline.errors import InputError, TapelineError
from tapeline.web.pages.plan import (
    MOST_DIGITS,
    date_at,
    meeting_at,
    place_in,
    plan_address,
    plan_context,
    plan_page,
)
from tapeline.web.selectors.looking_view import looking_in_words
from tapeline.web.selectors.sessions import Meeting, plan_of
from tapeline.web.services.asking import (
    plan_ask,
    plan_asked,
    plan_go_back,
    plan_settle,
    plan_take,
    standing_of,
)

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan, Wishes

A_MOMENT_S = 0.1  # a wish that cannot be is often known by then


@require_POST
def session_ask(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Plan, plan again with a changed wish, take what stands, or go back."""
    meeting = meeting_at(key, on)
    try:
        error = _done(request, meeting)
    except TapelineError as refused:
        error = refused
    if error is not None:
        return plan_page(request, meeting_at(key, on), error=error)
    plan = plan_of(meeting_at(key, on).session)
    part = place_in(request.POST.get("part", "")) if plan is None else _part_to_show(request, plan)
    return redirect(plan_address(key, meeting.date, part))


def _done(request: HttpRequest, meeting: Meeting) -> TapelineError | None:
    """What the button asks; the error of a search that is over within a moment."""
    key, on = meeting.group.id, meeting.date
    match request.POST.get("do"):
        case "take":
            plan_take(group_key=key, on=on, number=_whole_number(request, "number") or 0)
        case "back":
            plan_go_back(group_key=key, on=on)
        case "settle":
            plan_settle(group_key=key, on=on)
        case _:
            before = plan_asked(plan_of(meeting.session), standing_of(key, on))
            looking = plan_ask(
                group_key=key,
                on=on,
                wishes=_wishes(request, before),
                adults=_whole_number(request, "adults"),
            )
            looking.wait(A_MOMENT_S)
            return looking.error
    return None


def _wishes(request: HttpRequest, before: SessionPlan | None) -> Wishes | None:
    """The wishes that a button asks for; None keeps what was asked before."""
    from tapeline.planner import wishes as change
    from tapeline.planner.plan import wishes_from_json

    posted = request.POST
    if posted.get("do") == "way":
        return wishes_from_json(posted.get("wishes", ""))
    if before is None:
        return None
    activity = posted.get("activity", "")
    match posted.get("do", ""):
        case "lock":
            return change.lock(before, activity)
        case "unlock":
            return change.unlock(before, activity)
        case "leave_out":
            return change.leave_out(before, activity)
        case "take_in":
            return change.take_in(before, activity)
        case "swap":
            part = before.part_of(activity)
            if part is None:
                raise InputError(
                    f"{activity} is no longer in the plan.", field="activity", hint="Choose again."
                )
            return change.swap(before, activity, posted.get("other", ""), part.part)
        case "amount":
            amount = _whole_number(request, "amount")
            return change.ask_amount(before, activity, amount, posted.get("child") or None)
        case "away":
            wishes = change.set_away(before, tuple(posted.getlist("away")))
            return replace(wishes, any_skill=tuple(posted.getlist("any_skill")))
        case "afresh":
            return change.afresh(before)
    return change.near(before)


def _whole_number(request: HttpRequest, name: str) -> int | None:
    text = request.POST.get(name, "").strip()
    if not text:
        return None
    if not text.isdecimal() or len(text) > MOST_DIGITS:
        raise InputError(
            f"{text[:20]!r} is not a whole number up to {10**MOST_DIGITS - 1}.",
            field=name,
            hint="Type a number such as 8.",
        )
    return int(text)


def _part_to_show(request: HttpRequest, plan: SessionPlan) -> int:
    """The part she was looking at, or the activity that came into its place."""
    wanted = request.POST.get("other") or request.POST.get("activity", "")
    for place, part in enumerate(plan.parts):
        if part.activity == wanted:
            return place
    return place_in(request.POST.get("part", ""))


@require_GET
def session_looking(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """What a page that is open asks every second: how the search stands, and a newer plan.

    Answers nothing where nothing is new. A page that she is at work on (`quiet`) gets the
    sentence alone, with a link to the newer plan.
    """
    standing = standing_of(key, date_at(on))
    meeting = meeting_at(key, on)  # after it: the plan shown is never older than what is said
    asked = request.GET
    if not request.htmx:
        return redirect(plan_address(key, meeting.date, place_in(asked.get("part", ""))))
    looking, is_quiet = looking_in_words(standing, has_plan=meeting.has_plan), "quiet" in asked
    is_newer = str(standing.stored) != asked.get("seen", "") or looking is None
    if looking is not None and looking.said == asked.get("said") and (is_quiet or not is_newer):
        return HttpResponse(status=204)
    context = plan_context(request, meeting, standing) | {
        "shows_plan": is_newer and not is_quiet,
        "is_newer": is_newer and is_quiet,
        "seen": asked.get("seen", "") if is_quiet else standing.stored,
    }
    return render(request, "plan/looking_answer.html", context)
