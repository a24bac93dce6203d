"""The moves that have pictures, by name; a move whose picture does not read is left out."""

from __future__ import annotations

from tapeline.figures.move import Move
from tapeline.figures.moves import balance, easier, floor, getting_about, sending, standing, table

FAMILIES = (sending, getting_about, balance, floor, standing, table, easier)
MOVES: dict[str, Move] = {move.name: move for family in FAMILIES for move in family.MOVES}
