"""A planned session of today, and presses on it, for the tests of run and record."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any

from django.test import Client

from tapeline.caseload.history import Session
from tapeline.planner.plan import (
    Bound,
    ChildPlan,
    Limits,
    MadeFrom,
    PartPlan,
    PlanRequest,
    Reason,
    SessionPlan,
    plan_as_data,
)
from tapeline.web.records.convert import caseload_from_rows, session_to_row

TODAY = dt.date(2026, 11, 25)
ADDRESS = "/groups/gulls/2026-11-25/run/"
PRESSES = f"{ADDRESS}presses/"
RECORD = "/groups/gulls/2026-11-25/record/"
LOAF = {"c1": "loaf_catch.bounced.usual", "c2": "loaf_catch.hugged.usual"}


def a_session_today(**fields: Any) -> Session:
    """A session of the gulls today, planned by hand: arrival, a catch, a closing."""
    session = Session(
        id="s9",
        group="gulls",
        date=TODAY,
        plan=plan_as_data(a_plan()),
        activities=("arrive_spot", "loaf_catch", "close_wave_slow"),
        **fields,
    )
    session_to_row(session)
    return session


def a_plan() -> SessionPlan:
    """Three parts for c1 and c2 in the hall."""
    return SessionPlan(
        program="test",
        made_from=MadeFrom(library="", rules="", children={}, place=""),
        request=PlanRequest(
            group="gulls",
            date=TODAY,
            seconds=2400,
            adults=2,
            limits=Limits(floor_of_trials=5, turn_cap=3),
        ),
        parts=(
            _part("arrival", "arrive_spot", 0, dict.fromkeys(LOAF, "arrive_spot.any.usual")),
            _part("practice", "loaf_catch", 180, LOAF),
            _part(
                "closing", "close_wave_slow", 660, dict.fromkeys(LOAF, "close_wave_slow.any.usual")
            ),
        ),
        dropped=(),
        binding=(),
        swaps=(),
        bound=Bound(status="proved", gap=0.0),
        notices=(),
    )


def _part(part: Any, activity: str, start_s: int, versions: dict[str, str]) -> PartPlan:
    return PartPlan(
        part=part,
        activity=activity,
        start_s=start_s,
        seconds=480 if part == "practice" else 180,
        explain_s=25,
        setup_s=5,
        change_s=60,
        rounds=1,
        children=tuple(
            ChildPlan(
                id=child,
                place="room",
                version=version,
                amount=8,
                unit="tries",
                new=False,
                reason=Reason(code="steady_step"),
            )
            for child, version in versions.items()
        ),
    )


def a_try(number: int = 1, **fields: Any) -> dict[str, Any]:
    """A press of alone for c1 at the catch."""
    return {
        "id": f"n1.{number}",
        "kind": "try",
        "child": "c1",
        "activity": "loaf_catch",
        "version": LOAF["c1"],
        "outcome": "alone",
        "help": "alone",
        "at": "2026-11-25T14:20:00Z",
        "clock": "14:20",
        **fields,
    }


def send(browser: Client, *presses: dict[str, Any], address: str = PRESSES) -> Any:
    """Send presses as the script does."""
    body = json.dumps({"presses": presses})
    return browser.post(address, body, content_type="application/json")


def trials_now() -> tuple[Any, ...]:
    """The trials of today's session on file."""
    return tuple(one for one in caseload_from_rows().trials if one.session == "s9")
