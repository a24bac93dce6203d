"""Requests pass side by side; what changes the database file itself goes alone."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager

from tapeline.errors import TapelineError

LONGEST_WAIT_S = 30.0


class Gate:
    """Many may pass at once, or one alone; who waits to be alone stops new ones."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._inside = 0
        self._someone_alone = False
        self._mine = threading.local()

    @contextmanager
    def passing(self) -> Iterator[None]:
        """Be inside with others."""
        with self._changed:
            self._changed.wait_for(lambda: not self._someone_alone, timeout=LONGEST_WAIT_S)
            self._inside += 1
        self._mine.passes = self._my_passes() + 1
        try:
            yield
        finally:
            self._mine.passes -= 1
            with self._changed:
                self._inside -= 1
                self._changed.notify_all()

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Be inside alone; a pass of this very thread does not count.

        Raises
        ------
        TapelineError
            Somebody is alone already, or others did not finish in time.
        """
        with self._changed:
            if self._someone_alone:
                raise TapelineError(
                    "The records are being exchanged already.", hint="Wait a moment."
                )
            self._someone_alone = True
            if not self._changed.wait_for(self._nobody_else, timeout=LONGEST_WAIT_S):
                self._someone_alone = False
                self._changed.notify_all()
                raise TapelineError(
                    "Other pages are still working on the records. Nothing was changed.",
                    hint="Wait until they are done, and try again.",
                )
        try:
            yield
        finally:
            with self._changed:
                self._someone_alone = False
                self._changed.notify_all()

    def _nobody_else(self) -> bool:
        return self._inside <= self._my_passes()

    def _my_passes(self) -> int:
        return int(getattr(self._mine, "passes", 0))


GATE = Gate()
