"""What each kind of failure ends the command line with."""

from __future__ import annotations

import pytest

from tapeline.cli.app import exit_code
from tapeline.errors import (
    InputError,
    ManyFaults,
    MissingComponent,
    NoFeasiblePlan,
    TapelineError,
)


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (InputError("Room Hall is 90 cm on one side."), 2),
        (ManyFaults([InputError("One."), InputError("Two.")], where="mine.json"), 2),
        (NoFeasiblePlan("No session fits."), 3),
        (MissingComponent("Printing needs typst."), 1),
        (TapelineError("The records are damaged."), 1),
    ],
)
def test_the_code_tells_the_kind_of_failure(error: TapelineError, code: int) -> None:
    assert exit_code(error) == code
