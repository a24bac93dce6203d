"""``tapeline import``, ``export``, ``backup`` and ``restore``: the records in the data folder."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tapeline.errors import InputError

if TYPE_CHECKING:
    from tapeline.web.services.merge import Merge

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for another program.")]


def import_(
    file: Annotated[Path, typer.Argument(help="A caseload file.")],
    look: Annotated[
        bool, typer.Option("--look", help="Say what it would do, and do nothing.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Bring a caseload file in: new, changed, unchanged and refused are told apart.

    A child who is not in the file becomes inactive; tries are added and never removed.

    Example: tapeline import caseload.json --look
    """
    text = text_of(file)
    open_records()
    from tapeline.web.services.exchange import caseload_import, caseload_preview

    do = caseload_preview if look else caseload_import
    found = do(text=text, name=file.name)
    say = _as_json if as_json else _as_lines
    print(say(found, done=not look))


def export(
    file: Annotated[Path, typer.Argument(help="Where to write; - prints it.")],
) -> None:
    """Write the whole caseload as one open file.

    Example: tapeline export caseload.json
    """
    open_records()
    from tapeline.web.services.exchange import caseload_export

    write_or_print(file, caseload_export(), f"The caseload is in {file}.")


def backup(
    file: Annotated[Path | None, typer.Argument(help="The zip file to write.")] = None,
    as_json: AsJson = False,
) -> None:
    """Make a backup: one zip file with everything, opened again and counted.

    Example: tapeline backup /media/stick/tapeline.zip
    """
    open_records()
    from tapeline.web.services.backup import backup_make, backup_name
    from tapeline.web.services.keeping import note_taken

    made = backup_make(to=file or Path(backup_name()))
    note_taken()
    if as_json:
        print(json.dumps({"file": str(made.path), "counts": made.counts}))
        return
    print(f"The backup is in {made.path}, opened again and counted: {_counts(made.counts)}.")


def restore(
    file: Annotated[Path, typer.Argument(help="A backup that tapeline made.")],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask first.")] = False,
) -> None:
    """Bring a backup back; what is there now is kept in the data folder's backups.

    Example: tapeline restore tapeline-backup-2026-11-25-1004.zip
    """
    from tapeline.web.data_folder import data_folder, make_data_folder
    from tapeline.web.running import refuse_while_running
    from tapeline.web.start_up import start_django

    make_data_folder(data_folder())
    only = refuse_while_running(data_folder())
    try:
        start_django()
        from tapeline.web.services.restore import restore_forget, restore_stage, restore_swap

        staged = restore_stage(backup=file)
        now = "not readable" if staged.now is None else _counts(staged.now)
        print(f"Now:         {now}")
        print(f"Afterwards:  {_counts(staged.counts)} (made {staged.made})")
        if not yes and not typer.confirm("Bring it back?"):
            restore_forget()
            print("Nothing was changed.")
            return
        done = restore_swap(checksum=staged.checksum)
        print(f"The backup is back: {_counts(done.after)}.")
        if done.kept is not None:
            print(f"What was there before is kept in {done.kept}.")
    finally:
        only.give_back()


def open_records() -> None:
    from tapeline.web.start_up import open_records

    open_records()


def write_or_print(file: Path, text: str, done: str) -> None:
    """Write a text to a file and say so; to a file called - print it alone."""
    from tapeline.caseload.file import write_whole

    if str(file) == "-":
        sys.stdout.write(text)
        return
    write_whole(file, text)
    print(done)


def text_of(file: Path) -> str:
    """What a file says, or the sentence why it cannot be read."""
    try:
        return file.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise InputError(f"There is no file {file}.", hint="Check the name.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise InputError(f"{file} cannot be read as text ({error}).") from error


def _as_json(found: Merge, *, done: bool) -> str:
    return json.dumps(
        {
            "done": done,
            "counts": found.counts_by_kind(),
            "records": [asdict(line) for line in found.lines],
        },
        ensure_ascii=False,
    )


def _as_lines(found: Merge, *, done: bool) -> str:
    lines = [
        f"{kind}: " + ", ".join(f"{count} {verdict}" for verdict, count in counts.items() if count)
        for kind, counts in found.counts_by_kind().items()
    ]
    for verdict in ("refused", "inactive"):
        lines += [
            f"{verdict}: {line.kind} {line.id} ({line.why})"
            for line in found.lines
            if line.verdict == verdict
        ]
    lines.append("Brought in." if done else "Nothing was done; leave out --look to bring it in.")
    return "\n".join(lines)


def _counts(counts: dict[str, int]) -> str:
    return ", ".join(f"{what} {count}" for what, count in counts.items())
