"""Activities that an older program kept are hers after the change of version."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.db.migrations.executor import MigrationExecutor

BODIES = [{"id": "tide_line", "name": "Tide line"}, {"id": "net_post", "name": "Net post"}]


def migrated(*targets: tuple[str, str]) -> Any:
    """The tables as these changes leave them."""
    executor = MigrationExecutor(connection)
    executor.migrate(list(targets))
    return MigrationExecutor(connection).loader.project_state(list(targets)).apps


@pytest.mark.django_db(transaction=True)
def test_activities_of_an_older_program_move_in_with_the_rest() -> None:
    latest = MigrationExecutor(connection).loader.graph.leaf_nodes("records")
    try:
        old = migrated(("records", "0003_run")).get_model("records", "OwnActivity")
        for place, body in enumerate(BODIES):
            old.objects.create(key=body["id"], body=body, position=place)
        new = migrated(("records", "0004_own_library")).get_model("records", "OwnPiece")
        found = list(new.objects.filter(kind="activity").values_list("key", "body"))
        assert found == [(body["id"], body) for body in BODIES]
        new.objects.all().delete()
    finally:
        migrated(*latest)
