"""The record page: type a tally sheet, real times, families' answers; correct what is on file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from tapeline.caseload.history import BlankKind, FamilyAnswer, LateOrEarly, Outcome
from tapeline.errors import InputError, TapelineError
from tapeline.sessions.recording.sheet import Counted, ResultSheet
from tapeline.web.pages.plan import SIDES, meeting_at
from tapeline.web.selectors.record_view import OUTCOME_WORDS, RecordView, record_view
from tapeline.web.selectors.run_view import BLANK_WORDS
from tapeline.web.selectors.sessions import Meeting
from tapeline.web.services.cut_short import minutes_missed, session_say_side
from tapeline.web.services.keys import new_id
from tapeline.web.services.record import answers_save, sheet_take, trials_correct
from tapeline.web.services.run import session_to_run

WENT = {
    "too_easy": "Too easy",
    "about_right": "About right",
    "too_hard": "Too hard",
    "not_fun": "Not fun",
}


@require_http_methods(["GET", "POST"])
def record(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Type a tally sheet for a session; a good one marks it held."""
    meeting = meeting_at(key, on)
    try:
        session_to_run(group_key=key, on=meeting.date)
    except TapelineError as error:
        messages.error(request, str(error))
        return redirect("session_plan", key, on)
    if request.method == "GET":
        return _page(request, meeting)
    view = cast("RecordView", record_view(meeting))
    try:
        if request.POST.get("do") == "answers":
            return _take_answers(request, meeting, view)
        taken = sheet_take(
            sheet=_sheet(request.POST, meeting, view), group_key=key, on=meeting.date
        )
    except TapelineError as error:
        return _page(request, meeting, error=str(error))
    new = sum(trial.count for trial in taken.trials)
    messages.info(request, ngettext("%d try taken in.", "%d tries taken in.", new) % new)
    if taken.already:
        messages.info(request, _("What was on file from this sheet already was not counted again."))
    return redirect("session_record", key, on)


def _take_answers(request: HttpRequest, meeting: Meeting, view: RecordView) -> HttpResponse:
    new = answers_save(answers=tuple(_answers(request.POST, view)))
    messages.info(request, ngettext("%d answer kept.", "%d answers kept.", new) % new)
    return redirect("session_record", meeting.group.id, meeting.date.isoformat())


@require_POST
def record_correct(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Correct what stands: a new row that names the one it takes the place of."""
    meeting = meeting_at(key, on)
    posted = request.POST
    try:
        session = session_to_run(group_key=key, on=meeting.date)
        trials_correct(
            session=session.id,
            child=posted.get("child", ""),
            version=posted.get("version", ""),
            outcome=_outcome(posted.get("outcome")),
            help=posted.get("help", ""),
            count=_whole(posted, "count") or 0,
            new_outcome=_outcome(posted.get("new_outcome")),
            new_help=posted.get("new_help", ""),
        )
    except TapelineError as error:
        return _page(request, meeting, error=str(error))
    messages.info(request, _("Corrected. The old row is kept beside it."))
    return redirect("session_record", key, on)


@require_POST
def record_cut_short(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Keep on whose side a session was cut short."""
    meeting = meeting_at(key, on)
    try:
        session_say_side(group_key=key, on=meeting.date, side=request.POST.get("side", ""))
    except TapelineError as error:
        return _page(request, meeting, error=str(error))
    messages.info(request, _("Kept. The minutes count on that side."))
    return redirect("session_record", key, on)


def _sheet(posted: QueryDict, meeting: Meeting, view: RecordView) -> ResultSheet:
    absent = posted.getlist("absent")
    return ResultSheet(
        sheet=posted.get("sheet", "").strip(),
        group=meeting.group.id,
        date=meeting.date,
        by=posted.get("by", "").strip(),
        began=_clock(posted.get("began", "")) or view.session.began,
        ended=_clock(posted.get("ended", "")) or view.session.ended,
        rows=(*(Counted(child=child, blank="absent") for child in absent), *_rows(posted, view)),
        late_or_early=tuple(_late(posted, view)),
    )


def _rows(posted: QueryDict, view: RecordView) -> Iterator[Counted]:
    """A row for each field group in which something was typed."""
    for part in view.games:
        for row in part.rows:
            name = f"{part.place}-{row.child}"
            alone, helped = _whole(posted, f"alone-{name}"), _whole(posted, f"helped-{name}")
            not_yet, blank = _whole(posted, f"not-{name}"), posted.get(f"blank-{name}", "")
            if not (alone or helped or not_yet or blank):
                continue
            level = posted.get(f"level-{name}", "")
            yield Counted(
                child=row.child,
                activity=part.activity,
                version=row.version.id,
                alone=alone or 0,
                with_help={level: helped} if helped else {},
                not_yet=not_yet or 0,
                blank=cast("BlankKind", blank) if blank in BLANK_WORDS else None,
            )


def _late(posted: QueryDict, view: RecordView) -> Iterator[LateOrEarly]:
    for child in view.children:
        for kind in ("late", "left_early"):
            at = _clock(posted.get(f"{kind}-{child.id}", ""))
            if at:
                yield LateOrEarly(
                    id=f"{view.session.id}.{child.id}.{kind}.{at.replace(':', '')}",
                    session=view.session.id,
                    child=child.id,
                    kind=kind,
                    at=at,
                )


def _answers(posted: QueryDict, view: RecordView) -> Iterator[FamilyAnswer]:
    for child in view.children:
        days, went = _whole(posted, f"days-{child.id}"), posted.get(f"went-{child.id}", "")
        hurt = posted.get(f"hurt-{child.id}", "").strip()
        if days is None and went not in WENT and not hurt:
            continue
        if days is not None and days > 7:
            raise InputError(
                f"{child.name} has {days} days in a week.",
                field="days_done",
                hint="Type 0 to 7 days.",
            )
        yield FamilyAnswer(
            id=f"{posted.get('answers', '')}-{child.id}",
            session=view.session.id,
            child=child.id,
            days_done=days,
            went=went if went in WENT else None,
            hurt_or_scary=hurt,
        )


def _clock(text: str) -> str | None:
    """A time as typed: 1412, 14.12 and 14:12 are the same; what is none is refused later."""
    text = text.strip()
    found = re.fullmatch(r"(\d{1,2})[:.h]?(\d\d)", text)
    return f"{int(found[1]):02d}:{found[2]}" if found else text or None


def _whole(posted: QueryDict, name: str) -> int | None:
    text = posted.get(name, "").strip()
    if not text:
        return None
    if not text.isdecimal():
        raise InputError(
            f"{text!r} is not a whole number.", field=name, hint="Type a number such as 3."
        )
    return int(text)


def _outcome(text: str | None) -> Outcome:
    if text not in OUTCOME_WORDS:
        raise InputError(f"{text!r} is no outcome.", field="outcome", hint="Open the page anew.")
    return text


def _page(request: HttpRequest, meeting: Meeting, *, error: str = "") -> HttpResponse:
    if request.method == "POST":  # something may have been stored since it was read
        meeting = meeting_at(meeting.group.id, meeting.date.isoformat())
    view = record_view(meeting)
    if view is None:
        return redirect("session_plan", meeting.group.id, meeting.date.isoformat())
    typed = request.POST if error else QueryDict()
    context: dict[str, Any] = {
        "meeting": meeting,
        "view": view,
        "missed": minutes_missed(view.session, meeting.group),
        "sides": SIDES.items(),
        "error": error,
        "typed": typed,
        "grid": _grid(view, typed),
        "there": [
            (
                child,
                child.id in typed.getlist("absent"),
                typed.get(f"late-{child.id}", ""),
                typed.get(f"left_early-{child.id}", ""),
            )
            for child in view.children
        ],
        "families": [
            (
                child,
                typed.get(f"days-{child.id}", ""),
                typed.get(f"went-{child.id}", ""),
                typed.get(f"hurt-{child.id}", ""),
            )
            for child in view.children
        ],
        "went": WENT.items(),
        "blanks": [(kind, words) for kind, words in BLANK_WORDS.items() if kind != "absent"],
        "outcomes": OUTCOME_WORDS.items(),
        "answers_id": typed.get("answers") or new_id("a"),
        "page": "week",
    }
    return render(request, "run/record.html", context, status=422 if error else 200)


def _grid(view: RecordView, typed: QueryDict) -> list[tuple[Any, list[dict[str, Any]]]]:
    names = {child.id: child.name for child in view.children}
    return [
        (
            part,
            [
                {
                    "row": row,
                    "child_name": names[row.child],
                    "name": f"{part.place}-{row.child}",
                    "level": typed.get(f"level-{part.place}-{row.child}", row.help.id),
                    **{
                        what: typed.get(f"{what}-{part.place}-{row.child}", "")
                        for what in ("alone", "helped", "not", "blank")
                    },
                }
                for row in part.rows
            ],
        )
        for part in view.games
    ]
