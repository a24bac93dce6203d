"""Drawn things: tape, ruler, marks and people, as SVG text.

Imports only errors, units and its own data; geometry of people lives nowhere else.
No ``style`` attribute and no ``<style>`` element is ever written.
"""

from tapeline.figures.marks import MARKS, mark_svg
from tapeline.figures.ruler import ruler_svg, session_strip_svg
from tapeline.figures.tape import tape_group, tape_svg
from tapeline.figures.tokens import TAPES

__all__ = [
    "MARKS",
    "TAPES",
    "mark_svg",
    "ruler_svg",
    "session_strip_svg",
    "tape_group",
    "tape_svg",
]
