"""Rules as rows of data: what a precaution or an age does with a movement or a thing."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from tapeline.errors import InputError

Effect = Literal["flags", "blocks"]
LiftedBy = Literal["nothing", "go_ahead", "reason"]
Scope = Literal["child", "room"]


@dataclass(frozen=True, kw_only=True)
class Precaution:
    """A kind of precaution a child may have, in plain words.

    `ask` is what the therapist confirms with whom (`check_with`); `stop_signs` are printed
    for the adults; `source` and `mark` say where it comes from.
    """

    id: str
    name: str
    name_es: str
    ask: str
    check_with: str
    stop_signs: tuple[str, ...]
    stop_signs_es: tuple[str, ...]
    emergencies: tuple[str, ...]
    source: str
    mark: str


@dataclass(frozen=True, kw_only=True)
class Rule:
    """One row: when this holds, a version or thing that touches `touches` is flagged or blocked.

    It holds for a child with `precaution`, or when the youngest person in the room is
    younger than `youngest_under_months`. Scope `room` reaches everybody in the same room.
    A rule by age is printed for families, so it has its `sentence_es`; another has none.
    """

    id: str
    touches: str
    effect: Effect
    lifted_by: LiftedBy
    sentence: str
    source: str
    mark: str
    scope: Scope = "child"
    precaution: str | None = None
    youngest_under_months: int | None = None
    sentence_es: str = ""

    def __post_init__(self) -> None:
        if (self.precaution is None) == (self.youngest_under_months is None):
            raise InputError(
                f"Rule {self.id} must name a precaution or an age, and not both.",
                field="precaution",
            )


@dataclass(frozen=True, kw_only=True)
class RuleBook:
    """All rules with the words they use and the date they were last read."""

    date: str
    touches: dict[str, str]
    precautions: dict[str, Precaution]
    rules: tuple[Rule, ...]
    turn_cap: int
    floor_of_trials: int

    @cached_property
    def by_touch(self) -> dict[str, tuple[Rule, ...]]:
        """The rules that look at each word, in file order."""
        found: dict[str, tuple[Rule, ...]] = {}
        for rule in self.rules:
            found[rule.touches] = (*found.get(rule.touches, ()), rule)
        return found
