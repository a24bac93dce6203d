"""What fills a gap between two steps of a progression, beside help: a change of the set-up."""

from __future__ import annotations

from tapeline.activities.models import Library
from tapeline.caseload.people import Child
from tapeline.sessions.learn import SkillLearned


def what_fills_the_gap(learned: SkillLearned, library: Library, child: Child) -> str:
    """The easier way of the next step's usual version, or the empty text.

    Only where the proposal says that a gap follows, and only a version that is made for how the
    child gets about.
    """
    following = learned.proposal.values.get("next")
    if learned.proposal.code != "gap" or following is None:
        return ""
    for activity in library.activities.values():
        for version in activity.versions:
            fits = child.gets_about in version.gets_about
            if version.step == following and fits and version.too_hard:
                return f"Or, between the two, without more help: {version.too_hard}"
    return ""
