"""Drawn things: tape, ruler, marks and people, as SVG text.

Imports only errors, units and its own data; geometry of people lives nowhere else.
No ``style`` attribute and no ``<style>`` element is ever written.
"""

from tapeline.figures.marks import MARKS, mark_svg
from tapeline.figures.moves import MOVES
from tapeline.figures.ruler import ruler_svg, session_strip_svg
from tapeline.figures.stills import can_draw, describe, has_move, still_svg, strip_of_three
from tapeline.figures.tape import tape_group, tape_svg
from tapeline.figures.tokens import TAPES

__all__ = [
    "MARKS",
    "MOVES",
    "TAPES",
    "can_draw",
    "describe",
    "has_move",
    "mark_svg",
    "ruler_svg",
    "session_strip_svg",
    "still_svg",
    "strip_of_three",
    "tape_group",
    "tape_svg",
]
