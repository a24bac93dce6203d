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
from tapeline.sessions.everyone import forget_everyone
from tapeline.sessions.learn import Evidence, SkillLearned, evidence_of, learned_of

MOST_KEPT = 512
DATES_KEPT = 4
_kept: OrderedDict[Hashable, tuple[SkillLearned, ...]] = OrderedDict()
_evidence: OrderedDict[tuple[str, dt.date], Evidence] = OrderedDict()
_kept_of: Hashable = None
_one_at_a_time = Lock()


def learned_so_far(
    caseload: Caseload, library: Library, child: Child, *, on: dt.date
) -> tuple[SkillLearned, ...]:
    """The same as `learned_of`; asked again about the same record, it is not replayed.

    Notes
    -----
    The key is everything the answer rests on: the library's version, the child, everyone's
    starts and trials with their days, the prompt levels and the date. Nothing is written.
    """
    key, history = (library.version, child, on), _history_of(caseload)
    with _one_at_a_time:
        _keep_only(history)
        found = _kept.get(key)
        if found is not None:
            _kept.move_to_end(key)
            return found
    evidence = _evidence.get((library.version, on))
    if evidence is None:
        evidence = evidence_of(caseload, library, until=on)
    found = learned_of(caseload, library, child, on=on, evidence=evidence)
    with _one_at_a_time:
        if _kept_of == history:
            _kept[key] = found
            _evidence[library.version, on] = evidence
        while len(_evidence) > DATES_KEPT:
            _evidence.popitem(last=False)
        while len(_kept) > MOST_KEPT:
            _kept.popitem(last=False)
    return found


def _history_of(caseload: Caseload) -> Hashable:
    """What everyone's answer rests on: starts, trials with their days, prompt levels."""
    dates = {session.id: session.date for session in caseload.sessions}
    starts = tuple((one.id, one.born, one.skills) for one in caseload.children)
    trials = tuple(caseload.trials)
    days = tuple(dates.get(trial.session) for trial in trials)
    return (starts, trials, days, caseload.prompt_levels)


def _keep_only(history: Hashable) -> None:
    """A try that is new is news for every child: what was kept of another record goes."""
    global _kept_of
    if history != _kept_of:
        _kept.clear()
        _evidence.clear()
        _kept_of = history


def forget_learned() -> None:
    """Throw away what is kept, as when a child is deleted."""
    with _one_at_a_time:
        _keep_only(None)
    forget_losses()
    forget_everyone()
