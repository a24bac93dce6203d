"""Searches that run beside the pages: begun once, looked at again and again, ended at any time.

A search is known by a key made of its question, so that a link that asks the same finds the same
search. It touches no records: what it needs is read before it begins.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable
from typing import Any, Generic, TypeVar

from tapeline.errors import TapelineError
from tapeline.web.services.behind import start

Better = TypeVar("Better")
Answer = TypeVar("Answer")
MOST_KEPT = 12


class Ended(Exception):
    """The search was ended from outside; what it had found stands."""


class Running(Generic[Better, Answer]):
    """One search: what it has found so far, its answer, or why it has none.

    `betters` are numbered from 1 in the order they were found, each better than the one before.
    """

    def __init__(self, key: str) -> None:
        self.key = key
        self.betters: list[Better] = []
        self.answer: Answer | None = None
        self.fault: TapelineError | None = None
        self.broke: Exception | None = None
        self._over = threading.Event()
        self._changed = threading.Condition()
        self._is_ended = False

    @property
    def is_over(self) -> bool:
        """Whether it has an answer, a fault, or was ended."""
        return self._over.is_set() or self._is_ended

    @property
    def is_ended(self) -> bool:
        """Whether somebody took what there was, before it was through."""
        return self._is_ended

    def found(self, better: Better) -> None:
        """Called by the work with each better one.

        Raises
        ------
        Ended
            Nobody waits for more.
        """
        if self._is_ended:
            raise Ended
        with self._changed:
            self.betters.append(better)
            self._changed.notify_all()

    def end(self) -> None:
        """End it; what was found until now stands."""
        self._is_ended = True
        with self._changed:
            self._changed.notify_all()

    def wait(self, seconds: float) -> None:
        """Wait until it is over, at most so long."""
        with self._changed:
            self._changed.wait_for(lambda: self.is_over, timeout=seconds)

    def wait_for_better(self, number: int, seconds: float) -> None:
        """Wait until so many were found or it is over, at most so long."""
        with self._changed:
            self._changed.wait_for(
                lambda: self.is_over or len(self.betters) >= number, timeout=seconds
            )

    def run(self, work: Callable[[Running[Better, Answer]], Answer]) -> None:
        """Do the work and keep what comes of it."""
        try:
            self.answer = work(self)
        except Ended:
            pass
        except TapelineError as fault:
            self.fault = fault
        except Exception as broke:  # shown by the page that looks, as any fault of ours
            self.broke = broke
        finally:
            self._over.set()
            with self._changed:
                self._changed.notify_all()


_kept: OrderedDict[str, Running[Any, Any]] = OrderedDict()
_lock = threading.Lock()


def search_begin(
    *, key: str, work: Callable[[Running[Better, Answer]], Answer]
) -> Running[Better, Answer]:
    """The search of this key: the one there is, or one that begins now in a thread of its own."""
    with _lock:
        known = _kept.get(key)
        if known is not None:
            _kept.move_to_end(key)
            return known
        running: Running[Better, Answer] = Running(key)
        _kept[key] = running
        dropped = [_kept.popitem(last=False)[1] for _ in range(len(_kept) - MOST_KEPT)]
    for old in dropped:
        old.end()
    start(lambda: running.run(work))
    return running


def search_forget(key: str) -> None:
    """End a search and forget what it found."""
    with _lock:
        old = _kept.pop(key, None)
    if old is not None:
        old.end()
