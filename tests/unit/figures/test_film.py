"""Moving pictures: bones keep their length, planted feet stay, hands hold, balls fly and land."""

from __future__ import annotations

import gzip
import re
from functools import cache
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest

from tapeline.figures.asking import ask, can_draw
from tapeline.figures.film import A_SECOND, LONGEST_S, Moment, film_of
from tapeline.figures.flying import fallen, throw
from tapeline.figures.loops import loop_svg
from tapeline.figures.moves import MOVES
from tapeline.figures.placing import palm_thickness
from tapeline.figures.scene import ball_radius
from tests.unit.figures.measure import joint_angles, segment_lengths, slid
from tests.unit.figures.test_poses import limits_of

EVERY = pytest.mark.parametrize("name", MOVES)


@cache
def film(name: str) -> tuple[Moment, ...]:
    way = "on_foot" if can_draw(name) else "wheelchair"
    return film_of(ask(name, gets_about=way, age_years=5.0))


@EVERY
def test_segments_keep_their_length_in_every_picture(name):
    lengths = np.array([segment_lengths(moment.cast.child) for moment in film(name)])
    assert np.ptp(lengths, axis=0).max() < 0.05


@EVERY
def test_standing_feet_slide_at_most_half_a_centimetre(name):
    """A foot that stands at one place in both neighbouring poses stays there between them."""
    for one, other in pairwise(film(name)):
        for side in one.planted & other.planted:
            assert slid(one.cast.child, other.cast.child, side) <= 0.5


@EVERY
def test_a_held_ball_stays_within_half_a_centimetre_of_the_hand(name):
    for moment in film(name):
        child = moment.cast.child
        for side in moment.held:
            palm = child.limbs()[f"{side}_arm"].palm
            skins = [
                float(np.linalg.norm(palm - centre)) - ball_radius(ball.kind)
                for ball, centre in zip(moment.cast.frame.balls, moment.balls, strict=True)
            ]
            assert min(abs(skin - palm_thickness(child.body)) for skin in skins) <= 0.5


@EVERY
def test_joints_stay_near_what_children_can_do_on_the_way(name):
    """Between two poses inside the ranges nothing bends more than 8 degrees beyond them."""
    for moment in film(name):
        for joint, value in joint_angles(moment.cast.child).items():
            low, high = limits_of(joint)
            if joint.split()[0] in ("knee", "elbow", "hip", "ankle"):
                assert low - 8.0 <= value <= high + 8.0, (joint, round(value, 1))


@EVERY
def test_a_film_stops_within_five_seconds(name):
    assert len(film(name)) <= LONGEST_S * A_SECOND


def test_a_thrown_ball_flies_a_parabola():
    """g = 9.81 m/s², as everywhere on earth."""
    flight = throw(np.array([0.0, 0, 80]), np.array([150.0, 0, 20]), highest=110.0)
    times = np.linspace(0, flight.seconds, 40)
    heights = np.array([flight.at(t)[2] for t in times])
    ahead = np.array([flight.at(t)[0] for t in times])
    assert np.polyfit(times, heights, 2)[0] == pytest.approx(-981 / 2, rel=1e-6)
    assert np.polyfit(times, ahead, 1)[0] * flight.seconds == pytest.approx(150.0)
    assert heights[-1] == pytest.approx(20.0)
    assert heights.max() == pytest.approx(110.0, abs=0.5)


@pytest.mark.parametrize(("rise_m", "seconds"), [(0.5, 0.639), (1.0, 0.903)])
def test_a_lob_takes_the_time_physics_gives(rise_m, seconds):
    """A lob that rises 0.5 or 1.0 m and comes back: 0.639 and 0.903 s with g = 9.81."""
    level = np.array([0.0, 0, 60])
    flight = throw(level, level + np.array([100.0, 0, 0]), highest=60 + 100 * rise_m)
    assert flight.seconds == pytest.approx(seconds, abs=0.001)


def test_a_light_ball_falls_as_slowly_as_one_does():
    """1.2 m in 1.5 to 1.7 s, at most 1.2 to 1.4 m/s: drag and air in and around 2 to 4 g."""
    falls = [t / 100 for t in range(300) if fallen(t / 100) >= 120]
    assert 1.5 <= falls[0] <= 1.7
    assert 1.2 <= fallen(6.0) - fallen(5.0) <= 140
    assert 120 <= fallen(6.0) - fallen(5.0) <= 140


def test_a_ball_that_is_thrown_lands_in_the_box():
    last = film("throw_under")[-1]
    box = next(thing for thing in last.cast.frame.things if thing.kind == "box")
    ahead = box.at[0] * last.cast.child.body.stature
    assert abs(float(last.balls[0][0]) - ahead) < 5
    assert float(last.balls[0][2]) < 28


def test_a_crawling_child_gets_somewhere_and_never_back():
    ahead = [float(moment.cast.child.pelvis[0]) for moment in film("crawl")]
    assert ahead[-1] > ahead[0] + 20
    assert min(np.diff(ahead)) > -0.5


LOOPS = sorted({*list(MOVES)[::5], "carry_two", "crawl", "hand_over", "shake", "fasten"})


@pytest.mark.parametrize("name", LOOPS)
def test_a_loop_is_small_plays_once_and_heeds_reduced_motion(name):
    way = "on_foot" if can_draw(name) else "wheelchair"
    svg = loop_svg(name, gets_about=way)
    root = ElementTree.fromstring(svg)
    assert root.find("{http://www.w3.org/2000/svg}title").text
    assert len(gzip.compress(svg.encode())) < 40_000
    seconds, times = re.search(r"animation:f ([\d.]+)s steps\(\d+,jump-none\) (\w+)", svg).groups()
    assert float(seconds) <= 5.0
    assert times == "1"
    assert "prefers-reduced-motion:reduce" in svg
    names = re.findall(r'id="(p\d+)"', svg)
    assert len(names) == len(set(names))
    assert set(re.findall(r'href="#(p\d+)"', svg)) == set(names)


@pytest.mark.parametrize("name", ["march", "small_jump", "star_jump", "shake", "beat"])
def test_nothing_flashes_more_than_three_times_a_second(name):
    """No colour of a picture changes as a whole: the floor and the paper stay what they are.

    The most that changes from one picture to the next is where a body is.
    """
    svg = loop_svg(name)
    assert svg.count("<animate") == 0
    assert "opacity" not in svg
    assert len(re.findall("@keyframes", svg)) == 1
