"""Stations to scale: clear space, spacing, heights, devices, and what a home does not get."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.activities.loader import load_library
from tapeline.activities.models import Activity, Version
from tapeline.courses.bodies import Body, body_of
from tapeline.courses.spacing import gap_of, spacing_for
from tapeline.courses.station_heights import step_ceiling_cm
from tapeline.courses.station_plans import station_plans
from tapeline.courses.station_values import Player
from tapeline.courses.stations import BuiltStation, Refused, build_station
from tapeline.errors import InputError
from tests.builders import TODAY, a_child

LIBRARY = load_library()
COURSE = tuple(one for one in LIBRARY.activities.values() if "course" in one.uses)
BORN = {3: "2022-09", 4: "2021-09", 5: "2020-09", 6: "2019-09", 7: "2018-09"}


def a_body(years: int = 5, **fields: object) -> Body:
    """A body half way through a year of age, on foot."""
    return body_of(a_child(**{"id": f"y{years}", "born": BORN[years], **fields}), TODAY)


def version_of(activity: str, ending: str) -> Version:
    return LIBRARY.find_version(f"{activity}.{ending}")


def at(activity: str, ending: str, *bodies: Body) -> list[Player]:
    version = version_of(activity, ending)
    return [Player(body=body, version=version) for body in bodies or (a_body(),)]


def built(activity: str, players: list[Player], **fields: object) -> BuiltStation:
    found = build_station(LIBRARY.activities[activity], players, **fields)  # type: ignore[arg-type]
    assert isinstance(found, BuiltStation)
    return found


def able(activity: Activity, gets_about: str) -> list[Version]:
    return [one for one in activity.versions if gets_about in one.gets_about]


def test_every_activity_of_a_course_has_a_station_and_no_other() -> None:
    assert len(COURSE) >= 48
    assert set(station_plans()) == {activity.id for activity in COURSE}


@pytest.mark.parametrize("activity", COURSE, ids=lambda one: one.id)
@pytest.mark.parametrize("gets_about", ["on_foot", "walking_frame", "wheelchair", "splints"])
def test_every_version_has_a_station_that_holds_its_marks(
    activity: Activity, gets_about: str
) -> None:
    body = a_body(gets_about=gets_about)
    for version in able(activity, gets_about):
        station = built(activity.id, [Player(body=body, version=version)])
        size = station.station
        assert station.words
        for mark in station.marks:
            reach = 0 if mark.shape in ("line", "thing", "strip") else mark.size_cm // 2
            for point in mark.at:
                assert reach <= point.x <= size.length_cm - reach, (version.id, mark)
                assert 0 <= point.y <= size.width_cm, (version.id, mark)


@pytest.mark.parametrize("activity", COURSE, ids=lambda one: one.id)
def test_steps_named_for_marks_are_steps_of_the_skill(activity: Activity) -> None:
    skill = LIBRARY.skill_of(activity.id)
    assert skill is not None
    known = {step.id.partition(".")[2] for step in skill.steps}
    plan = station_plans()[activity.id]
    named = {*plan.high_steps, *plan.roll_steps, *plan.wall_steps}
    for mark in plan.marks:
        named |= {*mark.steps, *mark.far_cm}
    assert named <= known


@pytest.mark.parametrize("activity", COURSE, ids=lambda one: one.id)
def test_no_station_has_less_floor_beside_it_than_its_versions_ask(activity: Activity) -> None:
    for version in activity.versions:
        station = built(activity.id, [Player(body=a_body(), version=version)])
        clear = station.station.clear
        sides = {side: getattr(clear, side) for side in ("front", "back", "left", "right")}
        least = min(free for side, free in sides.items() if side not in station.station.wall)
        assert least >= version.clear_cm


# Source: safety notes after "Caring for Our Children", 6.2.3.1 (6 ft = 183 cm, borrowed from the
# playground); 1 m ahead of a jump and before a wall at home are common practice, no source.
def test_a_run_ends_six_feet_before_a_wall_in_a_hall_and_one_metre_at_home() -> None:
    players = at("post_run", "run_to_mark.usual")
    assert built("post_run", players).station.clear.front == 183
    assert built("post_run", players, where="home").station.clear.front == 100


def test_a_run_in_a_hallway_is_shortened_and_its_stop_zone_is_not() -> None:
    players = at("post_run", "run_to_mark.hallway")
    station = built("post_run", players, where="home", within_cm=(400, 110)).station
    assert station.clear.front == 100
    assert station.length_cm + station.clear.front + station.clear.back == 400


def test_a_jump_has_a_metre_ahead() -> None:
    assert built("rain_puddles", at("rain_puddles", "squares.usual")).station.clear.front == 100


def test_a_step_of_thirty_keeps_six_feet_all_round_and_is_refused_at_home() -> None:
    players = at("quiet_post", "alone.usual")
    clear = built("quiet_post", players, step_height_cm=30).station.clear
    assert min(clear.front, clear.back, clear.left, clear.right) >= 183
    refused = build_station(
        LIBRARY.activities["quiet_post"], players, where="home", step_height_cm=30
    )
    assert isinstance(refused, Refused)
    assert "183 cm" in refused.reason
    low = built("quiet_post", players, where="home", step_height_cm=10)
    assert low.station.clear.front >= 100


def test_the_next_child_waits_six_feet_from_what_is_climbed_on() -> None:
    players = at("on_the_ferry", "free.usual", a_body(4), a_body(6))
    station = built("on_the_ferry", players, half_width_cm=40)
    step = next(mark for mark in station.marks if mark.shape == "thing")
    assert min(point.x for point in step.at) + 40 >= 183
    alone = built("on_the_ferry", players[:1])
    assert alone.station.length_cm < station.station.length_cm


def test_what_is_thrown_ends_at_a_wall_or_has_its_own_distance_free_behind_the_target() -> None:
    station = built("toss_aboard", at("toss_aboard", "two_metres.usual"))
    assert station.station.wall == ("front",)
    assert station.station.clear.front == 0
    assert station.open_station is not None
    assert station.open_station.wall == ()
    assert station.open_station.clear.front >= 200
    assert min(station.station.clear.left, station.station.clear.right) >= 50


def test_each_distance_has_its_own_mark() -> None:
    players = [
        *at("toss_aboard", "half_metre.usual", a_body(4)),
        *at("toss_aboard", "two_metres.usual", a_body(7)),
    ]
    station = built("toss_aboard", players)
    strips = [mark for mark in station.marks if mark.shape == "strip"]
    assert sorted(station.station.length_cm - 60 - mark.at[0].x for mark in strips) == [50, 200]
    assert len({mark.pattern for mark in strips}) == 2


def test_an_adult_who_must_be_near_has_floor_to_stand_on() -> None:
    station = built("stream_marks", at("stream_marks", "alone.usual"))
    assert station.spotter == "right"
    assert station.station.clear.right >= 60
    assert built("quay_walk", at("quay_walk", "tape.usual")).spotter is None


def test_hands_on_a_wall_put_the_station_at_a_wall() -> None:
    station = built("stream_marks", at("stream_marks", "wall_hop.usual")).station
    assert station.wall == ("left",)
    assert station.clear.left == 0


def test_a_child_s_own_jump_comes_before_the_rule_of_thumb() -> None:
    own, none = a_body(5, jump_cm=40), a_body(5)
    assert gap_of(own, "jump").basis == "own"
    assert gap_of(own, "jump").most_cm == 30
    assert gap_of(none, "jump").basis == "rule_of_thumb"
    players = at("rain_puddles", "squares.usual", own)
    assert not built("rain_puddles", players).checks
    players = at("rain_puddles", "squares.usual", none)
    assert "rule of thumb" in built("rain_puddles", players).checks[0]


def test_one_foot_goes_less_far_than_two() -> None:
    for years in BORN:
        body = a_body(years)
        assert gap_of(body, "hop").most_cm < gap_of(body, "jump").most_cm


def test_a_footstep_is_half_a_stride() -> None:
    assert body_of(a_child(stride_cm=84), TODAY).own_footstep_cm == 42


def test_one_spacing_where_it_serves_all_else_two_patterns_else_a_fan() -> None:
    def spacing(*jumps: int) -> tuple[int, bool]:
        gaps = [gap_of(a_body(5, id=f"c{jump}", jump_cm=jump), "jump") for jump in jumps]
        found = spacing_for(gaps)
        return len(found.rows), found.is_fan

    assert spacing(50, 55) == (1, False)
    assert spacing(40, 60) == (2, False)
    assert spacing(40, 60, 90) == (2, True)


def test_every_child_of_a_row_can_jump_it() -> None:
    gaps = [gap_of(a_body(5, id=f"c{jump}", jump_cm=jump), "jump") for jump in (40, 45, 52, 58)]
    of_child = {gap.child: gap for gap in gaps}
    spacing = spacing_for(gaps)
    assert not spacing.is_fan
    assert sorted(child for row in spacing.rows for child in row.children) == sorted(of_child)
    for row in spacing.rows:
        for child in row.children:
            assert of_child[child].least_cm <= row.spacing_cm <= of_child[child].most_cm


def test_two_rows_are_told_apart_by_pattern_and_side() -> None:
    bodies = (a_body(5, id="a", jump_cm=40), a_body(5, id="b", jump_cm=62))
    station = built("rain_puddles", at("rain_puddles", "squares.usual", *bodies))
    boxes = [mark for mark in station.marks if mark.shape == "box"]
    assert {mark.pattern for mark in boxes} == {0, 1}
    assert len({mark.at[0].y for mark in boxes}) == 2
    sides = [int(word.rpartition(" cm from the right")[0].split()[-1]) for word in station.words]
    assert sides == sorted({mark.at[0].y for mark in boxes})


def test_the_step_is_a_ceiling_by_the_youngest_and_by_what_the_shortest_can_lift() -> None:
    older, younger = at("on_the_ferry", "free.usual", a_body(6), a_body(3))
    assert step_ceiling_cm([older]) == 15
    assert step_ceiling_cm([older, younger]) == 10
    assert step_ceiling_cm([younger], "landing_mat") == younger.body.highest_lift_cm < 30
    words = built("on_the_ferry", [older, younger]).heights[0].words
    assert "not a target" in words


def test_what_all_must_reach_is_capped_by_the_smallest_reach() -> None:
    players = at("weather_wall", "copy.usual", a_body(3), a_body(7))
    height = built("weather_wall", players).heights[0]
    assert height.at_most_cm == players[0].body.at_most("vertical_grip_reach")
    seated = at("weather_wall", "small.seated", a_body(6, gets_about="wheelchair"))
    assert built("weather_wall", seated).heights[0].at_most_cm == 101


def test_an_own_height_takes_the_place_of_the_range() -> None:
    own, unknown = a_body(5, height_cm=108), a_body(5)
    assert own.at_most("vertical_grip_reach") > unknown.at_most("vertical_grip_reach")
    assert own.at_least("vertical_grip_reach") < unknown.at_least("vertical_grip_reach")
    assert own.is_measured
    assert not unknown.is_measured


def test_who_lies_across_has_room_for_long_arms() -> None:
    players = at("cup_wall", "one.usual", a_body(7))
    assert built("cup_wall", players).station.width_cm >= 1.17 * players[0].body.tallest_cm + 40


# Source: UFAS 4.3.3 (915 mm wide) and ADA 304.3.1 (1525 mm to turn), US federal rules.
def test_a_wheelchair_has_its_width_and_its_turning_circle() -> None:
    body = a_body(6, gets_about="wheelchair")
    line = built("quay_walk", at("quay_walk", "tape.seated", body)).station
    assert line.width_cm >= 92
    toss = built("toss_aboard", at("toss_aboard", "one_metre.seated", body)).station
    assert min(toss.width_cm, toss.length_cm) >= 153


def test_her_own_measure_of_the_device_comes_first() -> None:
    body = a_body(6, gets_about="wheelchair", device_width_cm=56, turning_cm=120)
    assert body.lane_cm == 86
    station = built("quay_walk", at("quay_walk", "tape.seated", body))
    assert any("76 cm apart" in word for word in station.words)
    assert built("toss_aboard", at("toss_aboard", "drop.seated", body)).station.width_cm == 120


def test_a_short_floor_at_home_has_fewer_marks_at_the_same_spacing() -> None:
    players = at("stream_marks", "line.usual", a_body(5, hop_cm=50))
    wide = built("stream_marks", players, where="home")
    short = built("stream_marks", players, where="home", within_cm=(150, 150))
    assert short.station.length_cm <= 150 < wide.station.length_cm
    xs, others = (sorted(mark.at[0].x for mark in one.marks) for one in (wide, short))
    assert len(others) < len(xs)
    assert others[1] - others[0] == xs[1] - xs[0]


def test_lanes_lie_side_by_side_as_far_apart_as_each_keeps_free() -> None:
    players = at("toss_aboard", "one_metre.usual")
    one, two = (built("toss_aboard", players, lanes=lanes) for lanes in (1, 2))
    free = max(one.station.clear.left, one.station.clear.right)
    assert two.station.width_cm == 2 * one.station.width_cm + free
    assert two.station.clear == one.station.clear
    assert len(two.marks) == 2 * len(one.marks)
    assert "2 lanes" in two.words[0]


def test_lanes_at_a_wall_lie_along_it() -> None:
    players = at("weather_wall", "copy.usual")
    one, two = (built("weather_wall", players, lanes=lanes) for lanes in (1, 2))
    assert two.station.width_cm == one.station.width_cm
    assert two.station.length_cm > 2 * one.station.length_cm


def test_an_activity_of_her_own_keeps_the_space_of_what_it_touches() -> None:
    own = replace(LIBRARY.activities["toss_aboard"], id="her_own")
    version = version_of("toss_aboard", "one_metre.usual")
    found = build_station(own, [Player(body=a_body(), version=version)])
    assert isinstance(found, BuiltStation)
    assert found.station.is_throw
    assert found.station.wall == ("front",)


def test_a_station_without_children_is_no_station() -> None:
    with pytest.raises(InputError, match="Nobody"):
        build_station(LIBRARY.activities["quay_walk"], [])
