"""A caseload file, opened and checked against the library that comes with the program."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from tapeline.activities.loader import load_rule_book
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.check import check_caseload
from tapeline.caseload.file import read_caseload
from tapeline.caseload.own_library import checked_library


def open_caseload(path: Path, *, today: dt.date) -> Caseload:
    """The caseload in a file.

    Raises
    ------
    InputError
        The file is not there or is no caseload file.
    ManyFaults
        Its shape or meaning is wrong somewhere; every fault is listed.
    """
    caseload = read_caseload(path)
    check_caseload(
        caseload,
        library=checked_library(caseload),
        book=load_rule_book(),
        today=today,
        name=path.name,
    )
    return caseload
