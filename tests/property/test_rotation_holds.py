"""The rotation of a group agrees with a general discrete-event simulation.

Source: simpy, a general-purpose process-based discrete-event library; its `Resource` serves
first come, first served.
"""

from __future__ import annotations

from collections.abc import Iterator

import simpy
from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.courses.flow import FlowStation
from tapeline.courses.rotation import Rotation, turns_of


@st.composite
def rotations(draw: st.DrawFn) -> Rotation:
    """Up to six children and four stations; seconds with a fraction, so that few come at once."""
    children = draw(st.integers(1, 6))
    stations = draw(st.integers(1, 4))
    numbers = iter(
        draw(
            st.lists(
                st.integers(1_000, 60_000),
                min_size=children * stations,
                max_size=children * stations,
                unique=True,
            )
        )
    )
    return Rotation(
        stations=tuple(
            FlowStation(
                id=f"s{place}",
                seconds=tuple(next(numbers) / 997 for _ in range(children)),
                capacity=draw(st.integers(1, 2)),
            )
            for place in range(stations)
        ),
        rounds=draw(st.integers(1, 3)),
        begins_at=tuple(draw(st.integers(0, stations - 1)) for _ in range(children)),
        begins_s=tuple(child * draw(st.integers(0, 20)) / 7 for child in range(children)),
        walk_s=draw(st.integers(0, 15)),
    )


def played(rotation: Rotation) -> set[tuple[int, int, float]]:
    world = simpy.Environment()
    places = [simpy.Resource(world, capacity=one.capacity) for one in rotation.stations]
    ends: set[tuple[int, int, float]] = set()

    def child(number: int) -> Iterator[simpy.Event]:
        yield world.timeout(rotation.begins_s[number])
        for go in range(rotation.rounds * len(places)):
            station = (rotation.begins_at[number] + go) % len(places)
            with places[station].request() as turn:
                yield turn
                yield world.timeout(rotation.stations[station].seconds[number])
                ends.add((number, go, round(world.now, 6)))
            yield world.timeout(rotation.walk_s)

    for number in range(len(rotation.begins_at)):
        world.process(child(number))
    world.run()
    return ends


@given(rotations())
@settings(max_examples=150, deadline=None)
def test_every_go_ends_when_the_simulation_says(rotation: Rotation) -> None:
    found = set()
    goes: dict[int, int] = {}
    for turn in turns_of(rotation):
        go = goes.get(turn.child, 0)
        goes[turn.child] = go + 1
        found.add((turn.child, go, round(turn.ends_s, 6)))
    assert found == played(rotation)
