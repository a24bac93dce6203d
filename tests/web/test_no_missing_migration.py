"""The tables in the code are those that the changes make."""

from __future__ import annotations

import pytest
from django.core.management import call_command


@pytest.mark.django_db(databases=["default", "invented", "staged"])
def test_every_change_of_a_table_has_its_migration() -> None:
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)
