"""What can go wrong, and what the therapist can do about it.

::

    TapelineError
    ├── InputError          something she typed or a file she gave; names the field
    │   └── ManyFaults      all faults of one file at once
    ├── NoFeasiblePlan      wishes or limits that clash; names them and the ways out
    └── MissingComponent    a part of the program that is not installed

A fault of ours is a plain ``ValueError`` or ``TypeError`` and is shown as a calm page.
"""

from __future__ import annotations

from collections.abc import Iterable


class TapelineError(Exception):
    """A failure with a sentence a therapist can act on.

    Parameters
    ----------
    message
        One full sentence: what was found, with value and unit, and where.
    hint
        The next step, as a sentence; empty when the message already holds it.
    """

    def __init__(self, message: str, *, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return f"{self.message} {self.hint}".strip()


class InputError(TapelineError, ValueError):
    """Raised when a value she gave cannot be used; `field` says which one.

    It is also a ``ValueError``, so that a file's faults are gathered, not met one by one.
    """

    def __init__(self, message: str, *, field: str = "", hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.field = field


class ManyFaults(InputError):
    """Raised when a file has faults; `faults` holds every one, in file order."""

    def __init__(self, faults: Iterable[InputError], *, where: str) -> None:
        self.faults = tuple(faults)
        count = len(self.faults)
        noun = "fault" if count == 1 else "faults"
        lines = "\n".join(f"- {fault}" for fault in self.faults)
        super().__init__(f"{where} has {count} {noun}. Nothing was changed.\n{lines}")


class NoFeasiblePlan(TapelineError):
    """Raised when no session fits.

    Parameters
    ----------
    message
        The clash in words.
    clash
        Ids of the wishes and limits that clash; leave any one out and a plan exists.
    ways_out
        Sentences, each a change that was tried and gives a plan.
    requests
        The changed request of each way out, in the same order.
    hint
        The next step where no way out was found.
    """

    def __init__(
        self,
        message: str,
        *,
        clash: Iterable[str] = (),
        ways_out: Iterable[str] = (),
        requests: Iterable[object] = (),
        hint: str = "",
    ) -> None:
        self.clash = tuple(clash)
        self.ways_out = tuple(ways_out)
        self.requests = tuple(requests)
        super().__init__(message, hint=" ".join(self.ways_out) or hint)


class MissingComponent(TapelineError):
    """Raised when a part is not installed; the hint says what to install."""
