"""Put right what is on file: a new row that names the one it takes the place of."""

from __future__ import annotations

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
    levels = [level.id for level in caseload.prompt_lists[-1].levels]
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
