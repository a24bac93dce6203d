"""The shipped values of progress: when a measure may speak, and what words are held to."""

from __future__ import annotations

from functools import cache
from typing import Any

from tapeline.activities.shipped import shipped_yaml


@cache
def progress_values() -> Any:
    """The shipped values with their units, dates and sources."""
    return shipped_yaml("practice/progress.yaml")
