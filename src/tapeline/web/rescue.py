"""Whether the records are damaged, so that only a backup can be brought back."""

from __future__ import annotations

from tapeline.errors import TapelineError

_damage: list[TapelineError] = []


def begin(damage: TapelineError) -> None:
    """From here on every page brings a backup back, and says why."""
    _damage[:] = [damage]


def end() -> None:
    """The records are whole again."""
    _damage.clear()


def damage() -> TapelineError | None:
    """What is the matter with the records, or None."""
    return _damage[0] if _damage else None
