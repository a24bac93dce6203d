"""Plans of all days to come that something touches: what is held back in them, and the swap."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tapeline.web.records.convert import caseload_about
from tapeline.web.records.models import Membership
from tapeline.web.records.models import Session as SessionRow

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.planner.plan import SessionPlan

MOVES_ON_BY_ITSELF = "history"  # every session that is held changes it


@dataclass(frozen=True, kw_only=True)
class Affected:
    """A planned session that something touches; `printed` is when its packet was printed.

    `old_paper` says that the plan changed since then.
    """

    group: str
    name: str
    date: dt.date
    sentences: tuple[str, ...]
    printed: dt.date | None = None
    old_paper: bool = False

    @property
    def key(self) -> tuple[str, dt.date]:
        """Which session it is."""
        return self.group, self.date

    @property
    def paper(self) -> str:
        """What to do about the packet, where one was printed."""
        if self.printed is None:
            return ""
        day = f"{self.printed.day} {self.printed:%B}"
        return f"Its packet was printed on {day}: print it again."

    @property
    def in_words(self) -> str:
        """The session with all that is to be known of it."""
        when = f"{self.name}, {self.date:%A} {self.date.day} {self.date:%B}."
        return " ".join((when, *self.sentences, *([self.paper] if self.paper else [])))


def affected_plans(today: dt.date) -> tuple[Affected, ...]:
    """Planned sessions from a day on that no longer hold as they are, earliest first.

    That tries were recorded since is left out: it happens every week and is said in its own.
    """
    found = list(_planned(today))
    if not found:
        return ()
    caseload = _about(found, today)
    return tuple(one for row, plan in found if (one := _affected(row, plan, caseload)) is not None)


def _planned(first: dt.date) -> Iterator[tuple[Any, SessionPlan]]:
    from tapeline.planner.plan import read_plan

    rows = SessionRow.objects.filter(
        status="planned", began=None, plan__isnull=False, date__gte=first
    )
    for row in rows.select_related("group", "printed").order_by("date", "group__start"):
        yield row, read_plan(row.plan)


def _about(found: Iterable[tuple[Any, SessionPlan]], today: dt.date) -> Caseload:
    children = {child for _row, plan in found for child in plan.made_from.children}
    groups = {row.group_id for row, _plan in found}
    children |= set(
        Membership.objects.filter(group__in=groups).values_list("child__key", flat=True)
    )
    return caseload_about(children, since=today)


def _affected(row: Any, plan: SessionPlan, caseload: Caseload) -> Affected | None:
    from tapeline.sessions.still_allowed import held_back_now
    from tapeline.web.selectors.plan_view import stale_sentences

    stale = stale_sentences(plan, caseload, but=MOVES_ON_BY_ITSELF)
    held = held_back_now(plan, caseload) if stale else ()
    printed = getattr(row, "printed", None)
    old_paper = printed is not None and printed.plan != paper_of(plan)
    if not stale and not old_paper:
        return None
    return Affected(
        group=row.group.key,
        name=row.group.name,
        date=row.date,
        sentences=held or stale,
        printed=printed.on if printed is not None else None,
        old_paper=old_paper,
    )


def paper_of(plan: SessionPlan) -> str:
    """The fingerprint of what a packet prints of a plan."""
    from tapeline.caseload.caseload import fingerprint

    return fingerprint([plan.parts, plan.away, plan.made_from.texts])
