"""A small recorded session: three in the hall, one followed a recording, one stop."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Blank, FamilyAnswer, LateOrEarly, Session, Stop, Trial
from tapeline.caseload.people import Baseline, Therapist
from tapeline.caseload.places import Membership, Term
from tests.builders import TODAY, a_child, a_goal, a_group, a_home, a_site

WEEK = dt.timedelta(weeks=1)
HELD = "s1"
BOUNCED = "loaf_catch.bounced.usual"
HUGGED = "loaf_catch.hugged.usual"


def tries(number: int, child: str, outcome: str, **fields: Any) -> Trial:
    """One row of tries of one child at catching, in the held session."""
    values = {
        "id": f"t{number}",
        "session": HELD,
        "child": child,
        "version": BOUNCED,
        "step": "catch2.bounced",
        "outcome": outcome,
        **fields,
    }
    return Trial(**values)


def a_written_world(**fields: Any) -> Caseload:
    """Amara, Bruno, Cleo in the hall, Dario at home later; the session was held today."""
    goal = a_goal(
        date=TODAY + 6 * WEEK, baseline=Baseline(k=1, n=5, date=TODAY - 4 * WEEK), weight=3
    )
    children = (
        a_child(goals=(goal,)),
        a_child(id="c2", name="Bruno", mark="moon"),
        a_child(id="c3", name="Cleo", mark="leaf"),
        a_child(id="c4", name="Dario", mark="kite", home="h4"),
    )
    group = a_group("c1", "c2", "c3")
    later = Membership(child="c4", place="home_later")
    group = replace(group, members=(*group.members, later))
    site = a_site(terms=(Term(name="Spring", starts=TODAY - 6 * WEEK, ends=TODAY + 6 * WEEK),))
    values = {
        "therapist": Therapist(name="M. Quint", credential="OTR/L", ring="Office, 555-0142"),
        "children": children,
        "groups": (group,),
        "sites": (site,),
        "homes": (a_home(id="h4"),),
        "sessions": (
            Session(
                id=HELD,
                group="tuesday",
                date=TODAY,
                status="held",
                began="14:10",
                ended="14:50",
                activities=("loaf_catch",),
            ),
        ),
        "trials": (
            tries(1, "c1", "alone", count=3),
            tries(2, "c1", "with_help", help="word", count=2),
            tries(3, "c1", "not_yet", help="model"),
            tries(4, "c2", "alone", count=4, version=HUGGED, step="catch2.hugged"),
        ),
        "blanks": (
            Blank(session=HELD, child="c3", kind="absent"),
            Blank(session=HELD, child="c1", kind="refused", activity="quay_walk"),
        ),
        "late_or_early": (LateOrEarly(id="l1", session=HELD, child="c2", kind="late", at="14:20"),),
        "family_answers": (
            FamilyAnswer(id="a1", session=HELD, child="c4", days_done=2, went="about_right"),
        ),
        "stops": (
            Stop(
                id="x1",
                session=HELD,
                happened="Bruno bumped into Amara",
                done="Looked at both, sat down",
                at="14:31",
            ),
        ),
    }
    return Caseload(**(values | fields))
