"""``tapeline figures``: every drawn move on paper, or one move as a picture that moves."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

import typer

from tapeline.cli.files import JsonOption, progress
from tapeline.errors import InputError


def figures(
    sheet: Annotated[
        Path | None,
        typer.Option("--sheet", help="Write every move in three pictures (PDF, A4, greys)."),
    ] = None,
    move: Annotated[str | None, typer.Option("--move", help="One move alone, by its name.")] = None,
    loop: Annotated[
        Path | None,
        typer.Option("--loop", help="Write the move of --move as a moving picture (SVG)."),
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """The drawn moves: their names and parameters, a sheet of all, or one that moves.

    Example: tapeline figures --sheet moves.pdf
    """
    from tapeline.caseload.file import write_whole
    from tapeline.figures.loops import loop_svg
    from tapeline.figures.moves import MOVES
    from tapeline.sessions.contact_sheet import contact_sheet_pdf

    names = [move] if move else list(MOVES)
    if move is not None and move not in MOVES:
        raise InputError(
            f"There is no picture of “{move}”. Use one of: {', '.join(sorted(MOVES))}.",
            field="move",
        )
    if loop is not None:
        if move is None:
            raise InputError("--loop shows one move. Name it with --move.", field="move")
        way = "wheelchair" if MOVES[move].only_on_wheels else "on_foot"
        write_whole(loop, loop_svg(move, gets_about=way))
    if sheet is not None:
        with progress(quiet=as_json) as say:
            say(f"Drawing {len(names)} moves")
            write_whole(sheet, contact_sheet_pdf(names))
    if as_json:
        print(json.dumps({name: _told(name) for name in names}, indent=2))
    elif sheet is None and loop is None:
        for name in names:
            told = _told(name)
            choices = "; ".join(f"{key}: {', '.join(map(str, v))}" for key, v in told.items())
            print(f"{name}: {choices}")


def _told(name: str) -> dict[str, list[str]]:
    """What may be chosen for a move, and how it may be done."""
    from tapeline.figures.asking import can_draw
    from tapeline.figures.moves import MOVES
    from tapeline.figures.ways import WAYS

    move = MOVES[name]
    told = {key: list(values) for key, values in move.choices.items()}
    told |= {key: [str(value)] for key, value in move.defaults.items() if key not in told}
    told["adult"] = ["none", *move.adults]
    told["way"] = [way for way in WAYS if can_draw(name, gets_about=way)]
    return told
