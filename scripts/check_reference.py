"""Compare tapeline with reference cases of others, a line per case.

python scripts/check_reference.py FILE

FILE holds worked examples of single-case measures or cases of the ability filter; each case
is compared to its printed precision. The last line counts them. Exit code 1 = something
differs, 2 = the file cannot be read.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from scripts.reference.case import Outcome, read_cases
from scripts.reference.filter_cases import outcome_of as filter_outcome
from scripts.reference.series_cases import outcome_of as series_outcome
from tapeline.errors import InputError


def main(arguments: list[str]) -> int:
    """Print the comparison; the exit code."""
    if len(arguments) != 1 or arguments[0].startswith("-"):
        print(__doc__, file=sys.stderr)
        return 2
    try:
        outcomes = [_outcome(key, case) for key, case in read_cases(Path(arguments[0]))]
    except InputError as error:
        print(error, file=sys.stderr)
        return 2
    for one in outcomes:
        print(one.line)
    counts = Counter(one.verdict for one in outcomes)
    print(
        f"{counts['agrees']} agree, {counts['differs']} differ, {counts['not offered']} not offered"
    )
    return 1 if counts["differs"] else 0


def _outcome(key: str, case: Any) -> Outcome:
    if isinstance(case, Mapping) and "weeks" in case:
        return filter_outcome(key, case)
    if isinstance(case, Mapping):
        return series_outcome(key, case)
    return Outcome(
        id=key,
        verdict="not offered",
        expected="",
        found="",
        remark="this is no case of either form",
    )


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
