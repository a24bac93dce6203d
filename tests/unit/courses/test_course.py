"""A course laid out: its file, its rules at the edges, its tape list, and why one does not fit."""

from __future__ import annotations

import json
import subprocess
import sys
from math import hypot, radians, sin
from pathlib import Path
from typing import Any

import pytest

from tapeline.courses.course import bound_cm, lay_out_course
from tapeline.courses.course_file import course_json, read_course_file
from tapeline.courses.misfit import longest_free
from tapeline.courses.shapes import Point
from tapeline.courses.tape_list import off_by, tape_list
from tapeline.errors import InputError

ROOT = Path(__file__).parents[3]


def a_station(name: str = "line", **changes: Any) -> dict[str, Any]:
    return {
        "id": name, "length": 200, "width": 30,
        "clear": {"front": 40, "back": 40, "left": 30, "right": 30},
        "wall": None, "sight": None, "throw": False, **changes,
    }  # fmt: skip


def a_room(*stations: dict[str, Any], **changes: Any) -> dict[str, Any]:
    """An L of seven by six metres with a door, a cupboard and a bench."""
    return {
        "room": [[0, 0], [700, 0], [700, 350], [400, 350], [400, 600], [0, 600]],
        "doors": [{"from": [100, 0], "to": [190, 0], "swing": "in"}],
        "furniture": [
            {"name": "cupboard", "polygon": [[640, 200], [700, 200], [700, 350], [640, 350]]},
            {
                "name": "bench", "movable": True,
                "polygon": [[300, 500], [400, 500], [400, 600], [300, 600]],
            },
        ],
        "no_go": [], "adults": [{"x": 350, "y": 250}],
        "stations": list(stations) or [a_station()],
        "start": [145, 20], "end": {"x": 145, "y": 20}, "route_half_width": 30, "seed": 3,
        **changes,
    }  # fmt: skip


def laid(*stations: dict[str, Any], **changes: Any) -> Any:
    asked = read_course_file(json.dumps(a_room(*stations, **changes)))
    return lay_out_course(asked.room, asked.stations, locked=asked.locked, seed=asked.seed)


THREE = (
    a_station(),
    a_station("toss", length=60, width=60, wall=["front"], sight="sight", throw=True),
    a_station("tunnel", length=150, width=60, sight="beside"),
)


@pytest.fixture(scope="module")
def course() -> Any:
    """The three stations, laid out once."""
    return laid(*THREE)


def test_the_same_room_gives_the_same_course(course: Any) -> None:
    assert course_json(laid(*THREE)) == course_json(course)


def test_every_station_is_walked_once_and_the_walk_is_as_long_as_it_says(course: Any) -> None:
    assert sorted(course.order) == ["line", "toss", "tunnel"]
    around = zip(course.route, course.route[1:], strict=False)
    walked = sum(hypot(a.x - b.x, a.y - b.y) for a, b in around)
    assert course.walk_cm - 1 < walked <= course.walk_cm
    assert course.bound_cm <= course.walk_cm
    assert course.route[0] == course.route[-1] == (145, 20)


def test_a_locked_station_stays_and_the_others_go_round_it() -> None:
    stands = {"line": {"x": 300, "y": 150, "turn": 0}}
    course = laid(*THREE[:2], locked=stands)
    (line,) = [one.stand for one in course.stations if one.stand.station == "line"]
    assert (line.x, line.y, line.turn) == (300, 150, 0)


def test_the_tape_list_has_four_marks_a_station_and_its_distances_lead_to_them(
    course: Any,
) -> None:
    asked = read_course_file(json.dumps(a_room(*THREE)))
    from tapeline.courses.tape_list import anchors_of, marks_of

    at = {anchor.name: anchor.at for anchor in anchors_of(asked.room)}
    marks = dict(pair for one in course.stations for pair in marks_of(one))
    assert [tape.mark for tape in course.tape] == list(marks)
    for tape in course.tape:
        for anchor, cm in ((tape.from_a, tape.cm_a), (tape.from_b, tape.cm_b)):
            mark, hook = marks[tape.mark], at[anchor]
            assert hypot(mark.x - hook.x, mark.y - hook.y) == pytest.approx(cm, abs=0.051)
        assert tape.off_by_cm <= 2.5


@pytest.mark.parametrize(("degrees", "off"), [(90, 1.414), (60, 2.0), (120, 2.0), (30, 3.864)])
def test_how_far_off_a_mark_is_follows_the_angle_of_the_tapes(degrees: int, off: float) -> None:
    """Worked by hand: 1 / sin of half the sharper angle."""
    far = 100_000
    a = Point(far, 0)
    from math import cos

    b = Point(round(far * cos(radians(degrees))), round(far * sin(radians(degrees))))
    assert off_by(a, b, Point(0, 0)) == pytest.approx(off, abs=0.03)


def test_marks_are_named_in_the_stations_own_frame() -> None:
    course = laid(a_station(), locked={"line": {"x": 300, "y": 100, "turn": 1}})
    from tapeline.courses.tape_list import marks_of

    marks = dict(marks_of(course.stations[0]))
    assert marks["line.back_left"] == (300, 100)
    assert marks["line.front_left"] == (300, 300)
    assert marks["line.front_right"] == (330, 300)
    assert marks["line.back_right"] == (330, 100)


def test_what_cannot_fit_is_said_with_numbers_and_with_remedies_that_were_tried() -> None:
    course = laid(a_station(length=690), a_station("tunnel", length=100, width=60))
    assert course.status == "proved impossible"
    assert course.reasons[0] == (
        "line needs 770 × 90 cm clear; the longest free stretch 90 cm wide is 697 cm."
    )
    assert course.reasons[1:] == ("It fits without line.",)


def test_the_longest_free_stretch_is_found_by_hand_too() -> None:
    asked = read_course_file(json.dumps(a_room()))
    assert longest_free(asked.room, 90) in range(695, 701)  # between door and cupboard
    assert longest_free(asked.room, 230) in range(635, 641)  # before the cupboard


def test_furniture_that_could_be_moved_is_offered_only_where_it_helps() -> None:
    beds = [
        {"name": "bed", "movable": True, "polygon": [[200, 0], [300, 0], [300, 500], [200, 500]]}
    ]
    course = laid(
        a_station(length=300, width=300), room=[[0, 0], [500, 0], [500, 500], [0, 500]],
        furniture=beds, doors=[], start=[50, 50], end=[50, 50], adults=[],
    )  # fmt: skip
    assert course.status != "placed"
    assert "It fits with bed moved out." in course.reasons


def test_corners_may_run_either_way_round() -> None:
    square = [[0, 0], [0, 400], [600, 400], [600, 0]]
    words = {
        "furniture": [], "adults": [], "start": [60, 200], "end": [540, 200],
        "doors": [{"from": [0, 20], "to": [0, 100], "swing": "in"}],
    }  # fmt: skip
    one, other = laid(room=square, **words), laid(room=square[::-1], **words)
    assert one.status == other.status == "placed"
    assert one.stations == other.stations


def test_no_course_is_shorter_than_the_bound() -> None:
    asked = read_course_file(json.dumps(a_room(*THREE)))
    assert bound_cm(asked.room, asked.stations) >= 200 + 60 + 150 + 60


def test_the_bound_knows_how_far_away_the_floor_for_a_station_is() -> None:
    """By hand: 250 cm square fit only beyond 1500 cm; 30 cm before it are 1370 cm from the start."""
    text = json.dumps(
        a_room(
            a_station("toss", length=250, width=250, clear={}, throw=True),
            room=[[0, 0], [2000, 0], [2000, 300], [0, 300]],
            no_go=[[[200, 0], [1500, 0], [1500, 180], [200, 180]]],
            furniture=[], doors=[], adults=[], start=[100, 150], end=[100, 150],
        )
    )  # fmt: skip
    asked = read_course_file(text)
    assert 2700 < bound_cm(asked.room, asked.stations) <= 2 * 1370


def test_a_room_of_one_station_alone_can_be_proved_shortest() -> None:
    course = laid(
        a_station(), room=[[0, 0], [600, 0], [600, 300], [0, 300]], furniture=[], doors=[],
        start=[100, 150], end=[500, 150], adults=[], locked={"line": {"x": 200, "y": 135, "turn": 0}},
    )  # fmt: skip
    assert course.walk_cm == 400
    assert course.is_shortest


BAD = [
    ({"room": [[0, 0], [400, 400], [400, 0], [0, 400]]}, "The room's walls cross or touch"),
    ({"room": [[0, 0], [7, 0], [7, 6], [0, 6]]}, "The room is 7 × 6 cm. Were these metres?"),
    ({"room": [[0, 0], [700, 0]]}, "The room has 2 corners."),
    ({"room": [[0, 0], [90_000, 0], [90_000, 500], [0, 500]]}, "The room is 90000 cm long"),
    ({"doors": [{"from": [100, 50], "to": [190, 50]}]}, "Door 1 from 100, 50 to 190, 50 is on no"),
    (
        {"furniture": [{"name": "piano", "polygon": [[650, 0], [750, 0], [750, 90]]}]},
        "piano stands outside the room",
    ),
    ({"adults": [[660, 300]]}, "The adult 1 at 660, 300 is inside cupboard."),
    ({"start": [900, 20]}, "The start at 900, 20 is outside the room."),
    ({"stations": []}, "The course has no station."),
    ({"stations": [a_station(f"s{n}") for n in range(30)]}, "The course has 30 stations."),
    ({"stations": [a_station(), a_station()]}, "Two stations are called line."),
    ({"stations": [a_station(length=2.5)]}, "'length' is 2.5."),
    ({"stations": [a_station(sight="near")]}, "Station line has sight 'near'."),
    ({"stations": [a_station(wall=["top"])]}, "Station line has a wall on its 'top'."),
    ({"locked": {"beam": {"x": 1, "y": 1, "turn": 0}}}, "'beam' is locked"),
    ({"locked": {"line": {"x": 0, "y": 0, "turn": 0}}}, "line is locked at 0, 0"),
    (
        {
            "stations": [a_station(throw=True, clear={"front": 400})],
            "locked": {"line": {"x": 200, "y": 150, "turn": 0}},
        },
        "line is locked at 200, 150",
    ),
    ({"route_half_width": "wide"}, "'route_half_width' is 'wide'."),
]


@pytest.mark.parametrize(("changes", "sentence"), BAD)
def test_each_bad_room_gets_one_sentence(changes: dict[str, Any], sentence: str) -> None:
    with pytest.raises(InputError) as refused:
        laid(**changes)
    assert str(refused.value).startswith(sentence)


@pytest.mark.parametrize("text", ["", "[]", "{", '{"stations": []}'])
def test_a_file_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(InputError):
        read_course_file(text)


def test_the_script_needs_no_django(tmp_path: Path) -> None:
    room, out = tmp_path / "room.json", tmp_path / "out.json"
    room.write_text(json.dumps(a_room()), encoding="utf-8")
    script = ROOT / "scripts" / "course_from_json.py"
    program = (
        "import runpy, sys; sys.modules['django'] = None; "
        f"sys.argv = ['course', {str(room)!r}, {str(out)!r}]; "
        f"runpy.run_path({str(script)!r}, run_name='__main__')"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert json.loads(out.read_text(encoding="utf-8"))["status"] == "placed"


def test_a_mark_no_tape_reaches_is_named() -> None:
    asked = read_course_file(
        json.dumps(
            a_room(
                room=[[0, 0], [9000, 0], [9000, 9000], [0, 9000]], furniture=[], doors=[],
                locked={"line": {"x": 4500, "y": 4500, "turn": 0}},
            )
        )
    )  # fmt: skip
    from tapeline.courses.laid import standing

    one = standing(asked.stations[0], asked.locked["line"], asked.room)
    found, out_of_reach = tape_list(asked.room, [one])
    assert found == ()
    assert out_of_reach[0] == "line.back_left"
