"""A child who could catch a bounced ball and then could not, in a group at the hall."""

from __future__ import annotations

import datetime as dt

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, Trial
from tapeline.caseload.people import Child
from tests.builders import TODAY, a_caseload, a_child, a_goal, a_group, a_room, a_site, some_things

SKILL, STEP = "catch2", "catch2.bounced"
GOOD, LOST = (5, 6, 5, 6, 5, 6), (1, 0, 1)
TRIES = 6
THINGS = (
    *("sock_ball", "box_cardboard", "chair", "table", "wall", "paper", "towel", "pillow"),
    *("beach_ball", "ball_large", "beanbag", "tape_masking"),
)


def last_weeks(*alone: int, on: dt.date = TODAY) -> list[tuple[dt.date, int]]:
    """Tries alone week by week, the last of them a week before today."""
    return [(on - dt.timedelta(weeks=len(alone) - number), one) for number, one in enumerate(alone)]


def losing(*alone: int, on: dt.date = TODAY, **fields: object) -> Caseload:
    """One child with so many tries alone of six each week; the rest did not work yet."""
    usual = {"goals": (a_goal(),)}
    child: Child = a_child(**{**usual, **fields})
    days = last_weeks(*(alone or (*GOOD, *LOST)), on=on)
    sessions = tuple(
        Session(id=f"s{day}", group="tuesday", date=day, status="held", activities=("loaf_catch",))
        for day, _ in days
    )
    trials = tuple(
        Trial(
            id=f"s{day}-{outcome}",
            session=f"s{day}",
            child=child.id,
            version="loaf_catch.bounced.usual",
            step=STEP,
            outcome=outcome,
            help="alone",
            count=count,
        )
        for day, one in days
        for outcome, count in (("alone", one), ("not_yet", TRIES - one))
        if count
    )
    room = a_room(things=some_things(*THINGS))
    return a_caseload(
        sites=(a_site(rooms=(room,)),),
        children=(child,),
        groups=(a_group(child.id),),
        sessions=sessions,
        trials=trials,
    )
