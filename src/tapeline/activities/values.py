"""Dated values of practice that planning rests on, read once from ``data/practice``."""

from __future__ import annotations

from functools import cache
from typing import Any

from tapeline.activities.shipped import shipped_yaml


@cache
def planning_values() -> Any:
    """How a session is weighed: success band, first guesses, weights, adults, course."""
    return shipped_yaml("practice/planning.yaml")


@cache
def session_shapes() -> Any:
    """Parts of a session by its length, shortest first."""
    return shipped_yaml("practice/session_shape.yaml")["shapes"]
