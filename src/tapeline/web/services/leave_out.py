"""Leave an activity out: for good, for a child, for a home; and take it in again."""

from __future__ import annotations

from tapeline.caseload.hers import LeftOut
from tapeline.errors import InputError
from tapeline.web.records.convert.own_library import left_out_from_row, left_out_to_row
from tapeline.web.records.models import LeftOut as LeftOutRow
from tapeline.web.selectors.library import library_now
from tapeline.web.services.keys import new_id
from tapeline.web.services.saving import saving
from tapeline.web.today import today


def activity_leave_out(
    *, activity: str, child: str | None = None, home: str | None = None, reason: str = ""
) -> LeftOut:
    """Leave an activity out of every plan to come: for a child, for a home, or for good.

    Raises
    ------
    InputError
        The library has no such activity, there is no such child or home, or it is left out
        for them already.
    """
    with saving():
        _refuse_unknown(activity)
        made = LeftOut(
            id=new_id("lo"),
            activity=activity,
            since=today(),
            child=child,
            home=home,
            reason=reason.strip(),
        )
        _refuse_twice(made)
        left_out_to_row(made)
    return made


def left_out_take_in(*, key: str) -> LeftOut:
    """Take an activity in again; plans to come may hold it.

    Raises
    ------
    InputError
        There is no such row.
    """
    with saving():
        row = LeftOutRow.objects.select_related("child", "home").filter(key=key).first()
        if row is None:
            raise InputError(
                f"There is no row {key!r} of what is left out.",
                field="key",
                hint="It was taken in already; look at the list.",
            )
        was = left_out_from_row(row)
        row.delete()
    return was


def _refuse_unknown(activity: str) -> None:
    if activity not in library_now().activities:
        raise InputError(
            f"There is no activity {activity!r} in the library.",
            field="activity",
            hint="Choose one the library lists.",
        )


def _refuse_twice(made: LeftOut) -> None:
    same = LeftOutRow.objects.filter(
        activity=made.activity, child__key=made.child, home__key=made.home
    )
    if same.exists():
        raise InputError(
            "It is left out for them already.",
            field="whom",
            hint="Choose somebody else, or leave it as it is.",
        )
