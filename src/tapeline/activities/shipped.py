"""Tables that come with the program: comment lines, one header row, then rows.

Each file names its source, units and licence in lines that start with ``#``.
They are read once and never written.
"""

from __future__ import annotations

import csv
from importlib.resources import files
from typing import Any

import yaml


def shipped_text(path: str) -> str:
    """The text of a file under ``tapeline/data``, such as ``words/reading_limits.csv``."""
    return files("tapeline").joinpath("data", *path.split("/")).read_text(encoding="utf-8")


def shipped_rows(path: str) -> list[dict[str, str]]:
    """The rows of a CSV table, by column name, without its comment lines."""
    return list(csv.DictReader(_without_comments(path)))


def shipped_words(path: str) -> frozenset[str]:
    """The words of a list with one word or short form a line."""
    return frozenset(word for line in _without_comments(path) if (word := line.strip()))


def shipped_yaml(path: str) -> Any:
    """The content of a YAML file; the caller checks its shape."""
    return yaml.safe_load(shipped_text(path))


def _without_comments(path: str) -> list[str]:
    return [line for line in shipped_text(path).splitlines() if not line.startswith("#")]
