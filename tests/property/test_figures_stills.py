"""Any child doing any move: well formed, named, without inline styles, the same every time."""

import re
from xml.etree import ElementTree

from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.figures.body import OLDEST, YOUNGEST
from tapeline.figures.moves import MOVES
from tapeline.figures.stills import can_draw, still_svg, strip_of_three

NOT_A_NUMBER = re.compile(r"[\" ]-?(nan|inf)\b")
SVG = "{http://www.w3.org/2000/svg}"
AGES = st.floats(min_value=YOUNGEST, max_value=OLDEST)
NAMES = st.sampled_from([name for name in sorted(MOVES) if can_draw(name)])


@settings(deadline=None, max_examples=60)
@given(name=NAMES, age=AGES, seed=st.integers(0, 10_000), ink=st.booleans(), seated=st.booleans())
def test_any_picture_is_well_formed(name, age, seed, ink, seated):
    way = "wheelchair" if seated and can_draw(name, gets_about="wheelchair") else "on_foot"
    options = {"age_years": age, "seed": seed, "ink": ink, "gets_about": way}
    svg = still_svg(name, **options)
    root = ElementTree.fromstring(svg)
    assert root.get("role") == "img"
    assert "style" not in svg
    assert not NOT_A_NUMBER.search(svg)
    assert svg == still_svg(name, **options)


@settings(deadline=None, max_examples=30)
@given(name=NAMES, age=AGES, seed=st.integers(0, 10_000))
def test_the_picture_holds_all_that_is_drawn_on_foot(name, age, seed):
    for svg in strip_of_three(name, age_years=age, seed=seed):
        root = ElementTree.fromstring(svg)
        left, top, width, height = map(float, root.get("viewBox").split())
        assert width > 0
        assert height > 0
        for circle in root.iter(f"{SVG}circle"):
            if circle.get("fill") == "#22201c":
                assert left - 0.1 <= float(circle.get("cx")) <= left + width + 0.1
                assert top - 0.1 <= float(circle.get("cy")) <= top + height + 0.1
