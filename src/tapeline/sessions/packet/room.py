"""Wall cards and the tally sheet: what hangs or lies in the room, with marks and no names."""

from __future__ import annotations

from collections.abc import Mapping
from zlib import crc32

from tapeline.activities.models import PARTS_WITH_TRIALS
from tapeline.caseload.caseload import fingerprint
from tapeline.documents.packet import Figure, Tally, TallyActivity, WallCard
from tapeline.planner.plan import PartPlan, SessionPlan, plan_as_data
from tapeline.planner.words import PART_NAMES
from tapeline.sessions.packet.basis import Basis, most_common_version

CARD_AGE_MONTHS = 66


def wall_cards(basis: Basis, *, numbers: Mapping[str, int] | None = None) -> tuple[WallCard, ...]:
    """A card for each activity and station of the room; none where nobody is in a room.

    Parameters
    ----------
    numbers
        The stations as they are walked, by activity; else they count in the order of the plan.
    """
    made = (_card(part, basis, numbers or {}) for part in basis.plan.parts)
    return tuple(card for card in made if card is not None)


def _card(part: PartPlan, basis: Basis, numbers: Mapping[str, int]) -> WallCard | None:
    """The version most children in the room do; the others' are on her page alone."""
    shown = most_common_version(part, basis, lambda row: row.place == "room")
    if shown is None:
        return None
    version = basis.version(shown)
    activity = basis.activity(part)
    return WallCard(
        tape=basis.tape(part),
        part=_part_name(part, basis.plan, numbers),
        name=activity.name,
        lead=activity.lead,
        captions=version.captions,
        too_hard=version.too_hard,
        too_easy=version.too_easy,
        stop=version.adult.stop,
        cautions=basis.cautions_for(row for row in part.children if row.place == "room"),
        figure=_figure(part, shown.version, basis),
    )


def _figure(part: PartPlan, version_id: str, basis: Basis) -> Figure | None:
    """The picture of a card: any child in the room who does this version and can be drawn."""
    figures = (
        basis.figure(
            basis.library.find_version(version_id),
            age_months=CARD_AGE_MONTHS,
            gets_about=basis.child(row.id).gets_about,
            seed=crc32(part.activity.encode()),
            language="en",
        )
        for row in part.children
        if row.place == "room" and row.version == version_id
    )
    return next((figure for figure in figures if figure is not None), None)


def _part_name(part: PartPlan, plan: SessionPlan, numbers: Mapping[str, int]) -> str:
    name = PART_NAMES[part.part].capitalize()
    if part.part != "course":
        return name
    stations = [other.activity for other in plan.parts if other.part == "course"]
    number = numbers.get(part.activity, stations.index(part.activity) + 1)
    return f"{name}, station {number}"


def tally_sheet(basis: Basis) -> Tally | None:
    """The sheet for all activities that make tries and all children she sees; else None.

    Recorded children are not on it: nobody who records tries sees them.
    """
    activities = tuple(
        TallyActivity(
            tape=basis.tape(part),
            name=basis.activity(part).name,
            rows=tuple(
                (basis.marks[row.id], tries)
                for row in part.children
                if row.place != "home_later"
                for tries in (row.amount * part.rounds // basis.version(row).try_size,)
            ),
        )
        for part in basis.plan.parts
        if part.part in PARTS_WITH_TRIALS
    )
    seen = tuple(activity for activity in activities if activity.rows)
    if not seen:
        return None
    levels = basis.caseload.prompt_levels
    return Tally(
        sheet=sheet_id(basis.plan),
        levels=tuple(level.name for level in levels[:-1] if not level.hidden),
        activities=seen,
    )


def sheet_id(plan: SessionPlan) -> str:
    """The id on a plan's tally sheet: the same plan gives the same id, in groups of four."""
    digits = fingerprint(plan_as_data(plan))
    return "-".join(digits[at : at + 4] for at in range(0, len(digits), 4))
