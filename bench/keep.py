"""Backup and restore of sixty children and 36 weeks, in this process, on files of its own.

python -m bench.keep [--runs 10] [--json]

A backup is made, opened again, checked and counted. A restore is two acts: it is laid beside
and compared, then it takes the place of what is there, after a backup of that. Every restored
caseload is compared with the one that was backed up. The baseline copies the database file
and waits until the disk has it.
"""

from __future__ import annotations

import datetime as dt
import os
import shutil
import tempfile
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

from bench.pages import TODAY
from bench.report import Measured, arguments, tell, timed
from bench.town import KINDS, grown
from tapeline.caseload.caseload import Caseload

WEEKS, WEEKS_OF_ONE = 36, 8
HISTORY = KINDS[KINDS.index("sessions") :]


def main() -> None:
    """Fill a data folder with the long caseload, then back it up and bring it back."""
    asked = arguments(__doc__ or "", runs=10)
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home) / "records"
        folder.mkdir()
        os.environ |= {"TAPELINE_HOME": str(folder), "TAPELINE_TODAY": TODAY.isoformat()}
        caseload = long_history()
        own = _on_file(caseload)
        baseline = Measured(
            name="copying the file",
            seconds=timed(lambda: _copy(own, Path(home) / "copy"), asked.runs),
            beside=(("bytes", str(own.stat().st_size)),),
        )
        rows = _measured(Path(home) / "kept.zip", caseload, asked.runs)
        title = f"Keeping {len(caseload.children)} children x {WEEKS} weeks"
        tell(title, rows, baseline=baseline, as_json=asked.json)


def long_history() -> Caseload:
    """The grown caseload, its weeks of history told again and again into the past."""
    first = grown(TODAY)
    oldest = TODAY - dt.timedelta(weeks=WEEKS)
    rounds = [_earlier(first, number) for number in range(-(-WEEKS // WEEKS_OF_ONE))]
    rows = {kind: tuple(row for one in reversed(rounds) for row in one[kind]) for kind in HISTORY}
    kept = {row.id for row in rows["sessions"] if row.date >= oldest}
    rows = {
        kind: tuple(row for row in found if session_of_row(row) in kept)
        for kind, found in rows.items()
    }
    return replace(first, **rows)


def session_of_row(row: Any) -> str:
    """The id of the session a row belongs to; a session's own."""
    return str(row.session if hasattr(row, "session") else row.id)


def _earlier(caseload: Caseload, number: int) -> dict[str, tuple[Any, ...]]:
    """The history as it would be some rounds before, under ids of its own."""
    back = dt.timedelta(weeks=WEEKS_OF_ONE * number)

    def moved(row: Any) -> Any:
        names = [name for name in ("id", "session", "corrects") if getattr(row, name, None)]
        dates = [name for name in ("date", "moved_to") if getattr(row, name, None)]
        return replace(
            row,
            **{name: f"{getattr(row, name)}r{number}" for name in names},
            **{name: getattr(row, name) - back for name in dates},
        )

    return {kind: tuple(map(moved, getattr(caseload, kind))) for kind in HISTORY}


def _on_file(caseload: Caseload) -> Path:
    from tapeline.web.start_up import open_records

    open_records()
    from tapeline.web.data_folder import data_folder, own_database
    from tapeline.web.records.convert import rows_from_caseload

    rows_from_caseload(caseload)
    return own_database(data_folder())


def _copy(source: Path, target: Path) -> None:
    shutil.copyfile(source, target)
    with target.open("rb+") as file:
        os.fsync(file.fileno())


def _measured(backup: Path, caseload: Caseload, runs: int) -> list[Measured]:
    from tapeline.web.services.backup import backup_make
    from tapeline.web.services.exchange import caseload_export
    from tapeline.web.services.restore import restore_stage, restore_swap

    before = caseload_export()
    made = timed(lambda: backup_make(to=backup), runs)
    staged, swapped = [], []
    for _ in range(runs):
        began = time.perf_counter()
        checksum = restore_stage(backup=backup).checksum
        laid = time.perf_counter()
        restore_swap(checksum=checksum)
        staged.append(laid - began)
        swapped.append(time.perf_counter() - laid)
        if caseload_export() != before:
            raise SystemExit("What came back is not what was backed up.")
    whole = tuple(a + b for a, b in zip(staged, swapped, strict=True))
    beside = (("rows_of_tries", str(len(caseload.trials))), ("bytes", str(backup.stat().st_size)))
    return [
        Measured(name="backup, checked", seconds=made, beside=beside),
        Measured(name="restore: laid beside", seconds=tuple(staged)),
        Measured(name="restore: exchanged", seconds=tuple(swapped)),
        Measured(name="restore, whole", seconds=whole),
    ]


if __name__ == "__main__":
    main()
