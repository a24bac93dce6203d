"""Work that goes on behind the pages, each piece in a thread of its own.

Python changes from one busy thread to another every 5 ms. A page asks the database some fifty
times, and would wait that long after each; while work goes on, threads change more often.
"""

from __future__ import annotations

import logging
import sys
import threading
from collections.abc import Callable

from tapeline.errors import TapelineError

log = logging.getLogger("tapeline.behind")

SHORT_TURN_S = 0.0005

_usual_turn_s = sys.getswitchinterval()
_at_work = 0
_lock = threading.Lock()

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
