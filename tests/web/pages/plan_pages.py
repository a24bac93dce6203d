"""A planned session of the small caseload, and the page that shows it."""

from __future__ import annotations

import datetime as dt
import html
import re
from dataclasses import replace
from functools import cache
from typing import Any

from django.test import Client

from tapeline.caseload.file import parse_caseload
from tapeline.caseload.history import Session
from tapeline.planner.plan import SessionPlan, plan_as_data, read_plan
from tapeline.sessions.prepare import plan_session
from tapeline.web.records.convert import session_to_row
from tapeline.web.selectors.sessions import plan_of, session_of
from tests.web.conftest import SMALL

GROUP = "gulls"
TUESDAY = dt.date(2026, 12, 1)
PLAN = f"/groups/{GROUP}/{TUESDAY}/"
ASK = f"{PLAN}ask/"
CALL_OFF = f"{PLAN}call-off/"
PACKET = f"{PLAN}packet.pdf"


@cache
def _plan_of_small() -> dict[str, Any]:
    caseload = parse_caseload(SMALL, name="small.json")
    return plan_as_data(plan_session(caseload, group=GROUP, on=TUESDAY))


def keep_plan() -> SessionPlan:
    """The plan of the small caseload's next Tuesday, kept as if it had been asked for."""
    plan = read_plan(_plan_of_small())
    played = tuple(dict.fromkeys(part.activity for part in plan.parts))
    session = Session(id="s9", group=GROUP, date=TUESDAY, activities=played)
    session_to_row(replace(session, plan=_plan_of_small()))
    return plan


def kept() -> SessionPlan:
    """The plan that is on file now."""
    found = plan_of(session_of(GROUP, TUESDAY))
    assert found is not None
    return found


def ask(browser: Client, do: str = "", **words: Any) -> Any:
    """Press a button of the plan page and follow where it leads."""
    return browser.post(ASK, {"do": do, **words}, follow=True)


def text_of(answer: Any) -> str:
    """What a page says, without its tags, in one line."""
    body = re.sub(r"<[^>]+>", " ", answer.content.decode())
    return " ".join(html.unescape(body).split())


def fault_of(answer: Any) -> str:
    """The sentence in the page's alert; empty where there is none."""
    found = re.search(r'role="alert"[^>]*>(.*?)</div>', answer.content.decode(), re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", found[1])).split()) if found else ""
