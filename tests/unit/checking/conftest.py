"""The tiny library, read once."""

from __future__ import annotations

import pytest

from tapeline.checking.rulebook import Book, read_book
from tests.unit.checking.small_world import write_data


@pytest.fixture(scope="session")
def book(tmp_path_factory: pytest.TempPathFactory) -> Book:
    return read_book(write_data(tmp_path_factory.mktemp("data")))
