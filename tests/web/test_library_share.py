"""``tapeline library export`` and ``add`` on a data folder."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.web.records.convert import caseload_from_rows, own_piece_to_row
from tapeline.web.records.models import OwnPiece
from tests.unit.cli.commands import ran

pytestmark = pytest.mark.django_db

A_THING = {
    "id": "net_float",
    "name": "net float",
    "name_es": "flotador de red",
    "functions": ["throw"],
    "size": "8 cm",
    "household": False,
    "may_contain_latex": "no",
}


@pytest.fixture(autouse=True)
def the_records_are_open(monkeypatch: pytest.MonkeyPatch) -> None:
    """The command works on the records of the test."""
    monkeypatch.setattr("tapeline.cli.library_share.open_records", lambda: None)


def test_what_is_exported_is_added_elsewhere_and_only_once(
    on_file: Caseload, tmp_path: Path
) -> None:
    own_piece_to_row("material", A_THING)
    path = tmp_path / "mine.json"
    assert ran(("library", "export", str(path))).out.strip() == f"Your activities are in {path}."
    OwnPiece.objects.all().delete()
    looked = ran(("library", "add", str(path), "--look", "--json"))
    assert json.loads(looked.out) == {
        "done": False,
        "by": "R. Quay",
        "things": [{"kind": "material", "id": "net_float", "name": "net float", "verdict": "new"}],
    }
    assert not OwnPiece.objects.exists()
    assert "Added." in ran(("library", "add", str(path))).out
    assert caseload_from_rows().own_materials == (A_THING,)
    assert "here already" in ran(("library", "add", str(path))).out


def test_without_anything_of_hers_it_says_so(on_file: Caseload, tmp_path: Path) -> None:
    done = ran(("library", "export", str(tmp_path / "mine.json")))
    assert done.code == 2
    assert "There is nothing of yours to give away." in done.err
