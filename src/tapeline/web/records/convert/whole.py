"""The whole caseload at once: out of the rows, and into them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import models

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import PromptList, Session
from tapeline.caseload.places import Group
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import history, notes, people, places
from tapeline.web.records.convert.own_library import own_library_from_rows, own_library_to_rows


def caseload_from_rows() -> Caseload:
    """Everything on file in the open caseload, as one core value."""
    profile = rows.Profile.objects.first()
    of_child = ("session", "child")
    return Caseload(
        therapist=people.therapist_from_row(profile),
        invented=bool(profile and profile.invented),
        sites=tuple(places.site_from_row(row) for row in places.sites_with_all()),
        groups=tuple(places.group_from_row(row) for row in places.groups_with_all()),
        children=tuple(people.child_from_row(row) for row in people.children_with_all()),
        homes=tuple(people.home_from_row(row) for row in rows.Home.objects.all()),
        sessions=tuple(
            history.session_from_row(row) for row in rows.Session.objects.select_related("group")
        ),
        trials=tuple(history.trial_from_row(row) for row in history.trials_with_all()),
        blanks=tuple(
            history.blank_from_row(row) for row in rows.Blank.objects.select_related(*of_child)
        ),
        family_answers=tuple(
            history.answer_from_row(row)
            for row in rows.FamilyAnswer.objects.select_related(*of_child)
        ),
        late_or_early=tuple(
            history.late_from_row(row) for row in rows.LateOrEarly.objects.select_related(*of_child)
        ),
        stops=tuple(
            history.stop_from_row(row) for row in rows.Stop.objects.select_related(*of_child)
        ),
        sheets=tuple(
            history.sheet_from_row(row) for row in rows.Sheet.objects.select_related("session")
        ),
        timings=tuple(
            history.timing_from_row(row) for row in rows.Timing.objects.select_related("child")
        ),
        notes=tuple(notes.note_from_row(row) for row in notes.notes_with_all()),
        reports=tuple(
            notes.report_from_row(row) for row in rows.KeptReport.objects.select_related("child")
        ),
        made_up=tuple(
            notes.made_up_from_row(row)
            for row in rows.MadeUp.objects.select_related("child", "group")
        ),
        prompt_lists=prompt_lists_from_rows(),
        **own_library_from_rows(),
    )


def session_from_rows(group: Group, session: Session) -> Caseload:
    """What is on file of one session: its group, the children it names, and what happened."""
    of = {"session__key": session.id}
    named = models.Q(memberships__group__key=group.id) | models.Q(trials__session__key=session.id)
    numbers = set(rows.Child.objects.filter(named).values_list("pk", flat=True))
    numbers |= set(rows.Blank.objects.filter(**of).values_list("child", flat=True))
    numbers |= set(
        rows.Stop.objects.filter(**of, child__isnull=False).values_list("child", flat=True)
    )
    numbers |= set(rows.LateOrEarly.objects.filter(**of).values_list("child", flat=True))
    children = people.children_with_all().filter(pk__in=numbers)
    of_child = ("session", "child")
    return Caseload(
        therapist=people.therapist_from_row(rows.Profile.objects.first()),
        groups=(group,),
        children=tuple(people.child_from_row(row) for row in children),
        sessions=(session,),
        trials=tuple(history.trial_from_row(row) for row in history.trials_with_all().filter(**of)),
        blanks=tuple(
            history.blank_from_row(row)
            for row in rows.Blank.objects.filter(**of).select_related(*of_child)
        ),
        late_or_early=tuple(
            history.late_from_row(row)
            for row in rows.LateOrEarly.objects.filter(**of).select_related(*of_child)
        ),
        stops=tuple(
            history.stop_from_row(row)
            for row in rows.Stop.objects.filter(**of).select_related(*of_child)
        ),
        sheets=tuple(
            history.sheet_from_row(row)
            for row in rows.Sheet.objects.filter(**of).select_related("session")
        ),
        prompt_lists=prompt_lists_from_rows(),
    )


def prompt_lists_from_rows() -> tuple[PromptList, ...]:
    """Her prompt lists; the shipped one where she has none."""
    kept = tuple(history.prompt_list_from_row(row) for row in rows.PromptList.objects.all())
    return kept or (PromptList(),)


def rows_from_caseload(caseload: Caseload) -> None:
    """Write a caseload over what is on file: rows with the same id are changed, new ones made.

    Trials, blanks and answers that are on file already stay as they are. Nothing is deleted
    but what hangs on a changed record. Call it inside a transaction.

    Raises
    ------
    InputError
        Something names a home, child, site, room, group or session that is nowhere.
    """
    profile = people.therapist_to_row(caseload.therapist)
    if profile.invented != caseload.invented:
        profile.invented = caseload.invented
        profile.save()
    for home in caseload.homes:
        people.home_to_row(home)
    for child in caseload.children:
        people.child_to_row(child)
    for site in caseload.sites:
        places.site_to_row(site)
    for group in caseload.groups:
        places.group_to_row(group)
    for session in caseload.sessions:
        history.session_to_row(session)
    for position, prompts in enumerate(caseload.prompt_lists):
        history.prompt_list_to_row(prompts, position=position)
    own_library_to_rows(caseload)
    for note in caseload.notes:
        notes.note_to_row(note)
    for report in caseload.reports:
        notes.report_to_row(report)
    for made in caseload.made_up:
        notes.made_up_to_row(made)
    add_what_happened(caseload)


def add_what_happened(caseload: Caseload) -> None:
    """Add the trials, blanks, answers and other rows of what happened that are not on file yet."""
    numbers = {"sessions": numbers_of(rows.Session), "children": numbers_of(rows.Child)}
    try:
        new = [
            (model, [to_row(value, **numbers) for value in _unknown(model, values)])
            for model, to_row, values in (
                (rows.Trial, history.trial_to_row, caseload.trials),
                (rows.FamilyAnswer, history.answer_to_row, caseload.family_answers),
                (rows.LateOrEarly, history.late_to_row, caseload.late_or_early),
                (rows.Stop, history.stop_to_row, caseload.stops),
                (rows.Sheet, history.sheet_to_row, caseload.sheets),
                (rows.Timing, history.timing_to_row, caseload.timings),
            )
        ]
        new_blanks = [history.blank_to_row(blank, **numbers) for blank in caseload.blanks]
    except KeyError as error:
        raise InputError(
            f"A trial, blank or answer belongs to {error.args[0]!r}, which is not on file.",
            hint="Bring in the session and the child with it.",
        ) from None
    for model, fresh in new:
        model._default_manager.bulk_create(fresh, batch_size=500)
    rows.Blank.objects.bulk_create(new_blanks, batch_size=500, ignore_conflicts=True)


def numbers_of(model: type[models.Model]) -> dict[str, int]:
    """Database number by key."""
    return dict(model._default_manager.values_list("key", "pk"))


def _unknown(model: type[models.Model], values: Sequence[Any]) -> list[Any]:
    if not values:
        return []
    known = set(model._default_manager.values_list("key", flat=True))
    return [value for value in values if value.id not in known]
