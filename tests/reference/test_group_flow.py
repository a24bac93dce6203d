"""Group flow against figures worked by hand.

Source: the figures follow from the stated inputs alone (children, seconds a run, start
interval, lanes); no publication prints them. Each is typed here as it was worked out.
"""

from __future__ import annotations

import pytest

from tapeline.courses.flow import FlowStation, flow_through, stations_that_queue
from tapeline.courses.lanes import (
    cycle_s,
    fewest_of,
    idle_s,
    moving_share,
    repetitions_in,
    runs_in,
    slack_s,
)

RUN_S = 40


def test_one_lane_one_at_a_time():
    alone = {"children": 6, "run_s": RUN_S}
    assert cycle_s(**alone) == 240
    assert moving_share(**alone) == pytest.approx(0.17, abs=0.005)
    assert idle_s(**alone) == 200
    assert runs_in(9, **alone) == 2.25


def test_starting_every_fifteen_seconds_nearly_triples_practice():
    staggered = {"children": 6, "run_s": RUN_S, "start_interval_s": 15}
    assert cycle_s(**staggered) == 90
    assert moving_share(**staggered) == pytest.approx(0.44, abs=0.005)
    assert runs_in(9, **staggered) == 6
    assert runs_in(9, **staggered) / runs_in(9, children=6, run_s=RUN_S) == pytest.approx(
        2.67, abs=0.01
    )


# Share of station time moving, 40 s a run: one lane one at a time; one lane, a start every
# 15 s; two lanes, a start every 15 s in each.
@pytest.mark.parametrize(
    ("children", "alone", "staggered", "two_lanes"),
    [(4, 0.25, 0.67, 1.00), (6, 0.17, 0.44, 0.89), (8, 0.125, 0.33, 0.67)],
)
def test_share_of_time_moving_by_lanes_and_starts(children, alone, staggered, two_lanes):
    printed = pytest.approx
    assert moving_share(children=children, run_s=RUN_S) == printed(alone, abs=0.005)
    found = moving_share(children=children, run_s=RUN_S, start_interval_s=15)
    assert found == printed(staggered, abs=0.005)
    found = moving_share(children=children, run_s=RUN_S, start_interval_s=15, lanes=2)
    assert found == printed(two_lanes, abs=0.005)


def test_bags_in_hand_matter_more_than_minutes():
    assert repetitions_in(5, each_s=3, collect_s=15, collect_after=5) == 50
    assert repetitions_in(5, each_s=3, collect_s=12) == 20


def test_slack_is_told_in_seconds():
    assert slack_s(20 * 60, 300, 60, 25, 300, 60, 25) == 430
    assert slack_s(600, 300, 60, 300) == -60


def test_the_child_with_the_fewest_repetitions_is_named():
    assert fewest_of({"c1": 20, "c2": 12, "c3": 12}) == ("c2", 12)


# The same group sent through the recursion settles into the same cycle: share and wait of
# a long part come to the formula's.
@pytest.mark.parametrize(("interval_s", "share"), [(0, 1 / 6), (15, 40 / 90)])
def test_the_recursion_settles_into_the_cycle(interval_s, share):
    children = [f"c{number}" for number in range(1, 7)]
    places = 1 if interval_s == 0 else 3
    lane = FlowStation(id="lane", seconds=(RUN_S,) * 6, capacity=places)
    flow = flow_through(children, [lane], lasting_s=100 * 240, start_interval_s=interval_s)
    for child in flow.children:
        assert child.moving_share == pytest.approx(share, rel=0.02)


def test_a_station_slower_than_the_starts_makes_a_queue():
    stations = [
        FlowStation(id="line", seconds=(10, 14)),
        FlowStation(id="tunnel", seconds=(12, 20)),
        FlowStation(id="boxes", seconds=(25, 28), capacity=2),
    ]
    assert stations_that_queue(stations, start_interval_s=15) == ("tunnel",)
