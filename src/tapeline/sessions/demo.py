"""The invented caseload of an invented harbour town, as it is on a given day.

People, homes, rooms and eight weeks of history stand in ``data/demo/``; here distances from
today become dates and short rows become the rows of a caseload file.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Any

from tapeline import __version__
from tapeline.activities.library_files import content_of, data_file
from tapeline.caseload.caseload import FORMAT, Caseload
from tapeline.caseload.file import ADAPTER
from tapeline.caseload.history import Source
from tapeline.caseload.places import WEEKDAYS, Place, Weekday

SOURCES: dict[Place, Source] = {"room": "tally", "home": "run", "home_later": "family"}


def demo_caseload(today: dt.date) -> Caseload:
    """The invented caseload with every date counted from `today`.

    Three groups, fifteen children of three to seven years, two terms around today and eight
    weeks of trials, absences and families' answers. The same day gives the same caseload.
    """
    town, people, homes = (_content(name) for name in ("town", "children", "homes"))
    plain = {
        "format": FORMAT,
        "program": f"tapeline {__version__}",
        **town,
        "homes": [_home(row) for row in homes["homes"]],
        "children": [_child(row) for row in people["children"]],
        "invented": True,
    }
    history = [_history_of(group, today) for group in town["groups"]]
    for kind in ("sessions", "trials", "blanks", "family_answers"):
        plain[kind] = [row for one in history for row in one[kind]]
    return ADAPTER.validate_python(_dated(plain, today))


def next_meeting(weekday: Weekday, today: dt.date) -> dt.date:
    """The first such weekday from today on, today included."""
    return today + dt.timedelta(days=(WEEKDAYS.index(weekday) - today.weekday()) % 7)


def _content(name: str) -> Any:
    return content_of(data_file(f"demo/{name}.yaml"))


def _child(row: Mapping[str, Any]) -> dict[str, Any]:
    """A child's row with whole step ids, and each goal with its skill."""
    starts = [{"skill": skill, "step": f"{skill}.{step}"} for skill, step in row["skills"].items()]
    goals = [{**goal, "skill": goal["step"].partition(".")[0]} for goal in row["goals"]]
    return {**row, "skills": starts, "goals": goals}


def _home(row: Mapping[str, Any]) -> dict[str, Any]:
    """A home's row with each thing it owns as a row; it owns enough of each."""
    return {**row, "things": [{"material": thing} for thing in row["things"]]}


def _dated(value: Any, today: dt.date) -> Any:
    """The value with every distance from today turned into a date or a birth month."""
    match value:
        case {"in_days": days}:
            return today + dt.timedelta(days=days)
        case {"in_weeks": weeks, "on": weekday}:
            monday = today - dt.timedelta(days=today.weekday())
            return monday + dt.timedelta(weeks=weeks, days=WEEKDAYS.index(weekday))
        case {"meetings": weeks, "on": weekday}:
            return next_meeting(weekday, today) + dt.timedelta(weeks=weeks)
        case {"months_old": months}:
            return _months_before(today, months)
        case dict():
            return {name: _dated(found, today) for name, found in value.items()}
        case list():
            return [_dated(found, today) for found in value]
    return value


def _months_before(today: dt.date, months: int) -> str:
    year, month = divmod(12 * today.year + today.month - 1 - months, 12)
    return f"{year:04d}-{month + 1:02d}"


def _history_of(group: Mapping[str, Any], today: dt.date) -> dict[str, list[Any]]:
    """Sessions, trials, blanks and answers of one group, week by week up to last week."""
    found: dict[str, list[Any]] = {
        kind: [] for kind in ("sessions", "trials", "blanks", "family_answers")
    }
    coming = next_meeting(group["weekday"], today)
    sources = {one["child"]: SOURCES[one.get("place", "room")] for one in group["members"]}
    for week in _content(f"history_{group['id']}")["weeks"]:
        date = coming - dt.timedelta(weeks=week["weeks_ago"], days=-week.get("days_later", 0))
        session = f"{group['id']}-{week['id']}"
        found["sessions"].append(_session(session, group["id"], date, week))
        found["trials"] += _trials(session, week.get("trials", {}), sources)
        found["blanks"] += [{"session": session, **blank} for blank in week.get("blanks", [])]
        found["family_answers"] += [
            {"id": f"{session}-{answer['child']}", "session": session, **answer}
            for answer in week.get("answers", [])
        ]
    return found


def _session(session: str, group: str, date: dt.date, week: Mapping[str, Any]) -> dict[str, Any]:
    kept = ("status", "side", "reason", "began", "ended", "activities")
    row: dict[str, Any] = {name: week[name] for name in kept if name in week}
    if "moved_days" in week:
        row["moved_to"] = date + dt.timedelta(days=week["moved_days"])
    return {"id": session, "group": group, "date": date, **row}


def _trials(
    session: str, children: Mapping[str, Any], sources: Mapping[str, Source]
) -> Iterator[dict[str, Any]]:
    """Trials from rows such as ``quay_walk.tape.usual: {line_walk.tape: [4 alone]}``."""
    for child, versions in children.items():
        for number, (version, step, entry) in enumerate(_entries(versions), start=1):
            yield {
                "id": f"{session}-{child}-{number}",
                "session": session,
                "child": child,
                "version": version,
                "step": step,
                "source": sources[child],
                **_goes(entry),
            }


def _entries(versions: Mapping[str, Any]) -> Iterator[tuple[str, str, str]]:
    for version, steps in versions.items():
        for step, entries in steps.items():
            yield from ((version, step, entry) for entry in entries)


def _goes(entry: str) -> dict[str, Any]:
    count, *words = entry.split()
    if words[0] == "not_yet":
        return {"count": int(count), "outcome": "not_yet", "help": words[1]}
    outcome = "alone" if words[0] == "alone" else "with_help"
    return {"count": int(count), "outcome": outcome, "help": words[0]}
