"""What the YAML files hold, kept beside them once it was read.

Reading the library's YAML takes a third of a second, its JSON a hundredth. As Python does
with its own code, the JSON is kept in ``data/__pycache__`` under a hash of the texts; when a
text changes, or the folder cannot be written, the YAML is read again.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

import tapeline
from tapeline.activities.library_files import LibraryFile, short_hash
from tapeline.activities.records import Faults

LAYOUT = "1"
FOLDER = Path(tapeline.__file__).parent / "data" / "__pycache__"


def contents_of(name: str, files: Sequence[LibraryFile], faults: Faults) -> list[Any]:
    """What each file holds, in the order given; an unreadable one is a fault and empty.

    Parameters
    ----------
    name
        Under which it is kept; one file per name, overwritten when a text changes.
    """
    key = short_hash(LAYOUT, *(text for file in files for text in (file.path, file.text)))
    kept = _kept(name, key)
    if kept is not None:
        return kept
    before = len(faults.found)
    contents = [faults.content(file) for file in files]
    if len(faults.found) == before and not sys.dont_write_bytecode:
        _keep(name, key, contents)
    return contents


def _kept(name: str, key: str) -> list[Any] | None:
    try:
        found = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
        return list(found["contents"]) if found["key"] == key else None
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _keep(name: str, key: str, contents: list[Any]) -> None:
    written = FOLDER / f"{name}.{os.getpid()}.part"
    with suppress(OSError, TypeError):
        text = json.dumps({"key": key, "contents": contents}, ensure_ascii=False)
        FOLDER.mkdir(exist_ok=True)
        written.write_text(text, encoding="utf-8")
        written.replace(FOLDER / f"{name}.json")
    with suppress(OSError):
        written.unlink(missing_ok=True)
