"""A file that she looked at and has not brought in yet: kept in the data folder meanwhile."""

from __future__ import annotations

import secrets
from pathlib import Path

from tapeline.errors import InputError
from tapeline.web.data_folder import data_folder

PATTERN = "incoming-*.json"


def incoming_keep(*, text: str) -> str:
    """Keep a text and return the word that finds it; an earlier one is forgotten."""
    incoming_forget()
    token = secrets.token_hex(16)
    try:
        _path(token).write_text(text, encoding="utf-8")
    except OSError as error:
        _path(token).unlink(missing_ok=True)
        raise InputError(
            f"The file could not be kept for looking at ({error.strerror}).",
            field="file",
            hint="Free some space and choose it again.",
        ) from error
    return token


def incoming_text(*, token: str) -> str:
    """The text that was kept.

    Raises
    ------
    InputError
        It is not there any more.
    """
    try:
        return _path(token).read_text(encoding="utf-8")
    except (FileNotFoundError, ValueError):
        raise InputError(
            "The file you looked at is not there any more.",
            field="file",
            hint="Choose it again.",
        ) from None


def incoming_forget() -> None:
    """Throw away what is kept."""
    for path in data_folder().glob(PATTERN):
        path.unlink(missing_ok=True)


def _path(token: str) -> Path:
    if not (token.isascii() and token.isalnum()):
        raise ValueError("no token of ours")
    return data_folder() / f"incoming-{token}.json"
