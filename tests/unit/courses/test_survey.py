"""A room from its walls: it closes, or the sentence says by how much and what to measure again.

Lengths of diagonals are Pythagorean triples (3-4-5, 5-12-13, 8-15-17) and the law of cosines,
as in any table of them; no figure comes from the program.
"""

from __future__ import annotations

from math import dist, hypot

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from tapeline.courses.presets import measuring, presets
from tapeline.courses.real_room import course_room, free_rectangle
from tapeline.courses.survey import Diagonal, Wall, survey, walls_of
from tapeline.errors import InputError
from tests.builders import a_room

SLOW_MACHINE = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])


def walls(*lengths: int) -> tuple[Wall, ...]:
    """Square corners, all to the right."""
    return tuple(Wall(length_cm=length) for length in lengths)


def test_four_walls_are_a_rectangle_with_the_first_wall_on_top() -> None:
    found = survey(walls(800, 600, 800, 600), diagonal=Diagonal(start=1, end=3, length_cm=1000))
    assert found.corners == ((0, 600), (800, 600), (800, 0), (0, 0))
    assert found.missed_cm == 0


def test_a_left_turn_makes_an_angle() -> None:
    turned = (
        Wall(length_cm=900), Wall(length_cm=400), Wall(length_cm=400, turn="left"),
        Wall(length_cm=300), Wall(length_cm=500), Wall(length_cm=700),
    )  # fmt: skip
    assert survey(turned).corners == (
        (0, 700), (900, 700), (900, 300), (500, 300), (500, 0), (0, 0),
    )  # fmt: skip


def test_a_corner_that_is_not_square_is_known_by_the_distance_across() -> None:
    three = (
        Wall(length_cm=300, across_cm=500), Wall(length_cm=400, across_cm=300),
        Wall(length_cm=500),
    )  # fmt: skip
    assert survey(three).corners == ((0, 400), (300, 400), (300, 0))  # 3-4-5: square after all


def test_equal_sides_across_are_the_corner_of_an_equal_triangle() -> None:
    found = survey(tuple(Wall(length_cm=400, across_cm=400) for _ in range(3)))
    assert found.corners == ((0, 346), (400, 346), (200, 0))  # 400 × √3 / 2 = 346.4


def test_walls_that_miss_by_little_are_spread_and_corners_stay_square() -> None:
    found = survey(walls(800, 600, 803, 600))
    assert found.missed_cm == 3
    (a, b, c, d) = found.corners
    assert (a[1], c[1], b[0], d[0]) == (b[1], d[1], c[0], a[0])
    assert 800 <= b[0] - a[0] <= 803


def test_walls_that_do_not_close_say_by_how_much_and_which_to_measure() -> None:
    with pytest.raises(InputError, match=r"The walls miss each other by 14 cm\.") as caught:
        survey(walls(800, 600, 814, 600))
    assert "Measure walls 1 and 3 again. A diagonal would tell which of them it is." in str(
        caught.value
    )


@pytest.mark.parametrize(
    ("diagonal", "wrong"), [((1, 3), "wall 3"), ((2, 4), "wall 1")]
)  # 1000 cm fit walls of 800 and 600
def test_a_diagonal_tells_which_wall_is_wrong(diagonal: tuple[int, int], wrong: str) -> None:
    measured = Diagonal(start=diagonal[0], end=diagonal[1], length_cm=1000)
    lengths = (800, 600, 814, 600) if wrong == "wall 3" else (814, 600, 800, 600)
    with pytest.raises(InputError, match=f"Measure {wrong} again: the others close with 800 cm"):
        survey(walls(*lengths), diagonal=measured)


def test_walls_of_which_no_one_explains_it_say_so() -> None:
    with pytest.raises(InputError, match="No one wall explains it"):
        survey(walls(800, 600, 830, 640))


def test_a_diagonal_that_does_not_fit_asks_after_square_corners() -> None:
    with pytest.raises(InputError, match=r"is 1060 cm; these walls make it 1000 cm") as caught:
        survey(walls(800, 600, 800, 600), diagonal=Diagonal(start=1, end=3, length_cm=1060))
    assert caught.value.field == "diagonal"


@pytest.mark.parametrize(("start", "end"), [(1, 2), (1, 4), (3, 3), (0, 2), (1, 5)])
def test_what_is_no_diagonal_is_refused(start: int, end: int) -> None:
    with pytest.raises(InputError, match=r"no diagonal|no corner"):
        survey(walls(800, 600, 800, 600), diagonal=Diagonal(start=start, end=end, length_cm=9))


@pytest.mark.parametrize("across", [200, 1400, 2000])
def test_a_distance_across_that_cannot_be_is_refused(across: int) -> None:
    bent = (Wall(length_cm=800, across_cm=across), *walls(600, 800, 600))
    with pytest.raises(InputError, match="it must be between 200 and 1400 cm"):
        survey(bent)


def test_walls_that_cross_are_named() -> None:
    crossing = (
        *walls(600, 400, 400),
        Wall(length_cm=600, turn="left"),
        Wall(length_cm=200, turn="left"),
        Wall(length_cm=200),
    )
    with pytest.raises(InputError, match=r"Wall 1 and wall 4 cross or touch\."):
        survey(crossing)


@pytest.mark.parametrize("count", [0, 1, 2])
def test_a_room_has_three_walls(count: int) -> None:
    with pytest.raises(InputError, match=f"The room has {count} walls"):
        survey(walls(*[300] * count))


@st.composite
def stars(draw: st.DrawFn) -> tuple[tuple[int, int], ...]:
    """Corners one after the other around a middle, so that no walls cross."""
    from math import cos, radians, sin

    count = draw(st.integers(3, 8))
    angles = [360 * (n + draw(st.floats(0.1, 0.7))) / count for n in range(count)]
    reach = [draw(st.integers(250, 900)) for _ in range(count)]
    return tuple(
        (round(r * cos(radians(-a))), round(r * sin(radians(-a))))
        for a, r in zip(angles, reach, strict=True)
    )


@SLOW_MACHINE
@given(corners=stars())
def test_measured_walls_give_the_room_back(corners: tuple[tuple[int, int], ...]) -> None:
    """Any room, measured to the centimetre: every distance between two corners comes back."""
    measured = walls_of(corners)
    assume(
        all(
            wall.across_cm is None
            or abs(wall.length_cm - after.length_cm) + 60
            < wall.across_cm
            < wall.length_cm + after.length_cm - 60
            for wall, after in zip(measured, (*measured[1:], measured[0]), strict=True)
        )
    )
    try:
        found = survey(measured).corners
    except InputError as error:
        assume("miss each other" not in str(error))
        raise
    for one in range(len(corners)):
        for other in range(one):
            assert abs(dist(found[one], found[other]) - dist(corners[one], corners[other])) < 12


@SLOW_MACHINE
@given(a=st.integers(100, 3000), b=st.integers(100, 3000), off=st.integers(6, 90))
def test_one_wrong_wall_of_a_rectangle_is_found_by_a_diagonal(a: int, b: int, off: int) -> None:
    diagonal = Diagonal(start=1, end=3, length_cm=round(hypot(a, b)))
    with pytest.raises(InputError, match=f"miss each other by {off} cm") as caught:
        survey(walls(a, b, a, b + off), diagonal=diagonal)
    assert "wall 4" in str(caught.value) or "and 4" in str(caught.value)


@pytest.mark.parametrize("name", list(presets()))
def test_a_room_to_begin_with_is_a_room(name: str) -> None:
    preset = presets()[name]
    room = a_room(
        corners=preset.walls,
        doors=preset.doors,
        furniture=preset.furniture,
        adults=preset.adults,
    )
    assert min(free_rectangle(course_room(room))) >= 150
    assert survey(walls_of(preset.walls)).corners == preset.walls


def test_figures_of_measuring_are_whole_centimetres() -> None:
    rules = measuring()
    assert rules.miss_a_wall == 1
    assert set(rules.ask_below) == {"wall", "door", "thing"}


def test_walls_lie_where_they_lay_whichever_way_the_first_one_runs() -> None:
    corners = ((250, 80), (250, 680), (1050, 680), (1050, 80))
    found = survey(walls_of(corners), heading=(0, 600), lowest=(250, 80))
    assert found.corners == corners


def test_a_diagonal_that_fits_no_wall_is_measured_again_as_well() -> None:
    with pytest.raises(InputError, match="The diagonal fits none of them") as caught:
        survey(walls(800, 600, 814, 600), diagonal=Diagonal(start=1, end=3, length_cm=700))
    assert "walls 1 and 3" in str(caught.value)
