"""How a caseload value is made: frozen, keyword-only, and strict about unknown fields."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar, dataclass_transform

from pydantic import ConfigDict

Value = TypeVar("Value")


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
def record(cls: type[Value]) -> type[Value]:
    """A frozen, keyword-only dataclass whose file form refuses fields it does not know."""
    cls.__pydantic_config__ = ConfigDict(extra="forbid")  # type: ignore[attr-defined]
    return dataclass(frozen=True, kw_only=True)(cls)
