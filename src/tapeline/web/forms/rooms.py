"""Forms of a room's walls: by typing one after the other, or as corners."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.places import Spot
from tapeline.courses.along import Outline
from tapeline.courses.survey import Diagonal, Wall
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Length, Text, Tick, WholeNumber
from tapeline.web.forms.rows import RowForm

TURNS = {
    "right": lazy("right, square"),
    "left": lazy("left, square"),
    "right_across": lazy("right, not square"),
    "left_across": lazy("left, not square"),
}
FEWEST_CORNERS = 3
MOST_CORNERS = 60
SPOT = re.compile(r"^\s*\[?\s*(-?\d{1,5})\s*[,; ]\s*(-?\d{1,5})\s*\]?\s*$")


class WallRow(RowForm):
    """One wall, and how the next one goes on."""

    defaults = ("turn",)
    length_cm = Length(
        lazy("Length"), missing=lazy("The wall has no length. Type it."), least=1, hint=" "
    )
    turn = Choice(lazy("Then turn"), TURNS)
    across_cm = Length(lazy("Across"), hint=" ")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.number = int(str(self.prefix).rpartition("-")[2]) + 1
        self.fields["length_cm"].label = _("Wall %(number)d") % {"number": self.number}

    def value(self) -> Wall:
        """The wall as typed; what was typed across a square corner is not looked at."""
        typed = self.cleaned_data
        is_square = not typed["turn"].endswith("_across")
        return Wall(
            length_cm=typed["length_cm"],
            turn="left" if typed["turn"].startswith("left") else "right",
            across_cm=None if is_square else typed["across_cm"],
        )

    def clean(self) -> dict[str, Any]:
        """A corner that is not square needs the distance across it."""
        typed: dict[str, Any] = super().clean() or {}
        if str(typed.get("turn", "")).endswith("_across") and typed.get("across_cm") is None:
            self.add_error(
                "across_cm",
                _(
                    "After wall %(number)d the corner is not square. Measure from this wall's "
                    "beginning to the next wall's end."
                )
                % {"number": self.number},
            )
        return typed


def wall_typed(wall: Wall) -> dict[str, Any]:
    """A wall as its row shows it."""
    turn = wall.turn if wall.across_cm is None else f"{wall.turn}_across"
    return {"length_cm": wall.length_cm, "turn": turn, "across_cm": wall.across_cm}


class MeasuredForm(HouseForm):
    """What belongs to all walls: a diagonal, and her word on what was asked."""

    start = WholeNumber(lazy("From corner"), least=1, most=MOST_CORNERS)
    end = WholeNumber(lazy("to corner"), least=1, most=MOST_CORNERS)
    diagonal_cm = Length(lazy("are"), least=1, hint=" ")
    sure = Tick(lazy("The short walls are right: they are centimetres."))
    take_out = Tick(lazy("Take out what does not fit the new walls."))
    renamed = {"diagonal": "diagonal_cm", "walls": "", "room": ""}

    def diagonal(self) -> Diagonal | None:
        """The diagonal as typed."""
        typed = self.cleaned_data
        if typed["diagonal_cm"] is None:
            return None
        return Diagonal(
            start=typed["start"] or 1, end=typed["end"] or 3, length_cm=typed["diagonal_cm"]
        )

    def ask_after(self, lengths: Sequence[int], *, what: str, least: int) -> None:
        """Ask where a length looks like metres."""
        if self.cleaned_data.get("sure"):
            return
        for number, length in enumerate(lengths, start=1):
            if length < least:
                self.add_error("sure", were_these_metres(f"{what} {number}", length))


def were_these_metres(what: str, length: int) -> str:
    """The question where a length is hardly one of centimetres."""
    return _(
        "%(what)s is %(cm)d cm long. Were these metres? Type %(cm)d m, or say below that it is right."
    ) % {"what": what, "cm": length}


class CornersForm(HouseForm):
    """The walls as corners, one a line."""

    corners = Text(
        lazy("Corners, one a line"),
        missing=lazy("No corner was given. Click them on the grid, or type them."),
        hint=lazy("To the right and up in cm, such as 900 600. One after the other, all round."),
        lines=6,
        most=2000,
    )
    take_out = Tick(lazy("Take out what does not fit the new walls."))
    renamed = {"room": "corners", "walls": "corners"}

    def clean_corners(self) -> Outline:
        """The corners as whole centimetres."""
        return spots_of(self.cleaned_data["corners"])


def spots_of(text: str) -> Outline:
    """Points, one a line; each fault is a sentence that names its line."""
    found: list[Spot] = []
    for number, line in enumerate(filter(str.strip, text.splitlines()), start=1):
        match = SPOT.match(line)
        if match is None:
            raise ValidationError(
                _("Line %(number)d is “%(line)s”. Type two whole numbers, such as 900 600.")
                % {"number": number, "line": line.strip()[:40]}
            )
        found.append((int(match[1]), int(match[2])))
    if len(found) > 1 and found[0] == found[-1]:
        found.pop()
    if not FEWEST_CORNERS <= len(found) <= MOST_CORNERS:
        raise ValidationError(
            _("There are %(count)d corners. Give %(least)d to %(most)d.")
            % {"count": len(found), "least": FEWEST_CORNERS, "most": MOST_CORNERS}
        )
    return tuple(found)


def spots_typed(spots: Sequence[Spot]) -> str:
    """Points, one a line."""
    return "\n".join(f"{x} {y}" for x, y in spots)
