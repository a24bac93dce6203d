"""A browser at the pages of records."""

from __future__ import annotations

import pytest
from django.test import Client

from tapeline.web.services import behind


@pytest.fixture(autouse=True)
def nothing_goes_on_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    """A press answers once its search is over; tests with threads say so themselves."""
    monkeypatch.setattr(behind, "start", lambda work: work())


@pytest.fixture
def browser() -> Client:
    """A browser on this computer."""
    return Client(headers={"host": "127.0.0.1"})
