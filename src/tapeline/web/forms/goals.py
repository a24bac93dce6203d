"""The form of a goal: the words for people, and the part that is counted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.models import Library
from tapeline.caseload.history import PromptLevel
from tapeline.caseload.people import Baseline, Goal
from tapeline.progress.strictness import strictness_in_words
from tapeline.progress.wording import wording_of
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Day, Text, WholeNumber
from tapeline.web.words import WEIGHTS

BASELINE = ("baseline_k", "baseline_n", "baseline_date")


class GoalForm(HouseForm):
    """A goal of one child."""

    name = Text(
        lazy("Name of the goal"),
        missing=lazy("The goal has no name. Type a few words, such as: catch a bounced ball."),
    )
    condition = Text(lazy("Condition"), lines=2, hint=lazy("With what, where, with whom."))
    behaviour = Text(lazy("Behaviour"), lines=2, hint=lazy("What the child does, as seen."))
    step = Choice(
        lazy("Skill and step that count"),
        (),
        missing=lazy("No step is chosen. Choose the one that counts for this goal."),
    )
    help_at_most = Choice(lazy("Help at most"), ())
    k = WholeNumber(lazy("Tries that work"), missing=lazy("Type how many tries have to work."))
    n = WholeNumber(lazy("Out of tries"), missing=lazy("Type how many tries are given."))
    m = WholeNumber(
        lazy("In how many sessions running"), missing=lazy("Type in how many sessions, such as 2.")
    )
    date = Day(lazy("By the date"), hint=lazy("May stay empty."))
    weight = Choice(lazy("Weight in planning"), WEIGHTS)
    baseline_k = WholeNumber(lazy("Tries that worked"))
    baseline_n = WholeNumber(lazy("Out of tries"))
    baseline_date = Day(lazy("Seen on"))
    baseline_help = Choice(lazy("With this help"), (), may_be_empty=True)
    renamed = {"skill": "step", "goals": "name", "baseline": "baseline_k"}

    def __init__(
        self, *args: Any, library: Library, levels: Iterable[PromptLevel], **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.library, self.levels = library, tuple(levels)
        self.skill_of_step = {
            step.id: skill.id for skill in library.skills.values() for step in skill.steps
        }
        self.fields["step"].choices = [
            ("", _("Choose a step")),
            *(
                (skill.name, [(step.id, f"{at}. {step.text}") for at, step in _counted(skill)])
                for skill in library.skills.values()
            ),
        ]
        help_words = [(level.id, _level_words(level)) for level in self.levels]
        self.fields["help_at_most"].choices = help_words
        self.fields["baseline_help"].choices = help_words

    def clean(self) -> dict[str, Any]:
        """A baseline is whole or not there."""
        found = super().clean() or self.cleaned_data
        given = [name for name in BASELINE if found.get(name) is not None]
        if given and not self.errors:
            for name in BASELINE:
                if name not in given:
                    self.add_error(name, _MISSING[name])
        if not self.errors and given and not found["baseline_k"] <= found["baseline_n"] >= 1:
            self.add_error(
                "baseline_k",
                _("The baseline is %(k)d of %(n)d tries. Type no more than were given.")
                % {"k": found["baseline_k"], "n": found["baseline_n"]},
            )
        return found

    def made_with(self) -> dict[str, Any]:
        """The library and the prompt levels."""
        return {"library": self.library, "levels": self.levels}

    def wording(self, today: dt.date) -> Wording:
        """What the words typed so far lack; whatever is typed, nothing is refused."""
        self.is_valid()
        typed = self.cleaned_data
        k, n = typed.get("k"), typed.get("n")
        is_counted = k is not None and n is not None and 0 < k <= n
        goal = Goal(
            id="draft",
            name=typed.get("name") or "",
            skill="",
            step="",
            k=k if is_counted else 1,
            n=n if is_counted else 1,
            m=max(1, typed.get("m") or 1),
            help_at_most=typed.get("help_at_most") or "alone",
            condition=typed.get("condition") or "",
            behaviour=typed.get("behaviour") or "",
            date=typed.get("date"),
            baseline=_baseline_so_far(typed),
        )
        return wording_in_words(goal, today, is_counted=is_counted)

    def goal(self, goal_id: str) -> Goal:
        """The goal as typed."""
        typed = self.cleaned_data
        fields = ("name", "condition", "behaviour", "step", "help_at_most", "k", "n", "m", "date")
        return Goal(
            id=goal_id,
            skill=self.skill_of_step[typed["step"]],
            weight=int(typed["weight"]),
            baseline=_baseline(typed),
            **{name: typed[name] for name in fields},
        )


_MISSING = {
    "baseline_k": lazy("The baseline has no count of tries that worked. Type it, 0 included."),
    "baseline_n": lazy("The baseline has no count of tries. Type it, or empty the baseline."),
    "baseline_date": lazy("The baseline has no date. Type it, or empty the baseline."),
}


def _baseline(typed: dict[str, Any]) -> Baseline | None:
    if typed["baseline_n"] is None:
        return None
    return Baseline(
        k=typed["baseline_k"],
        n=typed["baseline_n"],
        date=typed["baseline_date"],
        help=typed["baseline_help"] or "alone",
    )


def _baseline_so_far(typed: dict[str, Any]) -> Baseline | None:
    if any(typed.get(name) is None for name in BASELINE):
        return None
    return _baseline({"baseline_help": "", **typed})


@dataclass(frozen=True, kw_only=True)
class Wording:
    """What the words of a goal lack, and how strict its criterion is ("" while not counted)."""

    lacks: tuple[str, ...]
    strict: str


def wording_in_words(goal: Goal, today: dt.date, *, is_counted: bool = True) -> Wording:
    """The wording of a goal, looked at on a day."""
    return Wording(
        lacks=wording_of(goal, today=today, is_counted=is_counted),
        strict=strictness_in_words(goal) if is_counted else "",
    )


def _counted(skill: Any) -> list[tuple[int, Any]]:
    return list(enumerate(skill.steps, 1))


def _level_words(level: PromptLevel) -> str:
    return level.name[:1].upper() + level.name[1:]


def goal_typed(goal: Goal | None) -> dict[str, Any]:
    """What the form shows at first."""
    if goal is None:
        return {"help_at_most": "alone", "baseline_help": "alone", "m": 1, "weight": "1"}
    fields = ("name", "condition", "behaviour", "step", "help_at_most", "k", "n", "m", "date")
    baseline = goal.baseline
    found = {name: getattr(goal, name) for name in fields} | {"weight": str(goal.weight)}
    if baseline is None:
        return found | {"baseline_help": "alone"}
    return found | {
        "baseline_k": baseline.k,
        "baseline_n": baseline.n,
        "baseline_date": baseline.date,
        "baseline_help": baseline.help,
    }
