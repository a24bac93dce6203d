"""Work that goes on behind the pages, each piece in a thread of its own.

Python changes from one busy thread to another every 5 ms. A page asks the database some fifty
times, and would wait that long after each; while work goes on, threads change more often.

A search for a session is such work: one at a time of each kind, and a new question drops the
search for the one before.
"""

from __future__ import annotations

import datetime as dt
import logging
import sys
import threading
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from tapeline.caseload.caseload import Caseload
from tapeline.errors import TapelineError
from tapeline.web.gate import GATE
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.records.which import opened

log = logging.getLogger("tapeline.behind")

SHORT_TURN_S = 0.0005
DROP_AGAIN_S = 0.05

_usual_turn_s = sys.getswitchinterval()
_at_work = 0
_lock = threading.Lock()
_one_begins = threading.Lock()

OUR_FAULT = (
    "The search ended by a fault of tapeline's own. Your records are as they were.",
    "Ask again. If it ends again, change one wish at a time.",
)


def start(work: Callable[[], None]) -> None:
    """Begin the work and come back at once; it ends with the program, whatever it was at."""
    threading.Thread(target=_with_own_connections, args=(work,), daemon=True).start()


def _with_own_connections(work: Callable[[], None]) -> None:
    from django.db import connections

    _count(1)
    try:
        work()
    finally:
        _count(-1)
        connections.close_all()  # no file stays open for who waits to be alone


def _count(more: int) -> None:
    global _at_work
    with _lock:
        _at_work += more
        sys.setswitchinterval(SHORT_TURN_S if _at_work else _usual_turn_s)


def fault_of_ours(error: Exception) -> TapelineError:
    """The sentence for a fault of ours, once its kind is in the log: names are not."""
    log.error("work behind the pages ended: %s", type(error).__name__)
    message, hint = OUR_FAULT
    return TapelineError(message, hint=hint)


class Superseded(Exception):
    """What this search finds is not wanted any more."""


@dataclass(frozen=True)
class Spot:
    """Which session: the caseload that is open, the group and the date."""

    database: str
    group: str
    date: dt.date


class Search(ABC):
    """One search for a session. Pages read it while its thread writes.

    `question` is all that it is asked: two that ask the same are one. `error` says why there is
    no answer; `over` is set once nothing more comes.
    """

    def __init__(self, spot: Spot, question: Any) -> None:
        self.spot = spot
        self.question = question
        self.error: TapelineError | None = None
        self.over = threading.Event()
        self.is_dropped = False

    @abstractmethod
    def search(self) -> None:
        """Find the answer and keep it."""

    def run(self, before: Search | None = None) -> None:
        """Search to the end, in place of the search before it."""
        try:
            with opened(self.spot.database):
                self.search()
        except Superseded:
            pass
        except TapelineError as error:
            self.fail(error)
        except Exception as error:  # whatever it is, the page has to hear of it
            self.fail(fault_of_ours(error))
        finally:
            self.over.set()

    def fail(self, error: TapelineError) -> None:
        """Keep why there is no answer."""
        self.error = error

    def drop(self) -> None:
        """Nobody waits for it any more: end soon."""
        self.is_dropped = True

    def end(self) -> None:
        """Wait until a dropped search is over: a call that came too early is made again."""
        while not self.over.wait(DROP_AGAIN_S):
            self.drop()

    def go_on(self) -> None:
        """Called between two steps of the work.

        Raises
        ------
        Superseded
            The search was dropped.
        """
        if self.is_dropped:
            raise Superseded


Kind = TypeVar("Kind", bound=Search)


def begin_or_join(kept: dict[Spot, Kind], fresh: Kind) -> Kind:
    """The search kept for the session where it asks the same; else the fresh one, begun now.

    One that asked something else is dropped.
    """
    with _one_begins:
        before = kept.get(fresh.spot)
        if before is not None and before.question == fresh.question:
            return before
        kept[fresh.spot] = fresh
    if before is not None:
        before.drop()
    start(lambda: fresh.run(before))
    return fresh


def caseload_on_file() -> Caseload:
    """The caseload as a search begins with it."""
    with GATE.passing():
        return caseload_from_rows()
