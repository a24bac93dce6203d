"""A data folder of its own with real files, in this process: for what exchanges files."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.db import connections

from tapeline.web import data_folder as places

FILES = {
    "default": places.own_database,
    "invented": places.invented_database,
    "staged": places.staged_database,
    "looked_at": places.looked_at_database,
}


@contextmanager
def files_in(folder: Path) -> Iterator[Path]:
    """Every database of tapeline lies in this folder until the block ends."""
    before = {alias: connections[alias].settings_dict["NAME"] for alias in FILES}
    kept = {alias: connections[alias].connection for alias in FILES}
    for alias, place in FILES.items():
        connections[alias].connection = None
        connections[alias].settings_dict["NAME"] = str(place(folder))
    try:
        yield folder
    finally:
        for alias in FILES:
            connections[alias].close()
            connections[alias].settings_dict["NAME"] = before[alias]
            connections[alias].connection = kept[alias]


def made_from(template: Path, folder: Path) -> Path:
    """A copy of a data folder."""
    shutil.copytree(template, folder)
    return folder


def bytes_with(folder: Path, *words: str) -> list[str]:
    """Files of a folder that hold one of the words, zip files opened, as UTF-8 or JSON."""
    import io
    import json
    import zipfile

    wanted = {form for word in words for form in (word.encode(), json.dumps(word)[1:-1].encode())}
    found = []
    for path in sorted(folder.rglob("*")):
        if not path.is_file():
            continue
        contents = {str(path.relative_to(folder)): path.read_bytes()}
        if zipfile.is_zipfile(path):
            with zipfile.ZipFile(io.BytesIO(path.read_bytes())) as packed:
                inside = {f"{path.name}:{name}": packed.read(name) for name in packed.namelist()}
            contents |= inside
        for name, content in contents.items():
            if any(form in content or form in name.encode() for form in wanted):
                found.append(name)
    return found
