"""The files the library and the rules are written in, read quickly and strictly.

Only ``true`` and ``false`` are yes-or-no words here: a cue that says *no* stays a word, and a
date stays the text it is. A key that stands twice in one block is refused, because the first
one would be lost silently.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Literal

import yaml

from tapeline.errors import InputError

Kind = Literal["english", "spanish"]
_FAST = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_BOOL = "tag:yaml.org,2002:bool"
_DATE = "tag:yaml.org,2002:timestamp"


class _Loader(_FAST):  # type: ignore[misc,valid-type]
    """Safe YAML that leaves words and dates alone, refusing a key that stands twice."""

    def construct_mapping(self, node: Any, deep: bool = False) -> dict[Any, Any]:
        mapping: dict[Any, Any] = super().construct_mapping(node, deep=deep)
        if len(mapping) != len(node.value):
            raise yaml.constructor.ConstructorError(
                None, None, "a key stands twice in one block", node.start_mark
            )
        return mapping


_Loader.yaml_implicit_resolvers = {
    first: [pair for pair in pairs if pair[0] != _DATE and (pair[0] != _BOOL or first in "tTfF")]
    for first, pairs in _FAST.yaml_implicit_resolvers.items()
}


@dataclass(frozen=True, kw_only=True)
class LibraryFile:
    """One file: its path below ``tapeline/data`` and its text."""

    path: str
    text: str


def data_file(path: str) -> LibraryFile:
    """One file below ``tapeline/data``, such as ``rules/rules.yaml``."""
    text = files("tapeline").joinpath("data", *path.split("/")).read_text(encoding="utf-8")
    return LibraryFile(path=path, text=text)


@cache
def library_files(kind: Kind) -> tuple[LibraryFile, ...]:
    """The skill and part files in one language, in the order of their paths."""
    found = []
    for family in files("tapeline").joinpath("data", "library").iterdir():
        if not family.is_dir():
            continue
        for entry in family.iterdir():
            is_spanish = entry.name.endswith(".es.yaml")
            if entry.name.endswith(".yaml") and is_spanish == (kind == "spanish"):
                text = entry.read_text(encoding="utf-8")
                found.append(LibraryFile(path=f"library/{family.name}/{entry.name}", text=text))
    return tuple(sorted(found, key=lambda file: file.path))


def content_of(file: LibraryFile) -> Any:
    """What a YAML file holds.

    Raises
    ------
    InputError
        It is no YAML, or a key stands twice in one block; names the file and the line.
    """
    try:
        return yaml.load(file.text, Loader=_Loader)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = f", line {mark.line + 1}" if mark else ""
        raise InputError(
            f"{file.path}{line} cannot be read: {error.problem or error.context}.",
            field=file.path,
            hint="Mend that line, or put the text in quotes.",
        ) from None
    except yaml.YAMLError as error:
        raise InputError(f"{file.path} cannot be read: {error}.", field=file.path) from None


def short_hash(*texts: str, digits: int = 12) -> str:
    """The same short text for the same texts in the same order, on every computer."""
    digest = hashlib.sha256()
    for text in texts:
        digest.update(text.replace("\r\n", "\n").encode())
        digest.update(b"\0")
    return digest.hexdigest()[:digits]
