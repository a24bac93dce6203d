"""Killed in the middle of a save, fifty times: nothing acknowledged is lost, nothing half kept."""

from __future__ import annotations

import os
import random
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tapeline.web import database_file
from tapeline.web.data_folder import own_database

KILLS = 50
LONGEST_S = 0.06
SCRIPT = Path(__file__).parent / "saves_until_killed.py"
ASKED = {
    "note": "SELECT note FROM records_child WHERE key = 'c1'",
    "goals": "SELECT g.name FROM records_goal g JOIN records_child c ON c.id = g.child_id"
    " WHERE c.key = 'c1'",
    "precautions": "SELECT p.note FROM records_childprecaution p"
    " JOIN records_child c ON c.id = p.child_id WHERE c.key = 'c1'",
    "go-aheads": "SELECT written_by FROM records_goahead",
}
ROWS = {"note": 1, "goals": 3, "precautions": 1, "go-aheads": 1}


class Saver:
    """The process that saves, and what it has acknowledged."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        self.process = process
        self.kept = 0

    def ask(self, line: str) -> None:
        self.process.stdin.write(f"{line}\n")
        self.process.stdin.flush()

    def read_until(self, word: str) -> str:
        """Read what it says up to a line that begins with a word; keep the acknowledgements."""
        for line in self.process.stdout:
            said, _, rest = line.strip().partition(" ")
            if said == "kept":
                self.kept = max(self.kept, int(rest))
            if said == word:
                return rest
        raise AssertionError(f"it ended before it said {word}")


@pytest.fixture
def folder(folder_with_files: Path, tmp_path: Path) -> Path:
    """A data folder of its own."""
    shutil.copytree(folder_with_files, tmp_path / "records")
    return tmp_path / "records"


@pytest.fixture
def saver(folder: Path) -> Iterator[Saver]:
    """A process that saves on that folder when it is asked."""
    environment = os.environ | {
        "TAPELINE_HOME": str(folder),
        "TAPELINE_TODAY": "2026-11-25",
        "DJANGO_SETTINGS_MODULE": "tapeline.web.settings",
        "PYTHONPATH": os.pathsep.join(filter(None, sys.path)),
    }
    with subprocess.Popen(
        [sys.executable, str(SCRIPT)],
        env=environment,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        yield Saver(process)
        process.stdin.close()
        process.wait(timeout=20)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a system that can fork")
def test_killed_at_random_moments_nothing_is_lost_and_nothing_half(
    folder: Path, saver: Saver
) -> None:
    chance = random.Random(50)
    path = own_database(folder)
    cut_off = 0
    for _ in range(KILLS):
        saver.ask(f"go {saver.kept + 1}")
        pid = int(saver.read_until("pid"))
        saver.read_until("kept")
        time.sleep(chance.uniform(0, LONGEST_S))
        os.kill(pid, signal.SIGKILL)
        saver.ask("wait")
        saver.read_until("dead")
        cut_off += database_file.journal_of(path).exists()
        number = the_one_number_in(path)
        assert number in (saver.kept, saver.kept + 1), "acknowledged and lost"
        saver.kept = number
    assert saver.kept > KILLS
    assert cut_off > 0, "no kill fell into a save, so nothing was tested"


def the_one_number_in(path: Path) -> int:
    """The number of the save that is on file; every row must be of that save."""
    database_file.refuse_any_damage(path)
    numbers = set()
    with database_file.looking_into(path) as connection:
        for what, question in ASKED.items():
            texts = [text for (text,) in connection.execute(question)]
            assert len(texts) == ROWS[what], what
            numbers |= {int(re.search(r"save (\d+)$", text)[1]) for text in texts}
    assert len(numbers) == 1, f"half of a save was kept: {numbers}"
    return numbers.pop()
