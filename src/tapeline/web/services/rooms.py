"""Save a room of a site: its drawing is checked and its free floor measured each time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tapeline.caseload.places import Room
from tapeline.courses.room_things import with_free_floor
from tapeline.errors import InputError
from tapeline.web.selectors.sites import site_of
from tapeline.web.services.places import site_save
from tapeline.web.services.saving import saving


def room_draw(*, site_key: str, room_key: str, change: Callable[[Room], Room]) -> Room:
    """Change the drawing of a room; nothing is saved where the new one cannot be true.

    Raises
    ------
    InputError
        There is no such room, or the drawing cannot be true.
    """
    with saving():
        site = site_of(site_key)
        before = next((room for room in site.rooms if room.id == room_key), None)
        if before is None:
            raise InputError(f"There is no room {room_key!r} in {site.name}.", field="room")
        drawn = with_free_floor(change(before))
        rooms = tuple(drawn if room.id == room_key else room for room in site.rooms)
        site_save(site=replace(site, rooms=rooms))
    return drawn
