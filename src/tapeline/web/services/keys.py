"""Ids for new rows: short, random, and easy to tell apart when read aloud."""

from __future__ import annotations

import secrets

LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"
LENGTH = 7


def new_id(kind: str) -> str:
    """An id such as ``c-7k3qm4x``; `kind` is its first letters."""
    return f"{kind}-" + "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
