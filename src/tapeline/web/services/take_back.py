"""Take a press of the run page back: what is on file is as it was before that press."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import trial_from_row, trial_to_row, trials_with_all

ROWS_OF = {
    "late": rows.LateOrEarly,
    "left_early": rows.LateOrEarly,
    "stop": rows.Stop,
    "timed": rows.Timing,
}


def take_back(
    press: Mapping[str, Any],
    *,
    session: rows.Session,
    child: str,
    at: str | None,
    numbers: Mapping[str, Any],
) -> None:
    """Take back the press that `of` names; `what` is its kind, a try where nothing is said.

    A try is corrected to 0, and both rows stay. A blank gives way to the one it had taken
    the place of (`was`). Whatever was taken back already stays so.

    Raises
    ------
    InputError
        That press is not on file, or another one has changed the same blank since.
    """
    what = str(press.get("what") or "try")
    if what == "blank":
        _blank(press, session, child)
    elif what in ROWS_OF:
        _row(press, session, ROWS_OF[what])
    else:
        _try(press, session, at, numbers)


def _try(
    press: Mapping[str, Any], session: rows.Session, at: str | None, numbers: Mapping[str, Any]
) -> None:
    wanted = trials_with_all().filter(key=str(press.get("of")), session=session).first()
    if wanted is None:
        raise _not_on_file("try", "Look at the counts, and correct them on the record page.")
    if rows.Trial.objects.filter(corrects=wanted["key"]).exists():
        return
    back = replace(
        trial_from_row(wanted), id=str(press["id"]), count=0, corrects=wanted["key"], at=at
    )
    trial_to_row(back, **numbers).save(force_insert=True)


def _row(press: Mapping[str, Any], session: rows.Session, model: Any) -> None:
    _refuse_unknown(press, session)
    model.objects.filter(key=str(press.get("of"))).delete()


def _blank(press: Mapping[str, Any], session: rows.Session, child: str) -> None:
    _refuse_unknown(press, session)
    kind, was = press.get("blank"), press.get("was")
    here = rows.Blank.objects.filter(
        session=session, child__key=child, activity=str(press.get("activity") or "")
    )
    if not here.filter(kind=kind).exists():
        raise InputError(
            "The blank to be taken back is another one by now.",
            field="of",
            hint="Choose what is right in the list of the child.",
        )
    if was:
        here.update(kind=was)
    else:
        here.delete()


def _refuse_unknown(press: Mapping[str, Any], session: rows.Session) -> None:
    if not rows.Press.objects.filter(key=str(press.get("of")), session=session).exists():
        raise _not_on_file("press", "Look at what the page shows.")


def _not_on_file(what: str, hint: str) -> InputError:
    return InputError(f"The {what} to be taken back is not on file.", field="of", hint=hint)
