"""The worked example of docs/ability.md runs, and its table of defaults is the shipped one."""

from __future__ import annotations

import doctest
import re
from pathlib import Path

import numpy as np

from tapeline.ability.settings import filter_values

PAGE = Path(__file__).parents[3] / "docs" / "ability.md"


def test_the_worked_example_runs():
    found = doctest.testfile(str(PAGE), module_relative=False)
    assert found.attempted > 8
    assert found.failed == 0


def row_of(name: str) -> str:
    table = PAGE.read_text("utf-8").split("## Defaults")[1].splitlines()
    return next(line for line in table if line.startswith("|") and f"`{name}`" in line)


def test_every_value_has_its_row_with_the_shipped_number():
    values = filter_values()
    for name in values.__dataclass_fields__:
        numbers = [
            float(number)
            for number in re.findall(r"(?<![\w.])\d*\.?\d+", row_of(name).replace("−", ""))
        ]
        given = getattr(values, name)
        shown = given if isinstance(given, tuple) else (given,)
        ends = {abs(end) for end in np.ravel(shown)[[0, -1]]}
        assert ends <= set(numbers), name
