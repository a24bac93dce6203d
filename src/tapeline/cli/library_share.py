"""``tapeline library export`` and ``add``: her own activities as one file."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tapeline.cli.files import JsonOption
from tapeline.cli.records import open_records, text_of, write_or_print

if TYPE_CHECKING:
    from tapeline.caseload.share import Shared

SAID = {
    "new": "new",
    "renamed": "new, under this id because its own is taken",
    "same": "here already",
    "kept_hers": "stays as it is here",
    "no_line": "left out, there is no such line here",
}


def export_activities(
    file: Annotated[Path, typer.Argument(help="Where to write; - prints it.")],
    activity: Annotated[
        list[str] | None, typer.Option(help="Id of an activity; repeat. Else everything.")
    ] = None,
) -> None:
    """Write the activities, versions, changes and things of your own as one file.

    No child is in it.

    Example: tapeline library export my-games.json
    """
    open_records()
    from tapeline.web.services.share import share_export

    text = share_export(only=activity or ())
    write_or_print(file, text, f"Your activities are in {file}.")


def add_activities(
    file: Annotated[Path, typer.Argument(help="A file of activities (docs/share-file.md).")],
    look: Annotated[
        bool, typer.Option("--look", help="Say what it would do, and do nothing.")
    ] = False,
    as_json: JsonOption = False,
) -> None:
    """Add another therapist's activities; nothing of yours is overwritten.

    Example: tapeline library add my-games.json --look
    """
    text = text_of(file)
    open_records()
    from tapeline.web.services.share import share_add, share_preview

    do = share_preview if look else share_add
    found = do(text=text, name=file.name)
    print(_as_json(found, done=not look) if as_json else _as_lines(found, done=not look))


def _as_json(found: Shared, *, done: bool) -> str:
    rows = [asdict(line) for line in found.lines]
    return json.dumps({"done": done, "by": found.by, "things": rows}, ensure_ascii=False)


def _as_lines(found: Shared, *, done: bool) -> str:
    lines = [f"{line.kind} {line.id}: {SAID[line.verdict]}" for line in found.lines]
    lines.append("Added." if done else "Nothing was done; leave out --look to add it.")
    return "\n".join(lines)
