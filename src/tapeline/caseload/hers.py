"""What she made of the library, as records: lines she changed, what she left out, texts kept."""

from __future__ import annotations

import datetime as dt
from typing import Any

from tapeline.caseload.people import check_id
from tapeline.caseload.record import record
from tapeline.errors import InputError


@record
class OwnChange:
    """One line of a shipped activity that says something else with her.

    `version` is the end of a version's id, such as ``drop.usual``; empty for a line of the
    activity itself. `was` is what the line said when she changed it. A field that begins with
    ``es.`` is the line in Spanish, and `english` the fingerprint of the English it was made from.
    """

    activity: str
    field: str
    now: Any
    was: Any = None
    version: str = ""
    english: str = ""

    @property
    def id(self) -> str:
        """One line has one change."""
        return f"{self.activity}/{self.version}/{self.field}"


@record
class LeftOut:
    """An activity that is not planned: for a child, for a home, or for good (neither)."""

    id: str
    activity: str
    since: dt.date
    child: str | None = None
    home: str | None = None
    reason: str = ""

    def __post_init__(self) -> None:
        check_id(self.id, "What is left out")
        if self.child is not None and self.home is not None:
            raise InputError(
                f"{self.activity} is left out for the child {self.child} and the home {self.home}"
                " in one row.",
                field="home",
                hint="Make two rows of it.",
            )

    @property
    def is_for_good(self) -> bool:
        """Whether it is left out for everybody."""
        return self.child is None and self.home is None


@record
class KeptText:
    """An activity as it read when a plan was made; `id` is the fingerprint of its words."""

    id: str
    activity: dict[str, Any]
