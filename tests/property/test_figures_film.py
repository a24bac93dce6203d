"""Any move at any age moves without stretching a bone, sliding a foot or losing the ball."""

from itertools import pairwise

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from tapeline.figures.asking import ask, can_draw
from tapeline.figures.body import OLDEST, YOUNGEST
from tapeline.figures.film import film_of
from tapeline.figures.moves import MOVES
from tapeline.figures.placing import palm_thickness
from tapeline.figures.scene import ball_radius
from tapeline.figures.ways import WAYS
from tests.unit.figures.measure import segment_lengths, slid

AGES = st.floats(min_value=YOUNGEST, max_value=OLDEST)
DONE = st.sampled_from(
    [(name, way) for name in sorted(MOVES) for way in WAYS if can_draw(name, gets_about=way)]
)


@settings(deadline=None, max_examples=20)
@given(done=DONE, age=AGES, data=st.data())
def test_any_move_moves_like_a_body(done, age, data):
    name, way = done
    wish = {key: data.draw(st.sampled_from(words)) for key, words in MOVES[name].choices.items()}
    moments = film_of(ask(name, params=wish, gets_about=way, age_years=age))
    lengths = np.array([segment_lengths(moment.cast.child) for moment in moments])
    assert np.ptp(lengths, axis=0).max() < 0.05
    for one, other in pairwise(moments):
        for side in one.planted & other.planted:
            assert slid(one.cast.child, other.cast.child, side) <= 0.5
    for moment in moments:
        child = moment.cast.child
        for side in moment.held:
            palm = child.limbs()[f"{side}_arm"].palm
            skins = [
                float(np.linalg.norm(palm - centre)) - ball_radius(ball.kind)
                for ball, centre in zip(moment.cast.frame.balls, moment.balls, strict=True)
            ]
            assert min(abs(skin - palm_thickness(child.body)) for skin in skins) <= 0.5
