"""The power goes at any moment: nothing acknowledged is lost, nothing half is kept."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import apsw
import pytest

from tapeline.web.data_folder import own_database
from tapeline.web.settings import sqlite
from tests.web.power_loss import Disk, DiskOfMemory, Image

NAME = "tapeline.sqlite3"
SAVES = 25
TRIES_EACH = 6
CUTS = 250
IN_USE: str = sqlite(Path("x"))["OPTIONS"]["init_command"]
BEGIN: str = f"BEGIN {sqlite(Path('x'))['OPTIONS']['transaction_mode']}"


@dataclass(frozen=True, kw_only=True)
class Cut:
    """A moment without power: how many saves were acknowledged, and what the disk holds."""

    acknowledged: int
    image: Image


def cuts_during_saves(database: bytes, settings: str, *, seed: int = 7) -> list[Cut]:
    """Save over and over; the power goes at moments that a fixed seed chooses."""
    chance = random.Random(seed)
    cuts: list[Cut] = []
    acknowledged = 0

    def watch() -> None:
        if chance.random() < 0.25:
            cuts.append(Cut(acknowledged=acknowledged, image=disk.after_power_loss(chance)))

    disk = Disk({NAME: database}, watch)
    vfs = DiskOfMemory("losing-power", disk)
    connection = apsw.Connection(NAME, vfs="losing-power")
    connection.execute(f"{settings}; PRAGMA cache_size=8").fetchall()  # one after another
    for number in range(1, SAVES + 1):
        save(connection, number)
        acknowledged = number
    last = Cut(acknowledged=acknowledged, image=disk.after_power_loss(chance))
    connection.close()
    vfs.unregister()
    return [*chance.sample(cuts, min(CUTS - 1, len(cuts))), last]


def save(connection: apsw.Connection, number: int) -> None:
    """One save as a service makes it: several tables, all or nothing."""
    connection.execute(BEGIN)
    connection.execute("UPDATE records_child SET note = ?", (f"save {number} " + "x" * 900,))
    for turn in range(TRIES_EACH):
        connection.execute(
            "INSERT INTO records_trial (key, session_id, child_id, version, step, outcome, help,"
            ' "procedure", count, source) SELECT ?, s.id, c.id, ?, ?, ?, ?, ?, 1, ?'
            " FROM records_session s, records_child c WHERE s.key = 's1' AND c.key = 'c1'",
            (f"p{number}-{turn}", "quay_catch.bounced", "catch2.bounced", "alone", "alone",
             "least_help", "run"),
        )  # fmt: skip
    connection.execute("COMMIT")


def what_is_wrong(cut: Cut, folder: Path) -> str:
    """What the next start finds; empty when every promise is kept."""
    folder.mkdir()
    for name, content in cut.image.items():
        (folder / name).write_bytes(content)
    try:
        with closing(sqlite3.connect(folder / NAME)) as connection:
            if connection.execute("PRAGMA integrity_check(1)").fetchone() != ("ok",):
                return "damaged"
            if connection.execute("PRAGMA foreign_key_check").fetchone():
                return "a row that points nowhere"
            notes = {note for (note,) in connection.execute("SELECT note FROM records_child")}
            keys = {key for (key,) in connection.execute("SELECT key FROM records_trial")}
    except sqlite3.DatabaseError:
        return "damaged"
    return _lost_or_half(cut.acknowledged, notes, keys)


def _lost_or_half(acknowledged: int, notes: set[str], keys: set[str]) -> str:
    saves = {int(key[1:].split("-")[0]) for key in keys if key.startswith("p")}
    newest = max(saves, default=0)
    if newest < acknowledged:
        return "lost"
    whole = {f"p{number}-{turn}" for number in range(1, newest + 1) for turn in range(TRIES_EACH)}
    expected = {f"save {newest} " + "x" * 900} if newest else notes
    return "" if whole <= keys and notes == expected else "half"


@pytest.fixture(scope="module")
def database(folder_with_files: Path) -> bytes:
    """Her records, with the small caseload."""
    return own_database(folder_with_files).read_bytes()


def faults(database: bytes, settings: str, tmp_path: Path) -> list[str]:
    """What was wrong after each cut, where something was."""
    cuts = cuts_during_saves(database, settings)
    assert len(cuts) == CUTS
    assert len({cut.acknowledged for cut in cuts}) > SAVES / 2
    found = (what_is_wrong(cut, tmp_path / str(turn)) for turn, cut in enumerate(cuts))
    return [fault for fault in found if fault]


def test_with_the_settings_in_use_a_power_cut_loses_nothing(
    database: bytes, tmp_path: Path
) -> None:
    assert faults(database, IN_USE, tmp_path) == []


def test_the_same_test_fails_where_nothing_is_synchronised(database: bytes, tmp_path: Path) -> None:
    """Otherwise it would be no test of the setting."""
    off = IN_USE.replace("synchronous=EXTRA", "synchronous=OFF")
    assert off != IN_USE
    found = faults(database, off, tmp_path)
    assert "damaged" in found
    assert len(found) > CUTS / 2


def test_full_synchronisation_alone_can_lose_what_was_acknowledged(
    database: bytes, tmp_path: Path
) -> None:
    """Why EXTRA: with FULL the deletion of the journal may not be on disk yet, and the next
    start plays it back (https://www.sqlite.org/pragma.html#pragma_synchronous, from memory)."""
    full = IN_USE.replace("synchronous=EXTRA", "synchronous=FULL")
    assert set(faults(database, full, tmp_path)) == {"lost"}
