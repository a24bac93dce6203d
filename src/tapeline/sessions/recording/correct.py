"""Put right what is on file: a new row that names the one it takes the place of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Outcome, Trial, standing_trials
from tapeline.errors import InputError


def correction_of(
    caseload: Caseload,
    trial_id: str,
    *,
    new_id: str,
    outcome: Outcome | None = None,
    help: str | None = None,
    count: int | None = None,
    at: str | None = None,
) -> Trial:
    """The row that corrects a trial; what is left out stays, and a `count` of 0 takes it back.

    Raises
    ------
    InputError
        There is no such trial, it was corrected already, the prompt level is not in the
        list, or nothing would change.
    """
    old = next((one for one in caseload.trials if one.id == trial_id), None)
    if old is None:
        raise InputError(f"There is no row {trial_id!r} on file.", field="corrects")
    _refuse_superseded(caseload, old)
    new_outcome = outcome or old.outcome
    new_help = "alone" if new_outcome == "alone" else (old.help if help is None else help)
    row = replace(
        old,
        id=new_id,
        outcome=new_outcome,
        help=new_help,
        count=old.count if count is None else count,
        corrects=old.id,
        at=at,
    )
    _refuse_level(caseload, row)
    if (row.outcome, row.help, row.count) == (old.outcome, old.help, old.count):
        raise InputError(
            "This is what is on file already.", field="count", hint="Change a number or the help."
        )
    return row


def _refuse_superseded(caseload: Caseload, old: Trial) -> None:
    if old.id in {row.id for row in standing_trials(caseload.trials)}:
        return
    later = next((row for row in reversed(caseload.trials) if row.corrects == old.id), None)
    raise InputError(
        "This row was corrected already." if later else "This row was taken back already.",
        field="corrects",
        hint="Correct the row that took its place." if later and later.count else "Type it anew.",
    )


def _refuse_level(caseload: Caseload, row: Trial) -> None:
    levels = [level.id for level in caseload.prompt_levels]
    if row.help not in levels:
        raise InputError(
            f"The help {row.help!r} is not in your list.",
            field="help",
            hint=f"Use one of: {', '.join(levels)}.",
        )
    if row.outcome == "with_help" and row.help == levels[-1]:
        raise InputError(
            "With help needs a level of help.", field="help", hint="Choose which help it was."
        )


def corrections_for(
    caseload: Caseload,
    *,
    session: str,
    child: str,
    version: str,
    was: tuple[Outcome, str],
    to: tuple[Outcome, str],
    count: int,
    new_id: Callable[[], str],
    at: str | None = None,
) -> tuple[Trial, ...]:
    """Rows that make all tries of one kind into `count` of this outcome and help.

    Tries pressed one by one are many rows: the last ones give way first, and the first takes
    what is more.

    Raises
    ------
    InputError
        Nothing like that stands, the number is below 0, or nothing would change.
    """
    rows = [
        row
        for row in standing_trials(caseload.trials)
        if (row.session, row.child, row.version) == (session, child, version)
        and (row.outcome, row.help) == was
    ]
    if not rows:
        raise InputError("Nothing like that is on file.", field="count", hint="Open the page anew.")
    if count < 0:
        raise InputError(f"{count} tries are too few.", field="count", hint="Type 0 or more.")
    outcome, level = to
    changes = (outcome, "alone" if outcome == "alone" else level) != was
    made = []
    for row, wanted in zip(rows, _shares([row.count for row in rows], count), strict=True):
        if changes or wanted != row.count:
            made.append(
                correction_of(
                    caseload,
                    row.id,
                    new_id=new_id(),
                    outcome=outcome,
                    help=level,
                    count=wanted,
                    at=at,
                )
            )
    if not made:
        raise InputError(
            "This is what is on file already.", field="count", hint="Change a number or the help."
        )
    return tuple(made)


def _shares(counts: list[int], total: int) -> list[int]:
    """What each row counts so that all make `total`."""
    shares, left = [], total
    for count in counts:
        shares.append(min(count, left))
        left -= shares[-1]
    shares[0] += left
    return shares
