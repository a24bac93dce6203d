"""A group at its stations: small lines worked by hand, and what is refused."""

from __future__ import annotations

import pytest

from tapeline.courses.flow import FlowStation, done_by_s, flow_through
from tapeline.courses.flow_odds import simulate_flow
from tapeline.courses.lanes import cycle_s
from tapeline.errors import InputError


def two_children_at(*seconds: tuple[float, float], capacity: int = 1) -> list[FlowStation]:
    return [
        FlowStation(id=f"s{place}", seconds=pair, capacity=capacity)
        for place, pair in enumerate(seconds)
    ]


def test_a_slow_child_in_front_makes_the_next_one_wait():
    flow = flow_through(["slow", "quick"], two_children_at((30, 10)), lasting_s=80)
    slow, quick = flow.children
    assert slow.trials == (2,)  # 0-30, 40-70
    assert quick.trials == (2,)  # 30-40, 70-80
    assert quick.longest_wait_s == 30
    assert slow.moving_share == 60 / 80


def test_trials_are_counted_station_by_station():
    flow = flow_through(["a", "b"], two_children_at((10, 10), (20, 20)), lasting_s=49)
    assert [child.trials for child in flow.children] == [(2, 1), (1, 0)]


def test_a_run_that_began_is_finished_and_its_late_trial_does_not_count():
    flow = flow_through(["a"], [FlowStation(id="s", seconds=(40,))], lasting_s=100)
    assert flow.children[0].trials == (2,)
    assert flow.last_finish_s == 120


def test_waiting_for_the_end_is_waiting():
    flow = flow_through(["a", "b"], two_children_at((10, 10)), lasting_s=100, start_interval_s=60)
    assert [child.longest_wait_s for child in flow.children] == [100 - 10, 60]


def test_the_walk_back_is_neither_wait_nor_practice():
    flow = flow_through(["a"], [FlowStation(id="s", seconds=(20,))], lasting_s=100, walk_back_s=30)
    assert flow.children[0].longest_wait_s == 0
    assert flow.children[0].moving_share == 0.4


def test_the_child_with_the_fewest_trials_is_named():
    flow = flow_through(["a", "b", "c"], [FlowStation(id="s", seconds=(9, 9, 9))], lasting_s=40)
    assert flow.fewest.child == "c"


def test_an_uneven_group_is_as_slow_as_its_fullest_lane():
    assert cycle_s(children=5, run_s=10, lanes=2) == 30


def test_the_same_seed_gives_the_same_odds():
    stations = two_children_at((30, 20), (15, 25))
    first, again, other = (
        simulate_flow(["a", "b"], stations, lasting_s=600, spread=0.3, seed=seed, draws=50)
        for seed in (7, 7, 8)
    )
    assert first == again
    assert first != other


def test_more_time_never_lowers_the_chance_of_being_done():
    odds = simulate_flow(
        ["a", "b"], two_children_at((30, 20)), lasting_s=300, spread=0.3, seed=1, draws=200
    )
    chances = [odds.chance_done_by(seconds) for seconds in range(300, 500, 10)]
    assert chances == sorted(chances)
    assert chances[0] == 0
    assert chances[-1] == 1


def test_uneven_times_lengthen_the_wait_one_can_count_on():
    stations = two_children_at((30, 30), (30, 30))
    sure = flow_through(["a", "b"], stations, lasting_s=900)
    odds = simulate_flow(["a", "b"], stations, lasting_s=900, spread=0.4, seed=3)
    assert odds.children[0].longest_wait_s > sure.children[0].longest_wait_s
    assert odds.children[0].trials_at_least <= odds.children[0].trials_usual


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"capacity": 0}, "takes 0 children"),
        ({"seconds": (10, 0)}, "no time on it"),
        ({"seconds": ()}, "no time on it"),
    ],
)
def test_a_station_that_cannot_be_is_refused(changes, message):
    with pytest.raises(InputError, match=message):
        FlowStation(**({"id": "line", "seconds": (10, 10)} | changes))


def test_a_child_without_a_time_is_refused():
    with pytest.raises(InputError, match="seconds for 2 children, and 3"):
        flow_through(["a", "b", "c"], two_children_at((10, 10)), lasting_s=60)


def test_an_empty_line_is_refused():
    with pytest.raises(InputError, match="0 children"):
        flow_through([], two_children_at((10, 10)), lasting_s=60)


def test_no_time_at_all_is_refused():
    with pytest.raises(InputError, match="last 0 s"):
        flow_through(["a", "b"], two_children_at((10, 10)), lasting_s=0)


def test_a_bound_for_no_round_is_our_mistake():
    with pytest.raises(ValueError, match="at least one round"):
        done_by_s(0, two_children_at((10, 10)))
