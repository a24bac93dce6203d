import re
from xml.etree import ElementTree

import pytest

from tapeline.errors import InputError
from tapeline.figures.ruler import ruler_svg, session_strip_svg
from tapeline.figures.tape import tape_svg

SVG = "{http://www.w3.org/2000/svg}"
PARTS = [("arrival_closing", 180), ("balance", 420), ("sending_and_receiving", 600)]


def ticks(svg: str) -> list[float]:
    """Lengths of the ticks of a level ruler, in order."""
    path = ElementTree.fromstring(svg).find(f".//{SVG}path").get("d")
    return [float(found) for found in re.findall(r"M[\d.]+ 0V([\d.]+)", path)]


def numbers(svg: str) -> list[str]:
    return [found.text for found in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def test_every_minute_has_a_tick_longer_at_five_and_longest_at_ten():
    found = ticks(ruler_svg(40, length=520))
    assert len(found) == 41
    assert found[0] == found[10] > found[5] == found[15] > found[1] == found[4]


def test_tens_and_the_end_are_numbered():
    assert numbers(ruler_svg(40, length=520)) == ["0", "10", "20", "30", "40 min"]


def test_a_number_too_near_the_end_gives_way():
    assert numbers(ruler_svg(43, length=240)) == ["0", "10", "20", "30", "43 min"]


def test_an_upright_ruler_numbers_the_same_minutes():
    assert numbers(ruler_svg(40, length=656, upright=True)) == ["0", "10", "20", "30", "40"]


def test_a_crowded_ruler_keeps_the_fives():
    assert len(ticks(ruler_svg(60, length=100))) == 13


def test_a_session_shows_each_part_as_long_as_it_lasts():
    root = ElementTree.fromstring(session_strip_svg(PARTS, length=400))
    beds = [bed.get("points").split() for bed in root.iter(f"{SVG}polygon")]
    widths = [max(float(point.split(",")[0]) for point in bed) for bed in beds]
    assert widths == pytest.approx([58, 138, 198], abs=0.01)


def test_a_session_longer_than_its_ruler_is_refused():
    with pytest.raises(InputError, match="last 20 minutes and the ruler shows 15"):
        session_strip_svg(PARTS, minutes=15)


@pytest.mark.parametrize(
    ("draw", "field"),
    [
        (lambda: session_strip_svg([]), "parts"),
        (lambda: session_strip_svg([("balance", 0)]), "parts"),
        (lambda: session_strip_svg([("juggling", 60)]), "kind"),
        (lambda: tape_svg("balance", length=0), "length"),
        (lambda: ruler_svg(0, length=10), "minutes"),
    ],
)
def test_bad_input_names_its_field(draw, field):
    with pytest.raises(InputError) as caught:
        draw()
    assert caught.value.field == field
