"""Which caseload is open: her own, the invented one, or a backup; each has its own database."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

OWN = "default"
INVENTED = "invented"
LOOKED_AT = "looked_at"  # a backup, open to look
_open: ContextVar[str] = ContextVar("open_caseload", default=OWN)


def open_database() -> str:
    """The alias of the database that services and selectors work on now."""
    return _open.get()


def invented_is_open() -> bool:
    """Whether the invented caseload is shown."""
    return open_database() == INVENTED


def backup_is_open() -> bool:
    """Whether a backup is shown, in which nothing can be changed."""
    return open_database() == LOOKED_AT


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

    def allow_migrate(self, db: str, app_label: str, **hints: Any) -> bool | None:
        return False if db == LOOKED_AT else None
