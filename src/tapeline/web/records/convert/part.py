"""A part of the caseload: what is recorded about a few children, and the tries of all."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping
from typing import Any

from django.db.models import Q

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Trial
from tapeline.caseload.people import Child
from tapeline.web.records import models as rows
from tapeline.web.records.convert import history, notes, people, places
from tapeline.web.records.convert.everyones_tries import (
    children_with_starts,
    everyones_sessions,
    everyones_tries,
)
from tapeline.web.records.convert.own_library import own_library_from_rows
from tapeline.web.records.convert.whole import prompt_lists_from_rows


def caseload_about(
    child_keys: Collection[str],
    *,
    only_minutes: bool = False,
    since: dt.date = dt.date.min,
) -> Caseload:
    """The caseload with the history of these children alone, and with everyone's tries.

    Sessions are those of every group that one of them belongs or belonged to, and of the others
    the days; a stop that concerned no one child stays. Of other children there are name, birth
    month, mark, starts, whether they take part, and their tries, which what is learned rests on.
    With `only_minutes` nothing more than a name is there of any child, no try of others, and one
    row of tries stands for all that a child did in a session. History before `since` is left out.
    """
    profile = rows.Profile.objects.first()
    groups = tuple(places.group_from_row(row) for row in places.groups_with_all())
    own = [one.id for one in groups if any(member.child in child_keys for member in one.members)]
    of = ("session", "child")
    concerns = {"child__key__in": child_keys}
    theirs = concerns | {"session__date__gte": since}
    held = rows.Session.objects.select_related("group").filter(group__key__in=own, date__gte=since)
    sessions = tuple(history.session_from_row(row) for row in held)
    others = () if only_minutes else everyones_sessions(own)
    return Caseload(
        therapist=people.therapist_from_row(profile),
        invented=bool(profile and profile.invented),
        sites=tuple(places.site_from_row(row) for row in places.sites_with_all()),
        groups=groups,
        children=_children(() if only_minutes else child_keys),
        homes=tuple(
            people.home_from_row(row)
            for row in rows.Home.objects.filter(children__key__in=child_keys).distinct()
        ),
        sessions=(*sessions, *others),
        trials=_presences(theirs) if only_minutes else everyones_tries(),
        blanks=tuple(
            history.blank_from_row(row)
            for row in rows.Blank.objects.select_related(*of).filter(**theirs)
        ),
        family_answers=tuple(
            history.answer_from_row(row)
            for row in rows.FamilyAnswer.objects.select_related(*of).filter(**theirs)
        ),
        late_or_early=tuple(
            history.late_from_row(row)
            for row in rows.LateOrEarly.objects.select_related(*of).filter(**theirs)
        ),
        stops=tuple(
            history.stop_from_row(row)
            for row in rows.Stop.objects.select_related(*of).filter(Q(child=None) | Q(**theirs))
        ),
        notes=tuple(notes.note_from_row(row) for row in notes.notes_with_all().filter(**theirs)),
        reports=tuple(
            notes.report_from_row(row)
            for row in rows.KeptReport.objects.select_related("child").filter(**concerns)
        ),
        made_up=tuple(
            notes.made_up_from_row(row)
            for row in rows.MadeUp.objects.select_related("child", "group").filter(**concerns)
        ),
        prompt_lists=prompt_lists_from_rows(),
        **own_library_from_rows(() if only_minutes else sessions),
    )


def _children(whole: Collection[str]) -> tuple[Child, ...]:
    """Every child in its order; those named with all that hangs on them."""
    full = {
        row.key: people.child_from_row(row)
        for row in people.children_with_all().filter(key__in=whole)
    }
    return tuple(full.get(child.id, child) for child in children_with_starts())


def _presences(theirs: Mapping[str, Any]) -> tuple[Trial, ...]:
    """One row for each child and session with tries."""
    found = rows.Trial.objects.filter(**theirs, count__gte=1)
    pairs = found.order_by().values_list("session__key", "child__key").distinct()
    return tuple(
        Trial(
            id=f"{session}-{child}", session=session, child=child, version="", step="",
            outcome="alone",
        )
        for session, child in pairs
    )  # fmt: skip


def tries_of(child: Child) -> Caseload:
    """Everyone's tries with the days of their sessions, and this child as it is; nothing else."""
    return Caseload(
        children=tuple(child if one.id == child.id else one for one in children_with_starts()),
        sessions=everyones_sessions(()),
        trials=everyones_tries(),
        prompt_lists=prompt_lists_from_rows(),
        **own_library_from_rows(()),
    )
