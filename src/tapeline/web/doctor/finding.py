"""What a check-up finds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

About = Literal["records", "references", "library", "templates", "fonts", "disk", "backup"]


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing that is amiss: what it is about, what was found, what to do next."""

    about: About
    sentence: str
    next_step: str
