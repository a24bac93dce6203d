"""The release list: may each recorded child be sent each activity that the film shows?

A film shows one version of an activity. Each recorded child is checked against that very
version, at its own home, on the date, with `what_is_allowed`; nothing is ever called safe.
"""

from __future__ import annotations

from collections.abc import Iterable

from tapeline.activities.allowed import Ruling, what_is_allowed
from tapeline.activities.models import Version
from tapeline.documents.packet import Clearance, ReleaseList, ReleaseRow
from tapeline.planner.places import Taking
from tapeline.planner.plan import ChildPlan, PartPlan
from tapeline.sessions.packet.basis import Basis, most_common_version, row_of
from tapeline.sessions.packet.ready import check_with

PASSED = "nothing on file against it"
OF_A_VERSION = {
    "place": "it is made for a room, not a home",
    "gets_about": "it is made for another way of getting about",
}


def release_list(basis: Basis) -> ReleaseList:
    """Each recorded child by each shown activity: nothing on file, or what holds it back."""
    recorded = basis.at("home_later")
    rows = []
    for part in basis.plan.parts:
        shown = shown_row(part, basis)
        if shown is not None:
            rows.append(_row(part, basis.version(shown), recorded, basis))
    return ReleaseList(who=tuple(basis.who(one.child.id) for one in recorded), rows=tuple(rows))


def shown_row(part: PartPlan, basis: Basis) -> ChildPlan | None:
    """The row whose version the film shows: what most recorded children do, else the easiest."""
    return most_common_version(part, basis, lambda row: row.place == "home_later")


def _row(part: PartPlan, shown: Version, recorded: Iterable[Taking], basis: Basis) -> ReleaseRow:
    return ReleaseRow(
        activity=basis.activity(part).name,
        shows=shown.do,
        cells=tuple(_clearance(part, shown, one, basis) for one in recorded),
    )


def _clearance(part: PartPlan, shown: Version, one: Taking, basis: Basis) -> Clearance:
    ruling = what_is_allowed(
        shown,
        who=one.who,
        here=one.here,
        library=basis.library,
        book=basis.book,
        on=basis.date,
    )
    row = row_of(part, one.child.id)
    own = basis.version(row) if row is not None else None
    return Clearance(status=ruling.status, text=_said(ruling, shown, own, basis))


def _said(ruling: Ruling, shown: Version, own: Version | None, basis: Basis) -> str:
    is_other = own is not None and own.id != shown.id
    own_page = f" Own page: {own.do}" if own is not None and is_other else ""
    if ruling.status == "allowed":
        return PASSED + ("." + own_page if own_page else "")
    why = " ".join(_rule_said(rule, basis) for rule in ruling.rules)
    if ruling.status == "flagged":
        return why + own_page
    if own is not None and is_other:
        return f"Held back: {why} Swap to: {own.do}"
    return f"Held back: {why} Off the list."


def _rule_said(rule_id: str, basis: Basis) -> str:
    """A rule as a sentence that says whom to check with."""
    rule = next((one for one in basis.book.rules if one.id == rule_id), None)
    if rule is None:
        plain = OF_A_VERSION.get(rule_id) or basis.names.rule(rule_id)
        return f"{plain[0].upper()}{plain[1:]}."
    if rule.precaution is None or "check with" in rule.sentence.lower():
        return rule.sentence
    return f"{rule.sentence} Check with {check_with(rule, basis)}."
