"""What a sheet of results cannot say: one sentence for each thing that cannot be right."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator

from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, refuse_no_clock, standing_trials
from tapeline.errors import InputError
from tapeline.sessions.recording.sheet import Counted, ResultSheet, sheet_key, version_of

MOST_TRIES = 200
COUNTS_NOTHING = {"absent": "was absent", "not_offered": "was not offered it"}


def refuse_session(
    caseload: Caseload, sheet: ResultSheet, *, group: str, on: dt.date, today: dt.date
) -> Session:
    """The session that a sheet belongs to.

    Raises
    ------
    InputError
        The sheet is of another group or date, or there was no such session.
    """
    name = caseload.group(group).name
    if sheet.group != group:
        raise InputError(
            f"Sheet {sheet.sheet} is of group {sheet.group}, not of {name}.",
            field="group",
            hint="Choose the group that the sheet was printed for.",
        )
    if sheet.date != on:
        raise InputError(
            f"Sheet {sheet.sheet} is of {sheet.date}, not of {on}.",
            field="date",
            hint="Choose the date that stands on the sheet.",
        )
    refuse_future(on, today, name)
    session = _session(caseload, sheet, group, on, name)
    _refuse_sheet_of_another(caseload, sheet, session)
    return session


def refuse_future(on: dt.date, today: dt.date, group_name: str) -> None:
    """Refuse to record what has not happened yet."""
    if on > today:
        raise InputError(
            f"The session of {group_name} on {on} lies ahead: today is {today}.",
            field="date",
            hint="Record it on its day, or check the date.",
        )


def _session(caseload: Caseload, sheet: ResultSheet, group: str, on: dt.date, name: str) -> Session:
    there = [one for one in caseload.sessions_of(group) if one.date == on]
    live = [one for one in there if one.status in ("planned", "held")]
    if not there:
        raise InputError(
            f"{name} has no session on {on}.",
            field="date",
            hint="Check the date, or plan that session first.",
        )
    if not live:
        raise InputError(
            f"The session of {name} on {on} was {there[-1].status} ({there[-1].reason}).",
            field="date",
            hint="Take that back first if it was held after all.",
        )
    session = live[-1]
    if session.status == "planned" and not (sheet.began or sheet.ended):
        raise InputError(
            f"The session of {name} on {on} was not held yet.",
            field="began",
            hint="Type when it began and ended; that says it was held.",
        )
    return session


def _refuse_sheet_of_another(caseload: Caseload, sheet: ResultSheet, session: Session) -> None:
    key = sheet_key(sheet)
    for old in caseload.sheets:
        if old.id == key and old.session != session.id:
            other = next(one for one in caseload.sessions if one.id == old.session)
            raise InputError(
                f"Sheet {sheet.sheet} was taken in for {other.group} on {other.date} already.",
                field="sheet",
                hint="Check the id on the sheet.",
            )


def refuse_times(session: Session) -> None:
    """Refuse a start or an end that is no time of day, or an end before the start."""
    for text, name in ((session.began, "began"), (session.ended, "ended")):
        if text is not None:
            refuse_no_clock(text, f"The session {name}", name)
    if session.began and session.ended and session.ended < session.began:
        raise InputError(
            f"The session ended at {session.ended}, and began at {session.began}.",
            field="ended",
            hint="Correct one of the two.",
        )


def faults_of_rows(
    caseload: Caseload, sheet: ResultSheet, *, session: Session, library: Library
) -> Iterator[InputError]:
    """Every row of a sheet that cannot be right."""
    there = {
        member.child
        for member, _ in caseload.who_comes(caseload.group(session.group), session.date)
    }
    yield from _twice(caseload, sheet)
    for row in sheet.rows:
        if row.child not in there:
            yield InputError(
                f"{_name(caseload, row.child)} was not in the group on {session.date}.",
                field="child",
                hint="Check the mark, or add the child to the group from that day.",
            )
            continue
        yield from _of_counts(caseload, row)
        yield from _of_levels(caseload, row)
        yield from _of_activity(caseload, row, session, library)
        yield from _of_absence(caseload, sheet, row, session)
    others = [one.child for one in sheet.answers]
    others += [one.child for one in sheet.late_or_early]
    others += [one.child for one in sheet.stops if one.child is not None]
    for child in others:
        if child not in there:
            yield InputError(
                f"{_name(caseload, child)} was not in the group on {session.date}.",
                field="child",
                hint="Check whom this is about.",
            )


def _twice(caseload: Caseload, sheet: ResultSheet) -> Iterator[InputError]:
    rows = Counter((row.child, row.version or row.activity) for row in sheet.rows)
    for (child, activity), count in rows.items():
        if count > 1:
            yield InputError(
                f"{_name(caseload, child)} stands {count} times under {activity}.",
                field="rows",
                hint="Put the numbers together in one row.",
            )


def _of_counts(caseload: Caseload, row: Counted) -> Iterator[InputError]:
    name, where = _name(caseload, row.child), row.activity or "this sheet"
    numbers = [row.alone, *row.with_help.values(), row.not_yet or 0, row.tries or 0]
    if min(numbers) < 0:
        yield InputError(
            f"{name} has {min(numbers)} tries at {where}.",
            field="alone",
            hint="Type 0 or more, or a blank if nothing was counted.",
        )
        return
    if row.tries is not None and row.successes > row.tries:
        yield InputError(
            f"{name} has {row.successes} that went well out of {row.tries} tries at {where}.",
            field="tries",
            hint="Correct one of the two numbers.",
        )
    elif row.tries is not None and row.counted != row.tries:
        yield InputError(
            f"{name} has {row.counted} tries counted and {row.tries} in all at {where}.",
            field="tries",
            hint="Leave out the number in all, or correct one of them.",
        )
    if row.counted > MOST_TRIES:
        yield InputError(
            f"{name} has {row.counted} tries at {where} in one session.",
            field="alone",
            hint=f"Type at most {MOST_TRIES}.",
        )
    if row.blank in COUNTS_NOTHING and row.counted:
        yield InputError(
            f"{name} has {row.counted} tries at {where}, and {COUNTS_NOTHING[row.blank]}.",
            field="blank",
            hint="Take out the tries or the blank.",
        )
    if not row.counted and not row.blank:
        yield InputError(
            f"{name} has neither tries nor a blank at {where}.",
            field="alone",
            hint="Leave the row out, or say why nothing was counted.",
        )


def _of_levels(caseload: Caseload, row: Counted) -> Iterator[InputError]:
    levels = [level.id for level in caseload.prompt_levels]
    named = list(row.with_help) + ([row.not_yet_help] if row.not_yet_help else [])
    for level in named:
        if level not in levels:
            yield InputError(
                f"{_name(caseload, row.child)} had the help {level!r}, which is not in your list.",
                field="with_help",
                hint=f"Use one of: {', '.join(levels[:-1])}.",
            )
    if levels[-1] in row.with_help:
        yield InputError(
            f"{_name(caseload, row.child)} has tries with help that were without help.",
            field="with_help",
            hint="Write them under alone.",
        )


def _of_activity(
    caseload: Caseload, row: Counted, session: Session, library: Library
) -> Iterator[InputError]:
    name = _name(caseload, row.child)
    if row.activity is None and row.version is None:
        if row.blank != "absent":
            yield InputError(
                f"A row of {name} names no activity.", field="activity", hint="Say which it was."
            )
        return
    if row.activity is not None and row.activity not in library.activities:
        yield InputError(
            f"{name} has a row for {row.activity!r}, which the library does not have.",
            field="activity",
            hint="Use an activity of the session's plan.",
        )
        return
    if not row.counted:
        return
    try:
        version = version_of(row, session, library)
    except InputError as error:
        yield error
        return
    if version is None:
        yield InputError(
            f"{name} had no version of {row.activity} in the plan.",
            field="version",
            hint="Say which version was played.",
        )
    elif row.activity is not None and version.activity != row.activity:
        yield InputError(
            f"{name} has the version {version.id} under {row.activity}.",
            field="version",
            hint="Use a version of that activity.",
        )
    elif version.step is None:
        yield InputError(
            f"{name} has tries at {version.activity}, which is no practice of a step.",
            field="activity",
            hint="Arrival, warm-up, cool-down and closing are not counted.",
        )


def _of_absence(
    caseload: Caseload, sheet: ResultSheet, row: Counted, session: Session
) -> Iterator[InputError]:
    name = _name(caseload, row.child)
    absent = {one.child for one in sheet.rows if one.blank == "absent"}
    absent |= {
        one.child
        for one in caseload.blanks
        if one.session == session.id and one.kind == "absent" and one.activity is None
    }
    if row.counted and row.child in absent and row.blank != "absent":
        yield InputError(
            f"{name} has {row.counted} tries at {row.activity}, and was absent that day.",
            field="child",
            hint="Take out the tries, or that the child was absent.",
        )
    if row.blank == "absent" and any(
        trial.session == session.id and trial.child == row.child
        for trial in standing_trials(caseload.trials)
    ):
        yield InputError(
            f"{name} is marked absent, and has tries on file for that day.",
            field="blank",
            hint="Correct those tries first, or take the mark out.",
        )


def _name(caseload: Caseload, child_id: str) -> str:
    return next((child.name for child in caseload.children if child.id == child_id), child_id)
