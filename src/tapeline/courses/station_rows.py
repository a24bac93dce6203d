"""Rows of marks to jump, hop or step along: one row, two in two patterns, or a fan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tapeline.courses.shapes import Point
from tapeline.courses.spacing import Gap, Spacing, gap_of, spacing_for
from tapeline.courses.station_plans import Drawn, MarkPlan, StationPlan
from tapeline.courses.station_values import Frame, Laid, Mark, Player, Shape

MARGIN_CM = 40
ROW_LANE_CM = 50
FAN_CM = 120
BOX_CM = 40
PUDDLE_CM = 10
STRIP_CM = 5


@dataclass(frozen=True, kw_only=True)
class Rows:
    """All rows of a station that are drawn alike: their marks, gaps and spacing."""

    drawn: Drawn
    what: str
    count: int
    gaps: tuple[Gap, ...]
    spacing: Spacing
    after_cm: int = 0

    def first_cm(self, spacing_cm: int) -> int:
        """From the start to the first mark; a whole spacing beyond what stands at the back."""
        return max(MARGIN_CM, self.after_cm + spacing_cm if self.after_cm else 0)

    def places(self, spacing_cm: int, start_cm: int) -> list[int]:
        """Where the marks of a row lie along the station."""
        first = start_cm + self.first_cm(spacing_cm)
        return [first + spacing_cm * number for number in range(self.count)]

    @property
    def length_cm(self) -> int:
        """From the start to where both feet are behind the last mark."""
        widest = self.spacing.widest_cm
        return self.places(widest, 0)[-1] + max(MARGIN_CM, widest)

    @property
    def width_cm(self) -> int:
        """For all rows side by side, or the fan."""
        return FAN_CM if self.spacing.is_fan else ROW_LANE_CM * len(self.spacing.rows)


def rows_of(
    plan: StationPlan, players: Sequence[Player], *, marks: int | None = None
) -> Iterator[Rows]:
    """The rows of a station: those drawn alike share their marks, whatever is done on them."""
    alike: dict[Drawn, list[MarkPlan]] = {}
    for one in laid_plans(plan, players):
        if one.kind == "row":
            alike.setdefault(one.drawn, []).append(one)
    for drawn, plans in alike.items():
        gaps = tuple(
            gap_of(player.body, one.by or "footstep")
            for one in plans
            for player in players
            if not player.sits and one.serves(player.version)
        )
        if gaps:
            count = max(one.count for one in plans)
            yield Rows(
                drawn=drawn,
                what=plans[0].what,
                count=min(count, marks) if marks else count,
                gaps=gaps,
                spacing=spacing_for(gaps),
                after_cm=_at_the_back(plan, players),
            )


def laid_plans(plan: StationPlan, players: Sequence[Player]) -> list[MarkPlan]:
    """The marks that serve somebody here."""
    return [
        one
        for one in plan.marks
        if any(one.serves(player.version) for player in players)
        and (not one.wheels or any(player.body.has_device for player in players))
    ]


def rows_across(
    plan: StationPlan, players: Sequence[Player], marks: int | None
) -> Iterator[tuple[Rows, float]]:
    """Rows, each with where the middle of its strip lies across the station, as a share of it."""
    rows = list(rows_of(plan, players, marks=marks))
    wide = sum(row.width_cm for row in rows)
    used = 0
    for row in rows:
        yield row, (used + row.width_cm / 2) / wide
        used += row.width_cm


def _at_the_back(plan: StationPlan, players: Sequence[Player]) -> int:
    """How deep what stands at the back is, which a row begins behind."""
    things = [one for one in laid_plans(plan, players) if one.kind == "thing"]
    return max((one.size_cm for one in things if one.at == "back"), default=0)


def lay_rows(rows: Rows, across: float, frame: Frame) -> Laid:
    """The marks of rows that share a strip across the station, with their words."""
    middle = round(across * frame.width_cm)
    lay = _fan if rows.spacing.is_fan else _side_by_side
    marks, words = lay(rows, middle, frame.start_cm)
    return Laid(marks=marks, words=words, checks=_checks(rows))


def _side_by_side(
    rows: Rows, middle: int, start_cm: int
) -> tuple[tuple[Mark, ...], tuple[str, ...]]:
    marks, words = [], []
    lanes = len(rows.spacing.rows)
    for place, row in enumerate(rows.spacing.rows):
        y = middle + round((place - (lanes - 1) / 2) * ROW_LANE_CM)
        xs = rows.places(row.spacing_cm, start_cm)
        marks += [_mark_of_row(rows.drawn, Point(x, y), row.spacing_cm, place) for x in xs]
        apart = f", {row.spacing_cm} cm apart" if rows.count > 1 else ""
        words.append(
            f"{_pattern(rows, place)}{apart}: {_and(xs)} cm from the back, {y} cm from the right "
            "side."
        )
    return tuple(marks), tuple(words)


def _fan(rows: Rows, middle: int, start_cm: int) -> tuple[tuple[Mark, ...], tuple[str, ...]]:
    near, far = (row.spacing_cm for row in (rows.spacing.rows[0], rows.spacing.rows[-1]))
    right, left = middle - FAN_CM // 2, middle + FAN_CM // 2
    rights, lefts = rows.places(near, start_cm), rows.places(far, start_cm)
    marks = tuple(
        Mark(shape="line", at=(Point(x, right), Point(other, left)))
        for x, other in zip(rights, lefts, strict=True)
    )
    return marks, (
        f"A fan of {rows.count} strips: on the right {near} cm apart, {_and(rights)} cm from the "
        f"back; on the left {far} cm apart, {_and(lefts)} cm from the back. "
        "Each child goes where the strips fit.",
    )


def _and(xs: Sequence[int]) -> str:
    return " and ".join((", ".join(map(str, xs[:-1])), str(xs[-1]))) if len(xs) > 1 else str(xs[0])


LOOKS: dict[Drawn, tuple[str, str, str]] = {
    "cross": ("tape cross", "tape crosses", "tape squares"),
    "strip": ("tape strip", "tape strips", "double strips"),
    "box": ("tape box", "tape boxes", "boxes with a cross"),
    "roll": ("roll", "rolls", "rolls with a tape tail"),
    "puddle": ("tape strip 10 cm deep", "strips 10 cm deep", "strips with a cross"),
}


def _pattern(rows: Rows, place: int) -> str:
    """How many marks of which look; a second row is told from the first by its pattern."""
    one, many, other = LOOKS[rows.drawn]
    look = other if place else many if rows.count > 1 else one
    said = f"{rows.count} {look}" if rows.count > 1 else look.capitalize()
    return said if rows.what in (one, many) else f"{said} ({rows.what})"


def _mark_of_row(drawn: Drawn, at: Point, spacing_cm: int, pattern: int) -> Mark:
    if drawn == "cross":
        return Mark(shape="cross", at=(at,), size_cm=20, pattern=pattern)
    if drawn == "box":
        return Mark(shape="box", at=(at,), size_cm=min(BOX_CM, spacing_cm), pattern=pattern)
    shape: Shape = "roll" if drawn == "roll" else "strip"
    depth = PUDDLE_CM if drawn in ("roll", "puddle") else STRIP_CM
    return Mark(shape=shape, at=(at,), size_cm=depth, pattern=pattern)


def _checks(rows: Rows) -> tuple[str, ...]:
    """What she is asked to check where a child's own measure is missing."""
    if rows.count < 2:
        return ()
    if any(gap.basis == "rule_of_thumb" for gap in rows.gaps):
        return (
            "Not every child has an own jump or hop on file, so this spacing is a rule of thumb. "
            "Check it with each child first; move the marks closer where it is far.",
        )
    if any(gap.basis == "stature" for gap in rows.gaps):
        return ("The spacing comes from the height for age. Check it with each child first.",)
    return ()
