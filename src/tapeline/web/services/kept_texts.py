"""Keep what an activity says when a session is planned with it; forget what no plan names."""

from __future__ import annotations

from dataclasses import asdict

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.own_library import KeptText, as_kept, library_in_force, text_fingerprint
from tapeline.web.records.models import OwnPiece, Session


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
    for name, wanted in texts.items():
        activity = library.activities.get(name)
        if wanted in known or activity is None or text_fingerprint(activity, library) != wanted:
            continue
        kept = KeptText(id=wanted, activity=as_kept(activity))
        new.append(OwnPiece(kind="text", key=wanted, body=asdict(kept)))
    OwnPiece.objects.bulk_create(new)


def texts_forget_unnamed() -> None:
    """Forget the texts that no plan names any more; in the same transaction."""
    named: set[str] = set()
    for texts in Session.objects.values_list("plan__made_from__texts", flat=True):
        named |= set((texts or {}).values())
    kept = OwnPiece.objects.filter(kind="text").values_list("pk", "key")
    gone = [number for number, key in kept if key not in named]
    OwnPiece.objects.filter(pk__in=gone).delete()
