"""A browser at the pages of records."""

from __future__ import annotations

import pytest
from django.test import Client


@pytest.fixture
def browser() -> Client:
    """A browser on this computer."""
    return Client(headers={"host": "127.0.0.1"})
