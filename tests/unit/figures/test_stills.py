import re
from xml.etree import ElementTree

import pytest

from tapeline.errors import InputError
from tapeline.figures.look import SKINS, STYLES, look_of
from tapeline.figures.moves import MOVES
from tapeline.figures.stills import can_draw, describe, has_move, still_svg, strip_of_three
from tapeline.figures.ways import WAYS

ON_FOOT = [name for name in MOVES if can_draw(name)]
SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("ink", [False, True])
@pytest.mark.parametrize("name", ON_FOOT)
def test_a_picture_is_well_formed_named_and_without_inline_style(name, ink):
    svg = still_svg(name, ink=ink, seed=3)
    root = ElementTree.fromstring(svg)
    assert root.find(f"{SVG}title").text
    assert "style" not in svg
    assert len(svg) < 60_000


@pytest.mark.parametrize("name", ON_FOOT)
def test_ink_pictures_hold_greys_only(name):
    for svg in strip_of_three(name, ink=True, seed=5):
        colours = set(re.findall(r"#[0-9a-f]{6}", svg)) - {"#22201c", "#fffdf8"}
        assert all(c[1:3] == c[3:5] == c[5:7] for c in colours)


@pytest.mark.parametrize("name", ON_FOOT)
def test_three_pictures_share_one_height_and_differ(name):
    strip = strip_of_three(name, seed=1)
    heights = {ElementTree.fromstring(svg).get("height") for svg in strip}
    drawn = {svg.split("</title>")[1] for svg in strip}
    assert len(drawn) == 3
    assert max(map(float, heights)) - min(map(float, heights)) <= 18.0


@pytest.mark.parametrize("way", WAYS)
def test_words_say_what_each_picture_shows_in_both_languages(way):
    for name in (name for name in MOVES if can_draw(name, gets_about=way)):
        english, spanish = (
            describe(name, gets_about=way, language=language) for language in ("en", "es")
        )
        for words in (english, spanish):
            assert len(set(words)) == 3, (name, words)
            assert all(text.endswith(".") for text in words)
        assert set(english).isdisjoint(spanish)


@pytest.mark.parametrize("name", [name for name in MOVES if MOVES[name].seated])
def test_words_for_a_child_in_a_wheelchair_speak_of_no_feet(name):
    for language in ("en", "es"):
        for text in describe(name, gets_about="wheelchair", language=language):
            assert not re.search(r"\b(stands?|foot|feet|steps?|de pie|pies?|paso)\b", text)


def test_the_same_seed_draws_the_same_child():
    assert still_svg("hop", seed=4) == still_svg("hop", seed=4)
    assert still_svg("hop", seed=4) != still_svg("hop", seed=5)


def test_seeds_bring_every_skin_every_head_and_glasses():
    looks = [look_of(seed) for seed in range(120)]
    assert {look.skin for look in looks} == set(SKINS)
    assert {look.style for look in looks} == set(STYLES)
    assert 5 < sum(look.glasses for look in looks) < 60


def test_ages_keep_their_true_size_on_one_page():
    small, tall = (ElementTree.fromstring(still_svg("stand_ready", age_years=a)) for a in (3.5, 8))
    assert float(tall.get("height")) / float(small.get("height")) == pytest.approx(1.30, abs=0.03)


def test_a_child_who_uses_a_wheelchair_does_the_same_thing():
    assert can_draw("catch_two_hands", gets_about="wheelchair")
    seated = strip_of_three("catch_two_hands", gets_about="wheelchair")
    assert len(seated) == 3
    assert seated != strip_of_three("catch_two_hands")


def test_a_child_with_splints_does_every_move_and_wears_them():
    for name in ON_FOOT:
        assert can_draw(name, gets_about="splints")
    worn, bare = (still_svg("march", gets_about=way, seed=8) for way in ("splints", "on_foot"))
    assert "#9fc0d8" in worn
    assert "#9fc0d8" not in bare


def test_a_chair_is_not_drawn_under_a_wheelchair():
    sitting, rolling = (still_svg("squeeze", gets_about=w) for w in ("on_foot", "wheelchair"))
    wood = "#c59f63"
    assert wood in sitting
    assert wood not in rolling


def test_a_child_with_a_walking_frame_holds_it_and_walks():
    assert can_draw("walk_line", gets_about="walking_frame")
    assert not can_draw("hop", gets_about="walking_frame")
    framed, free = (still_svg("walk_line", gets_about=w) for w in ("walking_frame", "on_foot"))
    assert framed != free


def test_a_parameter_changes_the_picture():
    box, spot = (still_svg("throw_under", params={"target": t}) for t in ("box", "spot"))
    assert box != spot
    assert len({still_svg("throw_under", params={"distance_cm": d}) for d in (80, 140)}) == 2


def test_a_move_without_a_good_picture_has_none():
    assert not has_move("cartwheel")
    assert has_move("crawl")


@pytest.mark.parametrize(
    ("wish", "field"),
    [
        ({"move": "moonwalk"}, "move"),
        ({"move": "hop", "params": {"target": "box"}}, "params"),
        ({"move": "throw_under", "params": {"target": "window"}}, "params"),
        ({"move": "throw_under", "params": {"distance_cm": 0}}, "params"),
        ({"move": "hop", "gets_about": "wheelchair"}, "gets_about"),
        ({"move": "hop", "gets_about": "sledge"}, "gets_about"),
        ({"move": "hop", "language": "fr"}, "language"),
        ({"move": "hop", "age_years": 40}, "age_years"),
    ],
)
def test_bad_input_names_its_field(wish, field):
    with pytest.raises(InputError) as caught:
        still_svg(**wish)
    assert caught.value.field == field
