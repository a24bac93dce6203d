"""The caseload file: one JSON file in, one out, all faults of a file at once."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from tapeline import __version__
from tapeline.caseload.caseload import FORMAT, Caseload
from tapeline.errors import InputError, ManyFaults

ADAPTER: TypeAdapter[Caseload] = TypeAdapter(Caseload)
SENTENCES = {
    "missing": "{where} is missing.",
    "unexpected_keyword_argument": "{where} is not a field tapeline knows.",
}


def read_caseload(path: Path) -> Caseload:
    """The caseload in a file, checked for shape (`check_caseload` looks at its meaning).

    Raises
    ------
    InputError
        The file is not there, is no JSON, or is of another format.
    ManyFaults
        The shape is wrong somewhere; every fault is listed.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise InputError(f"There is no file {path}.", hint="Check the name.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise InputError(f"{path} cannot be read as text ({error}).") from error
    return parse_caseload(text, name=path.name)


def parse_caseload(text: str, *, name: str) -> Caseload:
    """The caseload in a text; `name` is what its faults call it."""
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        raise InputError(
            f"{name} is not JSON: {error.msg} at line {error.lineno}.",
            hint="Choose a file that tapeline exported, or mend that line.",
        ) from None
    except RecursionError:
        raise InputError(
            f"{name} is not a caseload file: its brackets lie thousands deep.",
            hint="Choose a file that tapeline exported.",
        ) from None
    _refuse_other_formats(data, name)
    try:
        return ADAPTER.validate_python(data)
    except ValidationError as error:
        raise ManyFaults(_faults(error, data), where=name) from None


def _refuse_other_formats(data: Any, name: str) -> None:
    if not isinstance(data, dict) or "format" not in data:
        raise InputError(
            f"{name} is JSON, but not a caseload file: it has no field format.",
            field="format",
            hint="Choose a file that tapeline exported.",
        )
    if data["format"] != FORMAT:
        raise InputError(
            f"{name} is of format {data['format']!r}; this program reads format {FORMAT}.",
            field="format",
            hint="Bring it in with the version of tapeline that wrote it, or a newer one.",
        )


def _faults(error: ValidationError, data: Any) -> list[InputError]:
    return [_fault(row, data) for row in error.errors(include_url=False)]


def _fault(row: Any, data: Any) -> InputError:
    where = where_in_words(row["loc"], data)
    cause = row.get("ctx", {}).get("error")
    if isinstance(cause, InputError):
        return InputError(cause.message, field=cause.field, hint=cause.hint)
    template = SENTENCES.get(row["type"])
    if template:
        return InputError(template.format(where=where), field=str(row["loc"][-1]))
    found = row.get("input")
    shown = f" ({found!r})" if isinstance(found, str | int | float) else ""
    return InputError(f"{where}{shown}: {row['msg']}.", field=str(row["loc"][-1]))


def where_in_words(path: Sequence[str | int], data: Any) -> str:
    """A path such as ``children, c3, born``: rows are called by their id where they have one."""
    words: list[str] = []
    here = data
    for key in path:
        here = _down(here, key)
        named = here.get("id") or here.get("name") if isinstance(here, dict) else None
        words.append(str(named) if isinstance(key, int) and named else str(key))
    return ", ".join(words)


def _down(here: Any, key: str | int) -> Any:
    try:
        return here[key]
    except (KeyError, IndexError, TypeError):
        return None


def caseload_json(caseload: Caseload) -> str:
    """The caseload as its file's text: sorted keys, two spaces, a line end."""
    from dataclasses import replace

    stamped = replace(caseload, program=f"tapeline {__version__}")
    plain = ADAPTER.dump_python(stamped, mode="json")
    return json.dumps(plain, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def caseload_schema() -> dict[str, Any]:
    """The JSON Schema of the caseload file."""
    return ADAPTER.json_schema()


def write_whole(path: Path, content: str | bytes) -> None:
    """Write a file so that it is either whole or not there.

    Raises
    ------
    InputError
        The disk is full or the folder cannot be written; an older file stays as it was.
    """
    write_together({path: content})


def write_together(contents: Mapping[Path, str | bytes]) -> None:
    """Write files that belong together: every one is whole before the first is in its place.

    Raises
    ------
    InputError
        The disk is full or a folder cannot be written; older files stay as they were.
    """
    drafts = {path: path.with_name(f".{path.name}.part") for path in contents}
    try:
        for path, content in contents.items():
            _write_draft(path, drafts[path], content)
        for path, draft in drafts.items():
            draft.replace(path)
    except OSError as error:
        for draft in drafts.values():
            with suppress(OSError):
                draft.unlink()
        raise InputError(
            f"{path.name} could not be saved: {error.strerror}.",
            hint="Make room or choose another folder; nothing was changed.",
        ) from error


def _write_draft(path: Path, draft: Path, content: str | bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with draft.open("wb") as file:
        file.write(content.encode() if isinstance(content, str) else content)
        file.flush()
        os.fsync(file.fileno())
