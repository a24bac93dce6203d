"""What holds for every line of children and every row of stations."""

from __future__ import annotations

from itertools import islice, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.courses.flow import (
    FlowStation,
    done_by_s,
    flow_through,
    passages_of,
    rounds_surely_done,
)
from tapeline.courses.flow_odds import simulate_flow

ROUNDS = 4


@st.composite
def lines(draw, *, capacities=st.integers(1, 3)):
    """Stations with whole seconds for each child, a start interval and a walk back."""
    n_children = draw(st.integers(1, 6))
    stations = [
        FlowStation(
            id=f"s{number}",
            seconds=tuple(draw(st.integers(1, 60)) for _ in range(n_children)),
            capacity=draw(capacities),
        )
        for number in range(draw(st.integers(1, 4)))
    ]
    return stations, {
        "start_interval_s": draw(st.integers(0, 40)),
        "walk_back_s": draw(st.integers(0, 15)),
    }


def first_rounds(stations, timing, *, rounds=ROUNDS):
    count = rounds * len(stations[0].seconds) * len(stations)
    return list(islice(passages_of(stations, **timing), count))


def names(stations):
    return [f"c{number}" for number, _ in enumerate(stations[0].seconds, start=1)]


@given(line=lines())
def test_nobody_is_done_later_than_the_bound(line):
    stations, timing = line
    passages = first_rounds(stations, timing)
    for round_ in range(ROUNDS):
        last_end = max(one.ends_s for one in passages if one.round == round_)
        assert last_end <= done_by_s(round_ + 1, stations, **timing) + 1e-6


@given(seconds=st.lists(st.integers(1, 60), min_size=1, max_size=4), data=st.data())
def test_the_bound_is_met_exactly_by_alike_children_at_single_places(seconds, data):
    n_children = data.draw(st.integers(1, 6))
    timing = {"start_interval_s": 0, "walk_back_s": data.draw(st.integers(0, 15))}
    stations = [FlowStation(id=f"s{s}", seconds=(s,) * n_children) for s in seconds]
    last = first_rounds(stations, timing)[-1]
    assert last.ends_s == pytest.approx(done_by_s(ROUNDS, stations, **timing))


@given(line=lines(), lasting_s=st.integers(1, 900))
def test_every_child_gets_the_rounds_that_were_promised(line, lasting_s):
    stations, timing = line
    promised = rounds_surely_done(lasting_s, stations, **timing)
    flow = flow_through(names(stations), stations, lasting_s=lasting_s, **timing)
    assert min(child.runs for child in flow.children) >= promised


@given(line=lines(), rounds=st.integers(1, 20))
def test_the_two_bounds_say_the_same(line, rounds):
    stations, timing = line
    enough = done_by_s(rounds, stations, **timing)
    assert rounds_surely_done(enough, stations, **timing) == rounds
    assert rounds_surely_done(enough - 0.01, stations, **timing) == rounds - 1


@given(line=lines(capacities=st.just(1)))
def test_at_a_single_place_nobody_finishes_before_the_child_in_front(line):
    stations, timing = line
    for place in range(len(stations)):
        ends = [one.ends_s for one in first_rounds(stations, timing) if one.station == place]
        assert ends == sorted(ends)


@given(line=lines())
def test_the_line_keeps_its_order_at_every_start(line):
    stations, timing = line
    for place in range(len(stations)):
        starts = [one.starts_s for one in first_rounds(stations, timing) if one.station == place]
        assert starts == sorted(starts)


@given(line=lines())
def test_no_station_holds_more_children_than_it_takes(line):
    stations, timing = line
    passages = first_rounds(stations, timing)
    for place, station in enumerate(stations):
        here = [one for one in passages if one.station == place]
        for one in here:
            together = sum(other.starts_s <= one.starts_s < other.ends_s for other in here)
            assert together <= station.capacity


@given(line=lines())
def test_no_child_is_in_two_places_and_starts_keep_their_interval(line):
    stations, timing = line
    passages = first_rounds(stations, timing)
    for child in range(len(stations[0].seconds)):
        mine = [one for one in passages if one.child == child]
        assert all(one.ends_s <= other.starts_s for one, other in pairwise(mine))
    starts = [one.starts_s for one in passages if one.station == 0]
    gaps = [after - before for before, after in pairwise(starts)]
    assert all(gap >= timing["start_interval_s"] for gap in gaps)


@given(line=lines(), child=st.integers(0, 5), place=st.integers(0, 3), more=st.integers(1, 60))
def test_a_slower_child_makes_nobody_earlier(line, child, place, more):
    stations, timing = line
    place %= len(stations)
    child %= len(stations[0].seconds)
    seconds = list(stations[place].seconds)
    seconds[child] += more
    slower = FlowStation(id="slower", seconds=tuple(seconds), capacity=stations[place].capacity)
    changed = [*stations[:place], slower, *stations[place + 1 :]]
    before, after = first_rounds(stations, timing), first_rounds(changed, timing)
    assert all(old.ends_s <= new.ends_s for old, new in zip(before, after, strict=True))


@given(line=lines(), lasting_s=st.integers(1, 900))
def test_moving_and_waiting_fit_in_the_part(line, lasting_s):
    stations, timing = line
    flow = flow_through(names(stations), stations, lasting_s=lasting_s, **timing)
    for child in flow.children:
        assert 0 <= child.moving_share <= 1
        assert 0 <= child.longest_wait_s <= lasting_s * (1 - child.moving_share) + 1e-6
        assert list(child.trials) == sorted(child.trials, reverse=True)
        assert child.trials[0] - child.trials[-1] <= 1


@settings(deadline=None, max_examples=40)
@given(line=lines(), lasting_s=st.integers(1, 600))
def test_without_spread_the_draws_are_the_recursion(line, lasting_s):
    stations, timing = line
    children = names(stations)
    flow = flow_through(children, stations, lasting_s=lasting_s, **timing)
    odds = simulate_flow(
        children, stations, lasting_s=lasting_s, spread=0, seed=1, draws=3, **timing
    )
    assert odds.finishes_s == pytest.approx((flow.last_finish_s,) * 3)
    for sure, drawn in zip(flow.children, odds.children, strict=True):
        assert drawn.trials_usual == drawn.trials_at_least == sum(sure.trials)
        assert drawn.moving_share == pytest.approx(sure.moving_share)
        assert drawn.longest_wait_s == pytest.approx(sure.longest_wait_s)
