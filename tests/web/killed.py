"""Store presses and sheets until killed, 50 times over; print what was acknowledged.

python -m tests.web.killed (with TAPELINE_HOME, on a system that can fork)
"""

from __future__ import annotations

import itertools
import json
import os
import random
import signal
import time
from collections.abc import Iterator
from typing import Any

KILLS = 50
SEED = 20261125
LONGEST_LIFE_S = 0.12
SHEET_EVERY = 4


def main() -> None:
    """Prepare the records, then live and be killed."""
    prepare()
    rng = random.Random(SEED)
    told: list[str] = []
    begun = 0
    for _ in range(KILLS):
        begun, heard = one_life(begun, rng.uniform(0.005, LONGEST_LIFE_S))
        told += heard
    print(json.dumps({"told": told, "begun": begun, "undone": undone_of(told)}))


def prepare() -> None:
    """A small caseload with a session of today, in a new data folder."""
    from tapeline.web.start_up import open_records

    open_records()
    from django.db import connections

    from tapeline.caseload.file import parse_caseload
    from tapeline.web.records.convert import rows_from_caseload
    from tests.web.conftest import SMALL
    from tests.web.pages.running import a_session_today

    rows_from_caseload(parse_caseload(SMALL, name="small.json"))
    a_session_today()
    warm_up()
    connections.close_all()  # a child has a connection of its own


def warm_up() -> None:
    """Load what the first press would load, so that kills hit writes and not imports."""
    from tapeline.activities.loader import load_library
    from tapeline.sessions.recording import record
    from tapeline.web.services import run

    load_library()
    assert record is not None
    assert run is not None


def one_life(begun: int, seconds: float) -> tuple[int, list[str]]:
    """Fork, store until killed; the number of the work that was in hand, and what was told."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        store(begun, writing)
    os.close(writing)
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reading) as pipe:
        heard = [line for line in pipe.read().split("\n") if line]
    return begun + len(heard), heard


def store(begun: int, writing: int) -> None:
    """Do one piece of work after the other, the one in hand at the last kill first."""
    for number in itertools.count(begun):
        name = do(number)
        os.write(writing, f"{name}\n".encode())


def do(number: int) -> str:
    """A press, the undo of an earlier press, or a sheet of many rows."""
    if number % SHEET_EVERY == SHEET_EVERY - 1:
        return a_sheet(number)
    press: dict[str, Any] = {
        "id": f"n.{number}",
        "kind": "try",
        "child": "c1",
        "activity": "loaf_catch",
        "version": "loaf_catch.bounced.usual",
        "outcome": "alone",
        "clock": "14:20",
    }
    if number % SHEET_EVERY == 2:
        press |= {"kind": "undo", "of": f"n.{number - 1}"}
    take(press)
    return f"n.{number}"


def take(press: dict[str, Any]) -> None:
    """Store one press; a refusal is a fault of this test."""
    from tapeline.web.services.run import presses_take
    from tests.web.pages.running import TODAY

    found = presses_take(group_key="gulls", on=TODAY, presses=[press])
    assert found.refused == (), found.refused


def a_sheet(number: int) -> str:
    """Store a sheet of six rows for two children."""
    from tapeline.sessions.recording.sheet import Counted, ResultSheet
    from tapeline.web.services.record import sheet_take
    from tests.web.pages.running import LOAF, TODAY

    rows = tuple(
        Counted(child=child, version=version, alone=2, with_help={"word": 1}, not_yet=1)
        for child, version in LOAF.items()
    )
    sheet = ResultSheet(sheet=f"sheet{number}", group="gulls", date=TODAY, began="14:10", rows=rows)
    sheet_take(sheet=sheet, group_key="gulls", on=TODAY)
    return f"sheet{number}"


def undone_of(told: list[str]) -> Iterator[str] | list[str]:
    """Presses whose undo was told."""
    numbers = [int(name[2:]) for name in told if name.startswith("n.")]
    return [f"n.{number - 1}" for number in numbers if number % SHEET_EVERY == 2]


if __name__ == "__main__":
    main()
