"""Titles of the ICF codes that name what an activity is about.

A code without a qualifier only names a domain, and naming is all that is done here: no
qualifier is worked out from what was seen in a session.
"""

from __future__ import annotations

from difflib import get_close_matches
from functools import cache

from tapeline.activities.shipped import shipped_rows
from tapeline.errors import InputError

TABLES = ("standards/icf.csv", "standards/icf-cy-additions.csv")


def icf_title(code: str) -> str:
    """The official title of an ICF code, such as Catching for ``d4455``.

    Raises
    ------
    InputError
        The code is not in the shipped tables; the hint names the codes nearest to it.
    """
    titles = _titles()
    if code not in titles:
        near = get_close_matches(code.strip().lower(), titles, n=2, cutoff=0.7)
        known = " or ".join(f"{one} ({titles[one]})" for one in near)
        raise InputError(
            f"{code!r} is not an ICF code that is known here.",
            field="icf",
            hint=f"Did you mean {known}?" if near else "Look it up in the ICF browser of WHO.",
        )
    return titles[code]


def icf_codes() -> tuple[str, ...]:
    """Every code that has a title here, in order."""
    return tuple(sorted(_titles()))


@cache
def _titles() -> dict[str, str]:
    return {row["code"]: row["title"] for table in TABLES for row in shipped_rows(table)}
