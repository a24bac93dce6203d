"""What a child can probably do now, from the trials recorded so far.

Boundary: imports caseload and what lies below it; arrays in, beliefs out; no files, no clock.
`Caseload` drives the whole from plain arrays (docs/ability.md).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tapeline.ability.caseload import Caseload

__all__ = ["Caseload"]


def __getattr__(name: str) -> Any:
    """Bring `Caseload` in where it is first asked for: numpy and YAML wait until then."""
    if name == "Caseload":
        from tapeline.ability.caseload import Caseload

        return Caseload
    raise AttributeError(f"tapeline.ability has no {name}")
