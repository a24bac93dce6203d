"""The program is killed at 50 moments while it stores: nothing acknowledged is lost.

A press is answered when it is on disk, so what the page was told is stored must be there at
the next start; work that was in hand is done again and counts once. Killing a process says
nothing about a power cut, which needs unsynced pages of the file dropped.
"""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tests.web.conftest import TODAY
from tests.web.killed import KILLS, SHEET_EVERY

ROOT = Path(__file__).resolve().parents[2]
ROWS_OF_A_SHEET = 6
pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")


@pytest.fixture(scope="module")
def killed(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, Any], Path]:
    """What was acknowledged over all kills, and the file with the records."""
    home = tmp_path_factory.mktemp("killed") / "home"
    environment = os.environ | {
        "TAPELINE_HOME": str(home),
        "TAPELINE_TODAY": TODAY.isoformat(),
        "DJANGO_SETTINGS_MODULE": "tapeline.web.settings",
        "PYTHONPATH": os.pathsep.join((str(ROOT / "src"), str(ROOT))),
    }
    done = subprocess.run(
        [sys.executable, "-m", "tests.web.killed"],
        env=environment,
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout), home / "tapeline.sqlite3"


def ask(path: Path, query: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(query).fetchall()


def test_the_file_is_sound_after_every_kill(killed: tuple[dict[str, Any], Path]) -> None:
    assert ask(killed[1], "PRAGMA integrity_check") == [("ok",)]
    assert ask(killed[1], "PRAGMA foreign_key_check") == []


def test_nothing_acknowledged_is_lost(killed: tuple[dict[str, Any], Path]) -> None:
    told, path = killed
    presses = {name for (name,) in ask(path, "SELECT key FROM records_press")}
    sheets = {name for (name,) in ask(path, "SELECT key FROM records_sheet")}
    assert len(told["told"]) > KILLS // 5  # a slow machine acknowledges little between two kills
    assert set(told["told"]) <= presses | sheets


def test_what_was_in_hand_at_a_kill_counts_once(killed: tuple[dict[str, Any], Path]) -> None:
    told, path = killed
    assert told["told"] == sorted(set(told["told"]), key=told["told"].index)
    stored = ask(path, "SELECT key FROM records_trial WHERE key LIKE 'n.%'")
    expected = {f"n.{at}" for at in range(told["begun"] + 1) if at % SHEET_EVERY != SHEET_EVERY - 1}
    assert {name for (name,) in stored} <= expected
    assert len(stored) == len(set(stored))


def test_nothing_half_is_kept(killed: tuple[dict[str, Any], Path]) -> None:
    _, path = killed
    trials = ask(path, "SELECT key FROM records_trial WHERE key LIKE 'n.%'")
    presses = ask(path, "SELECT key FROM records_press")
    assert sorted(trials) == sorted(presses)
    for (name,) in ask(path, "SELECT key FROM records_sheet WHERE key LIKE 'sheet%'"):
        (count,) = ask(path, f"SELECT count(*) FROM records_trial WHERE key LIKE '{name}.%'")
        assert count == (ROWS_OF_A_SHEET,)
    alone = ask(
        path,
        "SELECT t.key FROM records_trial t WHERE t.key LIKE 'sheet%' AND NOT EXISTS"
        " (SELECT 1 FROM records_sheet s WHERE t.key LIKE s.key || '.%')",
    )
    assert alone == []


def test_undone_presses_stay_undone(killed: tuple[dict[str, Any], Path]) -> None:
    told, path = killed
    rows = ask(path, "SELECT corrects FROM records_trial WHERE corrects IS NOT NULL AND count = 0")
    assert set(told["undone"]) <= {name for (name,) in rows}
