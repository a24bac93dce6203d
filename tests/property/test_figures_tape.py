"""Strips of any length: whole motifs, inside the tape, written without inline styles."""

import re
from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from tapeline.figures.tape import HEIGHT, MOTIFS, TOOTH_DEPTH, motif_count, tape_svg
from tapeline.figures.tokens import TAPES

SVG = "{http://www.w3.org/2000/svg}"
LENGTHS = st.floats(min_value=3, max_value=900)
HEIGHTS = st.floats(min_value=6, max_value=60)
KINDS = st.sampled_from(sorted(TAPES))
REPEATED = st.sampled_from(sorted(kind for kind in TAPES if TAPES[kind].pattern in MOTIFS))
ENDS = 4 * TOOTH_DEPTH * HEIGHT
PLACING = re.compile(r"translate\(([-\d.]+) ([-\d.]+)\)(?: scale\(([-\d.e]+)\))?")


def motifs(svg: str) -> list[tuple[float, float]]:
    """Centre and scale of every motif."""
    groups = ElementTree.fromstring(svg).findall(f"{SVG}g/{SVG}g")
    found = [PLACING.fullmatch(one.get("transform")) for one in groups]
    return [(float(match[1]), float(match[3] or 1)) for match in found]


@given(kind=REPEATED, length=LENGTHS, height=HEIGHTS)
def test_every_motif_lies_whole_between_the_ends(kind, length, height):
    breadth = MOTIFS[TAPES[kind].pattern].breadth
    found = motifs(tape_svg(kind, length=length, height=height))
    assert len(found) == motif_count(kind, length=length, height=height) >= 1
    for centre, scale in found:
        assert centre - breadth * scale / 2 >= -0.02
        assert centre + breadth * scale / 2 <= length + 0.02


@given(kind=REPEATED, length=LENGTHS, height=HEIGHTS)
def test_motifs_shrink_only_when_the_piece_is_narrower_than_one(kind, length, height):
    full = height / 24
    for _, scale in motifs(tape_svg(kind, length=length, height=height)):
        assert scale <= full * 1.001
        if length > (MOTIFS[TAPES[kind].pattern].breadth + ENDS) * full:
            assert abs(scale - full) <= 0.001 * full


@given(kind=KINDS, length=LENGTHS, height=HEIGHTS, ink=st.booleans(), upright=st.booleans())
def test_a_strip_is_well_formed_and_bears_no_inline_style(kind, length, height, ink, upright):
    options = {"length": length, "height": height, "ink_only": ink, "upright": upright}
    svg = tape_svg(kind, **options)
    ElementTree.fromstring(svg)
    assert "style" not in svg
    assert svg == tape_svg(kind, **options)
    if ink:
        assert TAPES[kind].mark not in svg
        assert TAPES[kind].tint not in svg
