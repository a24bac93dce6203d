"""Keep what an activity says when a session is planned with it; forget what no plan names."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import KeptText
from tapeline.caseload.history import Session
from tapeline.caseload.own_library import as_kept, library_in_force, texts_of
from tapeline.web.records.convert import own_pieces_from_rows, session_to_row
from tapeline.web.records.convert.own_library import IN_FORCE
from tapeline.web.records.models import Asked, OwnPiece
from tapeline.web.records.models import Session as SessionRow

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan


def plan_keep(session: Session, plan: SessionPlan, caseload: Caseload) -> Session:
    """Store a session with its plan and the words of its activities; within a transaction."""
    from tapeline.planner.plan import with_plan

    kept = with_plan(session, plan)
    session_to_row(kept)
    texts_keep(plan.made_from.texts, caseload)
    texts_forget_unnamed()
    return kept


def texts_keep(texts: dict[str, str], caseload: Caseload) -> None:
    """Keep the words of a plan's activities; call it inside the transaction that keeps the plan.

    Parameters
    ----------
    texts
        Fingerprint by activity, as the plan says it.
    """
    library = library_in_force(caseload)
    known = set(OwnPiece.objects.filter(kind="text").values_list("key", flat=True))
    new = []
    now = texts_of(texts, library)
    for name, wanted in texts.items():
        if wanted in known or now.get(name) != wanted:
            continue
        kept = KeptText(id=wanted, activity=as_kept(library.activities[name]))
        new.append(OwnPiece(kind="text", key=wanted, body=asdict(kept)))
    OwnPiece.objects.bulk_create(new)


def texts_forget_unnamed() -> None:
    """Forget the texts that no plan names any more; in the same transaction."""
    named: set[str] = set()
    for texts in (
        *SessionRow.objects.values_list("plan__made_from__texts", flat=True),
        *Asked.objects.values_list("before__made_from__texts", flat=True),
    ):
        named |= set((texts or {}).values())
    kept = OwnPiece.objects.filter(kind="text").values_list("pk", "key")
    gone = [number for number, key in kept if key not in named]
    OwnPiece.objects.filter(pk__in=gone).delete()


def texts_keep_before(activity: str) -> None:
    """Keep what an activity says before it is changed, for sessions that were held with it.

    Those that were planned by an older program name no texts yet; they name this one then.
    Call it inside the transaction that changes the activity.
    """
    pieces = Caseload(**own_pieces_from_rows(*IN_FORCE))
    library = library_in_force(pieces)
    if activity not in library.activities:
        return
    texts = texts_of((activity,), library)
    used = False
    for row in SessionRow.objects.filter(status="held").exclude(plan=None):
        if _plays_unnamed(row.plan, activity):
            made_from = row.plan.get("made_from", {})
            named = {**made_from.get("texts", {}), **texts}
            row.plan = {**row.plan, "made_from": {**made_from, "texts": named}}
            row.save(update_fields=["plan"])
            used = True
    if used:
        texts_keep(texts, pieces)


def _plays_unnamed(plan: dict[str, Any], activity: str) -> bool:
    named = plan.get("made_from", {}).get("texts", {})
    return activity not in named and any(
        part.get("activity") == activity for part in plan.get("parts", [])
    )
