"""Write into the Spanish files which English they were made from.

    python scripts/stamp_spanish.py                       writes the stamps that are missing
    python scripts/stamp_spanish.py --again box_toss ...  after its Spanish was brought up to date

A Spanish text whose English has changed since is named, and left as it is: somebody has to
read both first. The exit code is 1 while any is stale or has no English.
"""

from __future__ import annotations

import argparse
import re
import sys
from pathlib import Path

from tapeline.activities.loader import load_library
from tapeline.activities.models import Library
from tapeline.activities.spanish import SpanishActivity, english_fingerprint, load_spanish

DATA = Path(__file__).resolve().parents[1] / "src" / "tapeline" / "data"


def main(arguments: list[str]) -> int:
    """Stamp what is missing or named, and say what is stale."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--again", nargs="+", default=[], metavar="ACTIVITY")
    again = set(parser.parse_args(arguments).again)
    library = load_library()
    left_over = []
    written = 0
    for name, spanish in load_spanish().activities.items():
        verdict = _verdict(name, spanish, library, is_named=name in again)
        if verdict == "stamp":
            _write_stamp(name, spanish, english_fingerprint(library.activities[name]))
            written += 1
        elif verdict:
            left_over.append(f"{spanish.path}, {name}: {verdict}")
    print(f"{written} stamps written, {len(left_over)} to look at.")
    print("\n".join(left_over))
    return 1 if left_over else 0


def _verdict(name: str, spanish: SpanishActivity, library: Library, *, is_named: bool) -> str:
    if name not in library.activities:
        return "there is no English activity of this id."
    is_fresh = spanish.english == english_fingerprint(library.activities[name])
    if is_fresh:
        return ""
    if not spanish.english or is_named:
        return "stamp"
    return "the English changed after this Spanish was made."


def _write_stamp(name: str, spanish: SpanishActivity, fingerprint: str) -> None:
    file = DATA.joinpath(*spanish.path.split("/"))
    text = file.read_text(encoding="utf-8")
    head = re.compile(rf"^(  {re.escape(name)}:[ ]*\n)(    english: .*\n)?", re.MULTILINE)
    stamped, times = head.subn(rf'\g<1>    english: "{fingerprint}"\n', text)
    if times != 1:
        raise SystemExit(f"{spanish.path}: {name} was found {times} times, two spaces in.")
    file.write_text(stamped, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
