"""What is known of a child, kept in memory as long as nothing it rests on changes."""

from __future__ import annotations

import datetime as dt
from collections import OrderedDict
from collections.abc import Hashable
from threading import Lock

from tapeline.ability.loss import forget_losses
from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child
from tapeline.sessions.learn import SkillLearned, learned_of

MOST_KEPT = 512
_kept: OrderedDict[Hashable, tuple[SkillLearned, ...]] = OrderedDict()
_one_at_a_time = Lock()


def learned_so_far(
    caseload: Caseload, library: Library, child: Child, *, on: dt.date
) -> tuple[SkillLearned, ...]:
    """The same as `learned_of`; asked again about the same record, it is not replayed.

    Notes
    -----
    The key is everything the answer rests on: the library's version, the child, its trials
    with their days, the prompt levels and the date. Nothing is written anywhere.
    """
    dates = {session.id: session.date for session in caseload.sessions}
    trials = tuple(trial for trial in caseload.trials if trial.child == child.id)
    days = tuple(dates.get(trial.session) for trial in trials)
    levels = caseload.prompt_lists[-1].levels
    key = (library.version, child, trials, days, levels, on)
    with _one_at_a_time:
        found = _kept.get(key)
        if found is not None:
            _kept.move_to_end(key)
            return found
    found = learned_of(caseload, library, child, on=on)
    with _one_at_a_time:
        _kept[key] = found
        while len(_kept) > MOST_KEPT:
            _kept.popitem(last=False)
    return found


def forget_learned() -> None:
    """Throw away what is kept, as when a child is deleted."""
    with _one_at_a_time:
        _kept.clear()
    forget_losses()
