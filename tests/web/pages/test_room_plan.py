"""A room's drawing: walls by typing and by corners, things added, moved, taken out, each checked."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.places import Furniture, Room, RoomDoor
from tapeline.errors import InputError, ManyFaults
from tapeline.web.selectors.sites import site_of
from tapeline.web.services.exchange import caseload_import
from tapeline.web.services.places import site_save
from tests.web.pages.filled import fault_at, form_on, send, words_of
from tests.web.pages.test_every_page import CHECKS

pytestmark = pytest.mark.django_db
HALL = "/sites/quay/rooms/hall/"
PLAN, WALLS = f"{HALL}plan/", f"{HALL}walls/"
CORNERS = ((0, 0), (900, 0), (900, 600), (0, 600))
PIANO = Furniture(name="piano", polygon=((750, 450), (900, 450), (900, 600), (750, 600)))
MAIN = re.compile(r"<main.*</main>", re.DOTALL)


def hall() -> Room:
    return site_of("quay").rooms[0]


@pytest.fixture
def drawn(on_file: Caseload) -> Room:
    """The hall with a door, a piano, a pillar, a no-go and a place to stand."""
    site = site_of("quay")
    room = replace(
        site.rooms[0],
        corners=CORNERS,
        doors=(RoomDoor(start=(0, 200), end=(0, 290)),),
        furniture=(PIANO,),
        pillars=(((400, 300), (430, 300), (430, 330), (400, 330)),),
        no_go=(((0, 500), (100, 500), (100, 600), (0, 600)),),
        adults=((500, 200),),
    )
    site_save(site=replace(site, rooms=(room,)))
    return room


@pytest.mark.parametrize(
    "address",
    [
        PLAN, f"{PLAN}?add=doors", f"{PLAN}?add=furniture", f"{PLAN}?add=pillars",
        f"{PLAN}?add=no_go", f"{PLAN}?add=adults", f"{PLAN}?thing=doors-0",
        f"{PLAN}?thing=furniture-0", f"{PLAN}?thing=furniture-1", f"{PLAN}?thing=no_go-0",
        f"{PLAN}?thing=adults-0", WALLS, HALL,
    ],
)  # fmt: skip
def test_what_holds_on_every_page_of_a_drawing(browser: Client, drawn: Room, address: str) -> None:
    answer = browser.get(address)
    assert answer.status_code == 200
    for check in CHECKS:
        check(MAIN.search(answer.content.decode())[0])


def test_a_room_nobody_has_drawn_is_shown_as_its_rectangle(
    browser: Client, on_file: Caseload
) -> None:
    said = words_of(browser.get(PLAN))
    assert "Nobody has drawn this room yet." in said
    assert "12 m × 8 m" in said


def test_walls_are_typed_one_after_the_other(browser: Client, on_file: Caseload) -> None:
    page = browser.get(WALLS)
    assert page.status_code == 200
    typed = {
        "wall__0__length_cm": "9 m", "wall__1__length_cm": "400", "wall__2__length_cm": "400",
        "wall__2__turn": "left", "wall__3__length_cm": "300",
    }  # fmt: skip
    more = {
        "wall-count": "6", "wall-4-length_cm": "500", "wall-4-turn": "right",
        "wall-5-length_cm": "700", "wall-5-turn": "right", "start": "1", "end": "3",
        "diagonal_cm": "985",
    }  # fmt: skip
    answer = send(browser, WALLS, **typed, **{key.replace("-", "__"): more[key] for key in more})
    assert answer.status_code == 302, words_of(answer)
    assert hall().corners == ((0, 700), (900, 700), (900, 300), (500, 300), (500, 0), (0, 0))
    assert (hall().length_cm, hall().width_cm) == (900, 400)
    assert hall().things == site_of("quay").rooms[0].things != ()


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (
            {"wall__2__length_cm": "1214"},
            "The walls miss each other by 14 cm. Measure walls 1 and 3",
        ),
        (
            {"wall__2__length_cm": "1214", "diagonal_cm": "1442"},
            "Measure wall 3 again: the others close with 1200 cm.",
        ),
        ({"diagonal_cm": "1500"}, "is 1500 cm; these walls make it 1442 cm"),
        ({"wall__0__length_cm": "12"}, "Wall 1 is 12 cm long. Were these metres?"),
        ({"wall__0__length_cm": ""}, "The wall has no length."),
        ({"wall__0__turn": "right_across"}, "After wall 1 the corner is not square. Measure from"),
        (
            {"wall__0__turn": "right_across", "wall__0__across_cm": "3000"},
            "it must be between 400 and 2000 cm",
        ),
        ({"wall__1__turn": "left"}, "The walls miss each other by"),
        ({"wall__3__gone": "on", "wall__2__gone": "on"}, "The room has 2 walls."),
    ],
)
def test_bad_walls_are_answered_with_a_sentence(
    browser: Client, on_file: Caseload, typed: dict[str, str], sentence: str
) -> None:
    answer = send(browser, WALLS, **typed)
    assert answer.status_code == 422
    assert sentence in words_of(answer)
    assert not hall().is_drawn


def test_a_short_wall_is_taken_once_she_says_it_is_right(
    browser: Client, on_file: Caseload
) -> None:
    corners = "0 600\n800 600\n800 15\n785 15\n785 0\n0 0"
    assert send_corners(browser, corners).status_code == 302
    assert "Were these metres?" in words_of(send(browser, WALLS))
    assert send(browser, WALLS, sure="on").status_code == 302


def send_corners(browser: Client, corners: str, **more: str):
    return browser.post(WALLS, {"by_corners": "1", "corners": corners, **more})


def test_corners_are_typed_or_clicked(browser: Client, on_file: Caseload) -> None:
    assert send_corners(browser, "0 0\n[700, 0]\n700;500\n0,500\n0 0").status_code == 302
    assert hall().corners == ((0, 0), (700, 0), (700, 500), (0, 500))


def test_untouched_walls_are_saved_as_they_were_wherever_the_room_lies(
    browser: Client, drawn: Room
) -> None:
    site = site_of("quay")
    turned = tuple((x + 70, y + 40) for x, y in (*CORNERS[3:], *CORNERS[:3]))
    room = replace(
        drawn, corners=turned, doors=(), furniture=(), no_go=(), pillars=(), adults=((500, 200),)
    )
    site_save(site=replace(site, rooms=(room,)))
    for place in (0, 1):
        page = browser.get(WALLS)
        assert browser.post(WALLS, form_on(page, place=place)).status_code == 302
        assert (hall().corners, hall().adults) == (turned, ((500, 200),))


@pytest.mark.parametrize(
    ("corners", "sentence"),
    [
        ("0 0\n700 500\n700 0\n0 500", "The room's walls cross or touch each other."),
        ("0 0\n700 0\nhere", "Line 3 is “here”."),
        ("0 0\n700 0", "There are 2 corners."),
        ("0 0\n3 0\n3 3\n0 3", "The room is 3 × 3 cm. Were these metres?"),
        ("0 0\n90000 0\n90000 60000\n0 60000", "The room is 90000 cm long"),
        ("", "No corner was given."),
    ],
)
def test_bad_corners_are_answered_with_a_sentence(
    browser: Client, on_file: Caseload, corners: str, sentence: str
) -> None:
    answer = send_corners(browser, corners)
    assert answer.status_code == 422
    assert sentence in fault_at(answer, "corners")
    assert not hall().is_drawn


def test_new_walls_that_leave_a_thing_outside_ask_before_it_is_taken_out(
    browser: Client, drawn: Room
) -> None:
    smaller = "0 0\n700 0\n700 600\n0 600"
    answer = send_corners(browser, smaller)
    assert "piano stands outside the room" in words_of(answer)
    assert hall().furniture == (PIANO,)
    answer = send_corners(browser, smaller, take_out="on")
    assert answer.status_code == 302
    assert hall().furniture == ()
    assert hall().doors == drawn.doors
    assert "1 thing was taken out." in words_of(browser.get(PLAN))


def add(browser: Client, kind: str, **typed: str):
    return browser.post(PLAN, {"do": "save", "add": kind, "wall": "0", **typed})


def test_each_kind_of_thing_is_added_by_typing(browser: Client, on_file: Caseload) -> None:
    size = {"length_cm": "150", "width_cm": "60"}
    for answer in (
        add(browser, "doors", wall="2", along_cm="100", width_cm="90", hinges="last", swing="in"),
        add(browser, "furniture", name="shelf", wall="1", along_cm="1 m", off_cm="0", **size),
        add(browser, "pillars", along_cm="600", off_cm="400", length_cm="30", width_cm="30"),
        add(browser, "no_go", wall="3", along_cm="0", off_cm="0", **size),
        add(browser, "adults", along_cm="400", off_cm="300"),
    ):
        assert answer.status_code == 302, words_of(answer)
    room = hall()
    assert room.doors == (RoomDoor(start=(1200, 190), end=(1200, 100), swing="in"),)
    assert room.furniture[0].polygon == ((100, 0), (250, 0), (250, 60), (100, 60))
    assert room.pillars == (((600, 400), (630, 400), (630, 430), (600, 430)),)
    assert room.adults == ((400, 300),)
    assert room.corners == ((0, 0), (1200, 0), (1200, 800), (0, 800))


@pytest.mark.parametrize(
    ("kind", "typed", "sentence"),
    [
        (
            "doors",
            {"wall": "2", "along_cm": "550", "width_cm": "90", "hinges": "first", "swing": "in"},
            "would end 640 cm along wall 2, which is 600 cm long",
        ),
        (
            "doors",
            {"wall": "2", "along_cm": "5", "width_cm": "1", "hinges": "first", "swing": "in"},
            "It is 1 cm long. Were these metres?",
        ),
        (
            "furniture",
            {
                "name": "shelf",
                "along_cm": "800",
                "off_cm": "0",
                "length_cm": "150",
                "width_cm": "40",
            },
            "shelf stands outside the room",
        ),
        (
            "furniture",
            {"name": "sofa", "along_cm": "300", "off_cm": "50", "length_cm": "2", "width_cm": "1"},
            "sofa is 2 cm long. Were these metres?",
        ),
        ("furniture", {"name": "", "along_cm": "1"}, "It has no name."),
        (
            "adults",
            {"along_cm": "800", "off_cm": "500"},
            "at 800, 500 is inside piano",
        ),
        ("adults", {"along_cm": "950", "off_cm": "500"}, "at 950, 500 is outside the room"),
        (
            "no_go",
            {"along_cm": "0", "off_cm": "95", "length_cm": "900", "width_cm": "505"},
            "The largest free rectangle of floor would be 900 × 95 cm",
        ),
    ],
)
def test_a_thing_that_cannot_be_is_answered_with_a_sentence(
    browser: Client, drawn: Room, kind: str, typed: dict[str, str], sentence: str
) -> None:
    answer = add(browser, kind, **typed)
    assert answer.status_code == 422
    assert sentence in words_of(answer)
    before = replace(drawn, length_cm=hall().length_cm, width_cm=hall().width_cm)
    assert hall() == before


def test_a_thing_moves_by_a_button_and_back(browser: Client, drawn: Room) -> None:
    step = {"do": "move", "thing": "furniture-0"}
    assert browser.post(PLAN, {**step, "right": "-10"}).status_code == 302
    assert hall().furniture[0].polygon[0] == (740, 450)
    browser.post(PLAN, {**step, "right": "10"})
    assert hall().furniture == drawn.furniture
    answer = browser.post(PLAN, {**step, "up": "10"})
    assert "piano stands outside the room" in words_of(answer)
    assert hall().furniture == drawn.furniture


def test_a_thing_is_changed_where_it_stands(browser: Client, drawn: Room) -> None:
    answer = send_thing(browser, "furniture-0", name="old piano", length_cm="120")
    assert answer.status_code == 302, words_of(answer)
    assert hall().furniture[0].name == "old piano"
    assert hall().furniture[0].polygon[1] == (870, 450)


def send_thing(browser: Client, key: str, **typed: str):
    page = browser.get(f"{PLAN}?thing={key}")
    values = dict(form_on(page, place=1))
    return browser.post(PLAN, {**values, **typed})


@pytest.mark.parametrize("key", ["doors-0", "furniture-0", "furniture-1", "no_go-0", "adults-0"])
def test_an_untouched_thing_is_saved_as_it_was(browser: Client, drawn: Room, key: str) -> None:
    assert send_thing(browser, key).status_code == 302
    assert replace(hall(), length_cm=drawn.length_cm, width_cm=drawn.width_cm) == drawn


def test_what_is_chosen_is_marked_on_the_plan(browser: Client, drawn: Room) -> None:
    text = browser.get(f"{PLAN}?thing=furniture-0").content.decode()
    assert text.count('data-thing="furniture-0" class="chosen"') == 1
    assert text.count('class="chosen"') == 1
    assert 'class="chosen"' not in browser.get(f"{PLAN}?thing=furniture").content.decode()


def test_a_name_is_words_and_nothing_else(browser: Client, on_file: Caseload) -> None:
    name = "<script>x</script>"
    place = {"along_cm": "300", "off_cm": "50", "length_cm": "200", "width_cm": "90"}
    assert add(browser, "furniture", name=name, **place).status_code == 302
    for address in (PLAN, HALL, f"{PLAN}?thing=furniture-0"):
        text = browser.get(address).content.decode()
        assert name not in text
        assert "&lt;script&gt;x&lt;/script&gt;" in text


def test_a_thing_is_taken_out(browser: Client, drawn: Room) -> None:
    browser.post(PLAN, {"do": "take_out", "thing": "furniture-1"})
    assert hall().pillars == ()
    assert hall().furniture == (PIANO,)


def test_a_thing_that_is_gone_is_said(browser: Client, drawn: Room) -> None:
    answer = browser.post(PLAN, {"do": "move", "thing": "doors-7", "up": "10"})
    assert answer.status_code == 422
    assert "There is no 'doors-7' in Hall." in words_of(answer)


def test_a_room_to_begin_with_takes_the_drawing_over(browser: Client, on_file: Caseload) -> None:
    assert browser.post(PLAN, {"do": "preset", "preset": "classroom"}).status_code == 302
    assert [one.name for one in hall().furniture] == ["shelf", "desk", "tables"]
    assert browser.post(PLAN, {"do": "preset", "preset": "ship"}).status_code == 422


def test_the_page_of_a_drawn_room_keeps_the_drawing(browser: Client, drawn: Room) -> None:
    page = browser.get(HALL).content.decode()
    assert "Length of the free floor" not in page
    assert send(browser, HALL, name="Big hall").status_code == 302
    assert hall().name == "Big hall"
    assert (hall().corners, hall().doors, hall().furniture) == (
        drawn.corners,
        drawn.doors,
        drawn.furniture,
    )


def test_a_drawing_of_a_file_is_checked_when_it_is_brought_in(on_file: Caseload) -> None:
    site = site_of("quay")
    bad = replace(site.rooms[0], corners=CORNERS, doors=(RoomDoor(start=(5, 5), end=(9, 5)),))
    text = caseload_json(replace(on_file, sites=(replace(site, rooms=(bad,)),)))
    with pytest.raises(
        (ManyFaults, InputError), match=r"Quay School, Hall: Door 1 .* is on no wall"
    ):
        caseload_import(text=text, name="file.json")
    assert not hall().is_drawn


def test_a_site_without_such_a_room_answers_not_here(browser: Client, on_file: Caseload) -> None:
    assert browser.get("/sites/quay/rooms/attic/plan/").status_code == 404
    assert browser.get("/sites/pier/rooms/hall/walls/").status_code == 404
