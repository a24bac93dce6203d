"""The walls of a room: typed one after the other, or as corners."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from tapeline.caseload.places import Room, Site, Spot
from tapeline.courses.along import doors_on_new_walls, moved
from tapeline.courses.presets import measuring
from tapeline.courses.real_room import course_room
from tapeline.courses.room_things import without_misfits
from tapeline.courses.survey import Survey, survey, walls_of
from tapeline.errors import InputError
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.rooms import (
    CornersForm,
    MeasuredForm,
    WallRow,
    spots_typed,
    wall_typed,
)
from tapeline.web.forms.rows import Rows
from tapeline.web.pages.answers import done, one_more_of, page, typed_into
from tapeline.web.pages.rooms import room_at, view_or_fault
from tapeline.web.services.rooms import room_draw


@require_http_methods(["GET", "POST"])
def room_walls(request: HttpRequest, key: str, room_key: str) -> HttpResponse:
    """The walls: typed one after the other, or as corners."""
    site, room = room_at(key, room_key)
    typed = typed_into(request)
    by_corners = typed is not None and "by_corners" in typed
    measured = MeasuredForm(None if by_corners else typed, initial={"start": 1, "end": 3})
    walls = Rows(
        WallRow,
        name="wall",
        data=None if by_corners else typed,
        values=[wall_typed(wall) for wall in walls_of(_as_walked(room))],
        spare=0,
    )
    corners = CornersForm(
        typed if by_corners else None, initial={"corners": spots_typed(_from_zero(room))}
    )
    if one_more_of(request):
        walls, measured = walls.with_one_more(), cast("MeasuredForm", measured.as_typed())
    elif typed is not None:
        drawn = (
            _save_corners(site, room, corners)
            if by_corners
            else _save_walls(site, room, measured, walls)
        )
        if drawn is not None:
            return done(request, _said(drawn), "room_plan", site.id, room.id)
    context = {
        "site": site,
        "room": room,
        "measured": measured,
        "walls": walls,
        "faulty_rows": walls.faulty,
        "corners": corners,
        "is_by_corners": by_corners,
        "view": view_or_fault(replace(room, corners=_as_walked(room)))[0],
        "grid": _grid(room),
    }
    form = corners if by_corners else measured
    has_faults = bool(form.is_bound and form.errors) or bool(walls.faulty)
    return page(request, "rooms/walls.html", context, has_faults=has_faults)


def _as_walked(room: Room) -> tuple[Spot, ...]:
    """Its corners; of a room nobody has drawn those of a walk from the upper left, to the right."""
    if room.is_drawn:
        return room.corners
    a, b, c, d = room.walls
    return (d, c, b, a)


def _from_zero(room: Room) -> tuple[Spot, ...]:
    """Corners as she types them: from the lower left of the plan."""
    right, up = _lowest(room)
    return moved(_as_walked(room), -right, -up)


def _lowest(room: Room) -> Spot:
    """How far to the right and up its walls begin."""
    walls = _as_walked(room)
    return min(x for x, _ in walls), min(y for _, y in walls)


def _grid(room: Room) -> dict[str, int]:
    """The grid that corners are clicked on: a little more than the room, at least 10 m."""
    walls = _from_zero(room)
    across = max(1000, *(x for x, _ in walls)) // 100 * 100 + 200
    up = max(800, *(y for _, y in walls)) // 100 * 100 + 200
    return {"width": across, "height": up}


def _save_walls(
    site: Site, room: Room, measured: MeasuredForm, walls: Rows
) -> tuple[Survey, int] | None:
    if not (measured.is_valid() & walls.is_valid()):
        return None
    made = walls.made()
    lengths = [wall.length_cm for wall in made]
    measured.ask_after(lengths, what=_("Wall"), least=measuring().ask_below["wall"])
    if measured.errors or walls.faulty:
        return None
    try:
        found = survey(made, diagonal=measured.diagonal(), **_as_it_lies(room))
    except InputError as error:
        _say_at_its_wall(error, measured, walls)
        return None
    lost = _drawn(site, room, found.corners, measured)
    return None if lost is None else (found, lost)


def _as_it_lies(room: Room) -> dict[str, tuple[int, int]]:
    """Where the walls that are there begin and run, so that new ones lie where they lay."""
    (ax, ay), (bx, by) = _as_walked(room)[:2]
    return {"heading": (bx - ax, by - ay), "lowest": _lowest(room)}


def _say_at_its_wall(error: InputError, measured: MeasuredForm, walls: Rows) -> None:
    """A fault of one corner stands beside the row of its wall."""
    name, _dash, number = (error.field or "").partition("-")
    kept = walls.kept()
    if name == "across" and number.isdecimal() and int(number) <= len(kept):
        kept[int(number) - 1].add_error("across_cm", str(error))
    else:
        measured.take(error)


def _save_corners(site: Site, room: Room, form: CornersForm) -> tuple[Survey, int] | None:
    if not form.is_valid():
        return None
    corners = moved(form.cleaned_data["corners"], *_lowest(room))
    lost = _drawn(site, room, corners, form)
    return None if lost is None else (Survey(corners=corners, missed_cm=0), lost)


def _drawn(site: Site, room: Room, corners: tuple[Spot, ...], form: HouseForm) -> int | None:
    """How many things were taken out with the new walls; None where they cannot be."""
    lost = 0

    def change(before: Room) -> Room:
        nonlocal lost
        doors = doors_on_new_walls(before.doors, before.walls, corners)
        new = replace(before, corners=corners, doors=doors)
        course_room(replace(new, doors=(), furniture=(), pillars=(), no_go=(), adults=()))
        if form.cleaned_data["take_out"]:
            new, lost = without_misfits(new)
        return new

    try:
        room_draw(site_key=site.id, room_key=room.id, change=change)
    except InputError as error:
        form.take(error)
        return None
    return lost


def _said(drawn: tuple[Survey, int]) -> str:
    found, lost = drawn
    said = [_("The walls are drawn.")]
    if found.missed_cm:
        said.append(
            _("They missed each other by %(cm)d cm, which was spread over them.")
            % {"cm": found.missed_cm}
        )
    if lost:
        said.append(
            ngettext("%(n)d thing was taken out.", "%(n)d things were taken out.", lost)
            % {"n": lost}
        )
    return " ".join(said)
