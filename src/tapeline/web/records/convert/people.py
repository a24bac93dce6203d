"""The therapist, homes and children: rows to core values and back."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet
from pydantic import TypeAdapter

from tapeline.caseload import people as core
from tapeline.web.records import models as rows
from tapeline.web.records.convert.in_step import keep_in_step, number_of, row_of, save_if_changed

THINGS: TypeAdapter[tuple[core.Thing, ...]] = TypeAdapter(tuple[core.Thing, ...])
ALSO_THERE: TypeAdapter[tuple[core.AlsoThere, ...]] = TypeAdapter(tuple[core.AlsoThere, ...])
WORDING: TypeAdapter[tuple[core.Wording, ...]] = TypeAdapter(tuple[core.Wording, ...])
BASELINE: TypeAdapter[core.Baseline | None] = TypeAdapter(core.Baseline | None)
BAND: TypeAdapter[core.SuccessBand | None] = TypeAdapter(core.SuccessBand | None)
ILL: TypeAdapter[tuple[core.Illness, ...]] = TypeAdapter(tuple[core.Illness, ...])
LOSS_ANSWERS: TypeAdapter[tuple[core.LossAnswer, ...]] = TypeAdapter(tuple[core.LossAnswer, ...])
PROFILE_COLUMNS = (
    "name",
    "credential",
    "ring",
    "emergency_number",
    "plan_kept",
    "first_aid_read_by",
    "first_aid_read_on",
    "paper",
    "spelling",
    "lengths",
)
HOME_COLUMNS = (
    "name",
    "space",
    "length_cm",
    "width_cm",
    "helper",
    "hands",
    "language",
    "loudest",
    "crawling_baby",
)
CHILD_COLUMNS = (
    "name",
    "born",
    "mark",
    "gets_about",
    "height_cm",
    "jump_cm",
    "hop_cm",
    "stride_cm",
    "device_width_cm",
    "turning_cm",
    "note",
    "active",
)
GOAL_COLUMNS = (
    "name",
    "skill",
    "step",
    "k",
    "n",
    "m",
    "help_at_most",
    "condition",
    "behaviour",
    "date",
    "weight",
)


def columns_of(value: Any, names: tuple[str, ...]) -> dict[str, Any]:
    """The named fields of a value or row."""
    return {name: getattr(value, name) for name in names}


def therapist_from_row(row: rows.Profile | None) -> core.Therapist:
    """Who she is; an empty profile when there is no row yet."""
    if row is None:
        return core.Therapist()
    return core.Therapist(
        **columns_of(row, PROFILE_COLUMNS), wording=WORDING.validate_python(row.wording)
    )


def therapist_to_row(therapist: core.Therapist) -> rows.Profile:
    """The one profile row, as she is now."""
    row = rows.Profile.objects.first() or rows.Profile()
    wording = WORDING.dump_python(therapist.wording, mode="json")
    return save_if_changed(row, {**columns_of(therapist, PROFILE_COLUMNS), "wording": wording})


def home_from_row(row: rows.Home) -> core.Home:
    """A home."""
    return core.Home(
        id=row.key,
        **columns_of(row, HOME_COLUMNS),
        things=THINGS.validate_python(row.things),
        also_there=ALSO_THERE.validate_python(row.also_there),
    )


def home_to_row(home: core.Home) -> rows.Home:
    """The row of a home, changed or made."""
    return row_of(
        rows.Home,
        home.id,
        **columns_of(home, HOME_COLUMNS),
        things=THINGS.dump_python(home.things, mode="json"),
        also_there=ALSO_THERE.dump_python(home.also_there, mode="json"),
    )


def children_with_all() -> QuerySet[rows.Child]:
    """Children with all that `child_from_row` reads, in five queries."""
    return rows.Child.objects.select_related("home").prefetch_related(
        "skill_starts", "goals", "precautions__go_aheads"
    )


def child_from_row(row: rows.Child) -> core.Child:
    """A child with starts, goals, precautions and go-aheads."""
    return core.Child(
        id=row.key,
        **columns_of(row, CHILD_COLUMNS),
        home=row.home.key if row.home else None,
        skills=tuple(
            core.Start(skill=start.skill, step=start.step) for start in row.skill_starts.all()
        ),
        goals=tuple(_goal_from_row(goal) for goal in row.goals.all()),
        precautions=tuple(_precaution_from_row(held) for held in row.precautions.all()),
        band=BAND.validate_python(row.band),
        ill=ILL.validate_python(row.ill),
        loss_answers=LOSS_ANSWERS.validate_python(row.loss_answers),
    )


def child_to_row(child: core.Child) -> rows.Child:
    """The row of a child and the rows that hang on it."""
    home = number_of(rows.Home, child.home, "home")
    row = row_of(
        rows.Child,
        child.id,
        **columns_of(child, CHILD_COLUMNS),
        home_id=home,
        band=BAND.dump_python(child.band, mode="json"),
        ill=ILL.dump_python(child.ill, mode="json"),
        loss_answers=LOSS_ANSWERS.dump_python(child.loss_answers, mode="json"),
    )
    starts = [{"skill": start.skill, "step": start.step} for start in child.skills]
    keep_in_step(row, "skill_starts", starts, known_by=("skill",))
    _free_goal_names(row, child)
    keep_in_step(row, "goals", [_goal_columns(goal) for goal in child.goals], known_by=("key",))
    held = [columns_of(one, ("kind", "since", "note")) for one in child.precautions]
    kept = keep_in_step(row, "precautions", held, known_by=("kind",))
    for precaution_row, precaution in zip(kept, child.precautions, strict=True):
        papers = [_go_ahead_columns(paper) for paper in precaution.go_aheads]
        keep_in_step(
            precaution_row, "go_aheads", papers, known_by=("written_by", "date", "allows", "ends")
        )
    return row


def _free_goal_names(row: rows.Child, child: core.Child) -> None:
    """Two goals that swap their names meet the constraint half-way; step around it."""
    names = {goal.id: goal.name for goal in child.goals}
    for goal in row.goals.all():
        if names.get(goal.key, goal.name) != goal.name and goal.name in names.values():
            rows.Goal.objects.filter(pk=goal.pk).update(name=f"{goal.pk} ({goal.key})")


def _goal_from_row(row: rows.Goal) -> core.Goal:
    return core.Goal(
        id=row.key,
        **columns_of(row, GOAL_COLUMNS),
        baseline=BASELINE.validate_python(row.baseline),
    )


def _goal_columns(goal: core.Goal) -> dict[str, Any]:
    baseline = BASELINE.dump_python(goal.baseline, mode="json")
    return {"key": goal.id, **columns_of(goal, GOAL_COLUMNS), "baseline": baseline}


def _precaution_from_row(row: rows.ChildPrecaution) -> core.ChildPrecaution:
    return core.ChildPrecaution(
        kind=row.kind,
        since=row.since,
        note=row.note,
        go_aheads=tuple(
            core.GoAhead(
                written_by=paper.written_by,
                date=paper.date,
                allows=tuple(paper.allows),
                ends=paper.ends,
                note=paper.note,
            )
            for paper in row.go_aheads.all()
        ),
    )


def _go_ahead_columns(paper: core.GoAhead) -> dict[str, Any]:
    columns = columns_of(paper, ("written_by", "date", "ends", "note"))
    return {**columns, "allows": list(paper.allows)}
