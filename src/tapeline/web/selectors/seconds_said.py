"""How long one go takes and what that number is worth, in plain words; hers comes first."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.models import Version
from tapeline.activities.seconds_from import Range, seconds_origin
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.her_seconds import Bands, her_seconds
from tapeline.web.records.convert import timing_from_row
from tapeline.web.records.models import Timing
from tapeline.web.selectors.people import children_list

NEVER: Bands = (None, None)
WORTH = {
    "sourced": lazy("from a source"),
    "derived": lazy("worked out from a source"),
    "default": lazy("a default, not measured"),
}
ONE_OF = {
    "tries": lazy("One go"),
    "rounds": lazy("One round"),
    "metres": lazy("One metre"),
    "seconds": lazy("One second"),
}


def timed_of(activity: str) -> dict[str, Bands]:
    """Her own seconds of the versions of an activity, for ages 3 to 4 and 5 to 8."""
    rows = Timing.objects.filter(version__startswith=f"{activity}.").select_related("child")
    timings = tuple(timing_from_row(row) for row in rows)
    if not timings:
        return {}
    return her_seconds(Caseload(timings=timings, children=children_list()))


def seconds_said(version: Version, *, timed: Bands = NEVER, is_hers: bool = False) -> str:
    """How long one go takes, and whether she timed it, wrote it, or nobody measured it.

    Parameters
    ----------
    timed
        Her own timed seconds for both ages; they take the place of the version's.
    is_hers
        She wrote the version's seconds herself.
    """
    worth = _("as you wrote it, not timed") if is_hers else str(WORTH[seconds_origin(version).mark])
    words: dict[str, str] = {"one": str(ONE_OF[version.unit]), "worth": worth}
    for name, own, shipped in zip(
        ("younger", "older"), timed, version.seconds_per_unit, strict=True
    ):
        words[name] = _seconds(shipped if own is None else round(own, 1))
    if timed == NEVER:
        said = _("%(one)s takes %(younger)s at 3 to 4 years, %(older)s at 5 to 8: %(worth)s.")
    elif timed[1] is None:
        said = _(
            "%(one)s takes %(younger)s at 3 to 4 years, timed by you;"
            " %(older)s at 5 to 8: %(worth)s."
        )
    elif timed[0] is None:
        said = _(
            "%(one)s takes %(older)s at 5 to 8 years, timed by you;"
            " %(younger)s at 3 to 4: %(worth)s."
        )
    else:
        said = _("%(one)s takes %(younger)s at 3 to 4 years, %(older)s at 5 to 8: timed by you.")
    return said % words


def seconds_row_said(version: Version) -> str:
    """The row of the timing table that the seconds lie on; empty where they lie on none."""
    origin = seconds_origin(version)
    if origin.row is None:
        return ""
    younger, older = map(_range, origin.ranges_s)
    said = _("The timing table gives %(younger)s and %(older)s for %(name)s.")
    if origin.mark == "default":
        said = _(
            "The timing table gives %(younger)s and %(older)s for %(name)s:"
            " common practice, no source."
        )
    return said % {"younger": younger, "older": older, "name": origin.row.name}


def _range(found: Range) -> str:
    low, high = found
    return _seconds(low) if low == high else f"{low:g}–{_seconds(high)}"


def _seconds(seconds: float) -> str:
    return f"{seconds:g} s"
