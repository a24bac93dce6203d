"""Arrows lie beside bodies, and say where something goes."""

from __future__ import annotations

import numpy as np
import pytest

from tapeline.figures.asking import ask, can_draw
from tapeline.figures.look import look_of
from tapeline.figures.motion import ROOM, beside_bodies, overlap
from tapeline.figures.moves import MOVES
from tapeline.figures.scene import ARROW_WIDTH, draw_cast
from tapeline.figures.shapes import smooth_line
from tapeline.figures.view import Camera

ON_FOOT = [name for name in MOVES if can_draw(name)]
# The arrow stands for breath that goes into the nose and out of the mouth.
AT_THE_MOUTH = ("breathe_belly",)


@pytest.mark.parametrize("name", [name for name in ON_FOOT if name not in AT_THE_MOUTH])
def test_no_arrow_crosses_a_limb(name):
    """Deeper than half the arrow's own breadth inside a body would be seen as crossing it."""
    asked = ask(name)
    camera = Camera(turn=asked.move.turn, tilt=asked.move.tilt)
    for found in asked.casts():
        breadth = ARROW_WIDTH * found.child.body.stature
        solids = draw_cast(found, look_of(1), camera, ink=True, still=False).solids
        for path in found.frame.arrows:
            seen = [camera.see(np.array(place) * asked.body.stature) for place in path]
            line = beside_bodies(smooth_line(seen), solids, breadth)
            assert overlap(line, solids) < breadth / 2


def test_an_arrow_over_a_body_is_moved_beside_it():
    solids = [((0.0, 0.0, 5.0), (0.0, 40.0, 5.0))]
    line = [(2.0, 10.0), (2.0, 20.0), (2.0, 30.0)]
    moved = beside_bodies(line, solids, 2.0)
    assert overlap(line, solids) > 0
    assert overlap(moved, solids) < -2.0 * ROOM
    assert np.ptp([y for _, y in moved]) == pytest.approx(20.0)


def test_an_arrow_that_is_free_stays():
    line = [(50.0, 10.0), (50.0, 20.0)]
    assert beside_bodies(line, [((0.0, 0.0, 5.0), (0.0, 40.0, 5.0))], 2.0) == line
