"""Save and delete children, homes and the therapist's profile."""

from __future__ import annotations

from dataclasses import replace

from django.db.models import Q

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child, Home, Therapist
from tapeline.errors import InputError
from tapeline.web.records.convert import child_to_row, home_to_row, therapist_to_row
from tapeline.web.records.models import Child as ChildRow
from tapeline.web.records.models import Home as HomeRow
from tapeline.web.services.marks import free_mark, refuse_same_mark
from tapeline.web.services.meaning import refuse_faults
from tapeline.web.services.saving import saving


def child_save(*, child: Child) -> Child:
    """Save a child, new or changed; one without a mark gets a free one.

    Raises
    ------
    InputError
        A skill, step or precaution is unknown, the birth month impossible, the home not on
        file; another child has the same name and birth month; the mark is taken in a group.
    """
    refuse_faults(Caseload(children=(replace(child, home=None),)), name=f"Child {child.name}")
    with saving():
        if not child.mark:
            child = replace(child, mark=free_mark(child.id))
        _refuse_same_child(child)
        refuse_same_mark(child.id, child.mark)
        child_to_row(child)
    return child


def _refuse_same_child(child: Child) -> None:
    twin = ChildRow.objects.filter(name__iexact=child.name, born=child.born).exclude(key=child.id)
    if twin.exists():
        raise InputError(
            f"There is a child called {child.name}, born in {child.born}, already.",
            field="name",
            hint="Open that child, or give this one another name or code.",
        )


def home_save(*, home: Home) -> Home:
    """Save a home, new or changed.

    Raises
    ------
    InputError
        A thing is not known, or the birth month of someone there is impossible.
    """
    refuse_faults(Caseload(homes=(home,)), name=f"Home {home.name or home.id}")
    with saving():
        home_to_row(home)
    return home


def home_delete(*, home_key: str) -> None:
    """Delete a home in which no child lives any more.

    Raises
    ------
    InputError
        A child lives there, or there is no such home.
    """
    with saving():
        row = HomeRow.objects.filter(key=home_key).first()
        if row is None:
            raise InputError(f"There is no home {home_key!r}.", field="home")
        names = ", ".join(row.children.filter(~Q(name="")).values_list("name", flat=True))
        if names:
            raise InputError(
                f"This is the home of {names}.",
                field="home",
                hint="Give each child another home, or none, first.",
            )
        row.delete()


def therapist_save(*, therapist: Therapist) -> Therapist:
    """Save who she is and how paper is printed."""
    with saving():
        therapist_to_row(therapist)
    return therapist
