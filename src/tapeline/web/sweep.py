"""When unused memory is looked for: between pages, seldom in the middle of one.

A page leaves some 8,000 small objects behind that point at each other. Left alone, Python looks
through everything it holds every second or third page, and that page waits a tenth of a second.
"""

from __future__ import annotations

import gc
import threading

SWEEP_EVERY_S = 10.0
YOUNG, MIDDLE = 700, 10  # Python's own
OLD = 200  # some sixty pages, about 100 MB: only if the thread below never gets its turn
WORTH_IT = 10


def keep_for_good() -> None:
    """What is loaded by now stays until the end and need not be looked through again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG, MIDDLE, OLD)


def sweep_until(stopping: threading.Event) -> None:
    """Look for unused memory every few seconds in which pages were served."""
    while not stopping.wait(SWEEP_EVERY_S):
        if gc.get_count()[2] > WORTH_IT:
            gc.collect()
