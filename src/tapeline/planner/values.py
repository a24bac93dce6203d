"""Dated values only the planner uses, read once from ``data/practice``."""

from __future__ import annotations

from functools import cache
from typing import Any

from tapeline.activities.shipped import shipped_yaml


@cache
def preference_values() -> Any:
    """Weights of the preferences, and the most that they may cost."""
    return shipped_yaml("practice/preferences.yaml")


@cache
def real_parts() -> Any:
    """What makes a part a real one: its doing against its explaining and changing."""
    return shipped_yaml("practice/session_shape.yaml")["real_parts"]
