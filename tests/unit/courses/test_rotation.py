"""A group that goes round: by hand, and as the line that `flow` knows."""

from __future__ import annotations

import pytest

from tapeline.courses.flow import FlowStation, passages_of
from tapeline.courses.rotation import Rotation, outlook_of, spread_out, turns_of
from tapeline.errors import InputError


def a_rotation(*seconds: tuple[float, ...], **fields: object) -> Rotation:
    """Stations with seconds for each child; all begin at the first at once."""
    count = len(seconds[0])
    return Rotation(
        **{
            "stations": tuple(
                FlowStation(id=f"s{place}", seconds=one) for place, one in enumerate(seconds)
            ),
            "rounds": 1,
            "begins_at": (0,) * count,
            "begins_s": (0.0,) * count,
            **fields,
        }
    )


# Worked by hand: three children, stations of 10 s and 20 s, all in line at the first.
# First: 0-10, then 10-30. Second: waits 10, 10-20, waits to 30, 30-50. Third: 20-30, 50-70.
def test_three_children_in_a_line_by_hand() -> None:
    turns = turns_of(a_rotation((10, 10, 10), (20, 20, 20)))
    ends = {(turn.child, turn.station): turn.ends_s for turn in turns}
    assert ends == {(0, 0): 10, (0, 1): 30, (1, 0): 20, (1, 1): 50, (2, 0): 30, (2, 1): 70}
    waits = {(turn.child, turn.station): turn.starts_s - turn.arrives_s for turn in turns}
    assert waits[1, 1] == 10
    assert waits[2, 1] == 20


# By hand: two children on two stations of 10 s, each from its own, 5 s to walk: nobody waits and
# two rounds take 4 × 10 + 3 × 5 s.
def test_who_begins_at_a_station_of_their_own_does_not_wait() -> None:
    rotation = a_rotation((10, 10), (10, 10), rounds=2, begins_at=(0, 1), walk_s=5)
    turns = turns_of(rotation)
    assert all(turn.starts_s == turn.arrives_s for turn in turns)
    assert max(turn.ends_s for turn in turns) == 55


def test_a_line_from_the_first_station_is_the_line_of_flow() -> None:
    seconds = ((9.0, 7.0, 8.0, 12.0), (14.0, 6.0, 10.0, 5.0), (4.0, 11.0, 3.0, 9.0))
    rotation = a_rotation(*seconds, rounds=3, walk_s=0)
    found = {(turn.child, turn.station, turn.starts_s, turn.ends_s) for turn in turns_of(rotation)}
    wanted = set()
    for passage in passages_of(rotation.stations):
        if passage.round == 3:
            break
        wanted.add((passage.child, passage.station, passage.starts_s, passage.ends_s))
    assert found == wanted


def test_children_are_spread_evenly() -> None:
    assert spread_out(6, 4) == (0, 1, 2, 3, 0, 1)


def test_without_spread_every_draw_is_the_usual_one() -> None:
    rotation = a_rotation((10, 10), (10, 10), begins_at=(0, 1))
    outlook = outlook_of(rotation, lasting_s=40, spread=0, seed=1, draws=20)
    assert set(outlook.finishes_s) == {20.0}
    assert outlook.children[0].goes == 2
    assert outlook.children[0].moving == 0.5
    assert outlook.children[0].longest_wait_s == 0


def test_the_same_seed_gives_the_same_chance_and_more_time_a_better_one() -> None:
    rotation = a_rotation((10, 12, 9), (14, 8, 11), rounds=2, begins_at=(0, 1, 0))
    one, other = (
        outlook_of(rotation, lasting_s=60, spread=0.3, seed=7, draws=80) for _ in range(2)
    )
    assert one == other
    chances = [one.chance_done_by(seconds) for seconds in (40, 60, 80, 160)]
    assert chances == sorted(chances)
    assert chances[-1] == 1


def test_sessions_that_ran_over_make_ending_on_time_less_likely() -> None:
    rotation = a_rotation((10, 12, 9), (14, 8, 11), rounds=2, begins_at=(0, 1, 0))
    outlook = outlook_of(rotation, lasting_s=80, spread=0.3, seed=7, draws=80)
    chance = outlook.chance_done_by(80)
    assert outlook.chance_done_by(80, factors=(1.1, 1.2)) < chance
    assert outlook.chance_done_by(80, factors=(1.0,)) == chance


def test_a_course_has_a_round() -> None:
    with pytest.raises(InputError, match="0 rounds"):
        a_rotation((10, 10), rounds=0)
