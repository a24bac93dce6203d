"""The moves that have pictures, by name; a move whose picture does not read is left out."""

from __future__ import annotations

from tapeline.figures.move import Move
from tapeline.figures.moves import (
    balance,
    calming,
    carrying,
    catching,
    easier,
    floor,
    getting_about,
    handwork,
    leaning,
    paddle,
    partnered,
    quiet,
    receiving,
    rolling,
    sitting,
    standing,
    stepping,
    striking,
    table,
    throwing,
    warming,
)

FAMILIES = (
    balance,
    stepping,
    catching,
    carrying,
    easier,
    floor,
    getting_about,
    handwork,
    leaning,
    receiving,
    partnered,
    paddle,
    quiet,
    rolling,
    throwing,
    sitting,
    calming,
    standing,
    striking,
    table,
    warming,
)
MOVES: dict[str, Move] = {move.name: move for family in FAMILIES for move in family.MOVES}
