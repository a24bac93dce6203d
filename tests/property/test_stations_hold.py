"""What holds of every station, whoever is in the group and whatever they do there."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.activities.loader import load_library
from tapeline.activities.models import Activity
from tapeline.courses.bodies import Body, body_of
from tapeline.courses.spacing import gap_of, spacing_for
from tapeline.courses.station_values import Player
from tapeline.courses.stations import BuiltStation, build_station
from tests.builders import TODAY, a_child

COURSE = [one for one in load_library().activities.values() if "course" in one.uses]
WAYS = ("on_foot", "splints", "walking_frame", "wheelchair")


@st.composite
def bodies(draw: st.DrawFn, number: int) -> Body:
    """A child of three to eight, with an own height, jump, hop and stride or without."""
    months = draw(st.integers(36, 107))
    born = TODAY.year * 12 + TODAY.month - 1 - months
    own = st.none() | st.integers(25, 130)
    child = a_child(
        id=f"c{number}",
        born=f"{born // 12}-{born % 12 + 1:02d}",
        gets_about=draw(st.sampled_from(WAYS)),
        height_cm=draw(st.none() | st.integers(85, 140)),
        jump_cm=draw(own),
        hop_cm=draw(own),
        stride_cm=draw(own),
    )
    return body_of(child, TODAY)


@st.composite
def groups(draw: st.DrawFn) -> tuple[Activity, tuple[Player, ...]]:
    """An activity of a course and one to six children who can do a version of it."""
    activity = draw(st.sampled_from(COURSE))
    players = []
    for number in range(draw(st.integers(1, 6))):
        body = draw(bodies(number))
        able = [one for one in activity.versions if body.gets_about in one.gets_about]
        if able:
            players.append(Player(body=body, version=draw(st.sampled_from(able))))
    if not players:
        body = body_of(a_child(), TODAY)
        players = [Player(body=body, version=activity.versions[0])]
    return activity, tuple(players)


def built(activity: Activity, players: Sequence[Player], **fields: object) -> BuiltStation:
    found = build_station(activity, players, **fields)  # type: ignore[arg-type]
    assert isinstance(found, BuiltStation)
    return found


@given(groups())
@settings(max_examples=150, deadline=None)
def test_every_mark_lies_on_the_station(group: tuple[Activity, tuple[Player, ...]]) -> None:
    station = built(*group)
    for mark in station.marks:
        for point in mark.at:
            assert 0 <= point.x <= station.station.length_cm
            assert 0 <= point.y <= station.station.width_cm


@given(groups())
@settings(max_examples=100, deadline=None)
def test_one_more_child_never_takes_clear_space_away(
    group: tuple[Activity, tuple[Player, ...]],
) -> None:
    activity, players = group
    whole = built(activity, players).station
    for without in range(len(players)):
        rest = [player for place, player in enumerate(players) if place != without]
        if not rest:
            continue
        fewer = built(activity, rest).station
        for side in ("front", "back", "left", "right"):
            if side not in whole.wall:
                assert getattr(whole.clear, side) >= getattr(fewer.clear, side)


@given(groups())
@settings(max_examples=100, deadline=None)
def test_no_child_is_asked_for_more_than_the_smallest_can(
    group: tuple[Activity, tuple[Player, ...]],
) -> None:
    activity, players = group
    heights = {height.what: height for height in built(activity, players).heights}
    if "step" in heights:
        ceiling = heights["step"].at_most_cm
        assert ceiling is not None
        assert ceiling <= 15
    if "sheet" in heights:
        reach = heights["sheet"].at_most_cm
        assert reach is not None
        assert all(reach <= player.body.at_most("vertical_grip_reach") for player in players)


@given(st.lists(st.integers(0, 5).flatmap(bodies), min_size=1, max_size=6))
@settings(max_examples=150, deadline=None)
def test_every_row_serves_its_children_and_no_child_is_left_without(
    group: list[Body],
) -> None:
    named = {f"k{place}": body for place, body in enumerate(group)}
    gaps = {}
    for key, body in named.items():
        gap = gap_of(body, "jump")
        gaps[key] = type(gap)(
            child=key, least_cm=gap.least_cm, most_cm=gap.most_cm, basis=gap.basis
        )
    spacing = spacing_for(list(gaps.values()))
    if spacing.is_fan:
        shortest, longest = (row.spacing_cm for row in spacing.rows)
        for gap in gaps.values():
            assert gap.most_cm >= shortest
            assert gap.least_cm <= longest
        return
    assert sorted(child for row in spacing.rows for child in row.children) == sorted(gaps)
    for row in spacing.rows:
        for child in row.children:
            assert gaps[child].least_cm <= row.spacing_cm <= gaps[child].most_cm


@given(groups(), st.integers(2, 3))
@settings(max_examples=60, deadline=None)
def test_lanes_keep_the_clear_space_between_them(
    group: tuple[Activity, tuple[Player, ...]], lanes: int
) -> None:
    one, many = built(*group), built(*group, lanes=lanes)
    grown = (
        many.station.length_cm - one.station.length_cm,
        many.station.width_cm - one.station.width_cm,
    )
    assert min(grown) == 0
    assert many.station.clear == one.station.clear
    assert len(many.marks) == lanes * len(one.marks)
