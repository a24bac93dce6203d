"""One tapeline at a time on one data folder: a lock that ends with its process."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import IO

from tapeline.errors import TapelineError


class OnlyOne:
    """Holds the data folder's lock; a second holder is refused at once."""

    def __init__(self, folder: Path) -> None:
        self._lock = folder / "in-use.lock"
        self._notes = folder / "in-use.json"
        self._held: IO[bytes] | None = None

    def take(self) -> bool:
        """Take the lock; False when another tapeline holds it."""
        file = self._lock.open("a+b")
        try:
            _lock(file)
        except OSError:
            file.close()
            return False
        self._held = file
        self._notes.unlink(missing_ok=True)  # left by one that was killed
        return True

    def note(self, address: str) -> None:
        """Leave the address for a second start to find."""
        self._notes.write_text(json.dumps({"address": address}), encoding="utf-8")

    def address(self) -> str | None:
        """The address of the tapeline that holds the lock, once it has one."""
        try:
            return str(json.loads(self._notes.read_text(encoding="utf-8"))["address"])
        except (OSError, ValueError, KeyError):
            return None

    def give_back(self) -> None:
        """Give the lock back."""
        if self._held is not None:
            self._notes.unlink(missing_ok=True)
            self._held.close()
            self._held = None


def refuse_while_running(folder: Path) -> OnlyOne:
    """The lock, for a command that must be alone with the records.

    Raises
    ------
    TapelineError
        tapeline is running on this data folder.
    """
    only = OnlyOne(folder)
    if not only.take():
        raise TapelineError(
            f"tapeline is running on {folder}.",
            hint="Close it first, or do this on its own page.",
        )
    return only


if sys.platform == "win32":
    import msvcrt

    def _lock(file: IO[bytes]) -> None:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(file: IO[bytes]) -> None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
