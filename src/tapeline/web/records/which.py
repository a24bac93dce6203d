"""Which caseload is open: her own, or the invented one in a database of its own."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

OWN = "default"
INVENTED = "invented"
_open: ContextVar[str] = ContextVar("open_caseload", default=OWN)


def open_database() -> str:
    """The alias of the database that services and selectors work on now."""
    return _open.get()


def invented_is_open() -> bool:
    """Whether the invented caseload is shown."""
    return open_database() == INVENTED


@contextmanager
def opened(alias: str) -> Iterator[None]:
    """Work on this database until the block ends."""
    token = _open.set(alias)
    try:
        yield
    finally:
        _open.reset(token)


class OpenCaseload:
    """Sends every query to the caseload that is open."""

    def db_for_read(self, model: Any, **hints: Any) -> str:
        return open_database()

    def db_for_write(self, model: Any, **hints: Any) -> str:
        return open_database()
