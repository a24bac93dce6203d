"""Bodies against published measurements.

Head height over stature and the standing centre of mass are values computed from the 1977
individual records (Snyder et al. 1977, UM-HSRI-77-17) and from Jensen's segment masses (1986,
1989); stature is CDC 2000 (Kuczmarski et al. 2002).
"""

import pytest

from tapeline.errors import InputError
from tapeline.figures.asking import ask
from tapeline.figures.body import LIMBS, adult_body, body_at, ratio_at, segment_masses, stature_at
from tapeline.figures.placing import pose_body
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.space import Z
from tapeline.figures.weight import centre_of_mass

UPRIGHT = Pose(
    crouch=0.0,
    bend=0.0,
    left_arm=Arm(lift=0.0, bend=0.0),
    right_arm=Arm(lift=0.0, bend=0.0),
    left_leg=Leg(foot=(0.0, 0.045)),
    right_leg=Leg(foot=(0.0, -0.045)),
)


# Spot value 24: head height / stature, rows 4, 6 and 10 (middle of the bin).
@pytest.mark.parametrize(("age", "share"), [(4.5, 0.1710), (6.5, 0.1583), (10.5, 0.1397)])
def test_head_height_over_stature(age, share):
    body = body_at(age)
    assert body.head / body.stature == pytest.approx(share, abs=0.00005)


# Spot value 27: foot length in mm over the stature of the same rows (1977: 1052.0, 1179.2).
@pytest.mark.parametrize(
    ("age", "foot_mm", "stature_mm"), [(4.5, 166.5, 1052.0), (6.5, 184.5, 1179.2)]
)
def test_foot_length_over_stature(age, foot_mm, stature_mm):
    assert ratio_at("foot_length", age) == pytest.approx(foot_mm / stature_mm, abs=0.0005)


# Spot value 1 (boys 60.5 months: 109.1751441 cm) and the girls' row of the same table.
def test_stature_is_the_mean_of_both_medians():
    assert stature_at(60.5 / 12) == pytest.approx((109.1751 + 107.9566) / 2, abs=0.0002)


# Spot value 31: standing centre of mass / stature from the recommended masses, 4, 6 and 8 years.
# Our shoulders and hips stand a little apart from the survey's landmarks: 0.5 % of stature.
@pytest.mark.parametrize(("age", "share"), [(4.5, 0.5771), (6.5, 0.5734), (8.5, 0.5679)])
def test_standing_centre_of_mass(age, share):
    body = body_at(min(age, 8.0) if age > 8 else age)
    height = centre_of_mass(pose_body(UPRIGHT, body))[2]
    assert height / body.stature == pytest.approx(share, abs=0.005)


@pytest.mark.parametrize("age", [3.0, 4.5, 6.0, 8.0])
def test_an_upright_child_is_as_tall_as_the_table_says(age):
    skeleton = pose_body(UPRIGHT, body_at(age))
    top = (skeleton.head + skeleton.head_turn @ Z * skeleton.body.head / 2)[2]
    assert top == pytest.approx(stature_at(age), rel=0.001)


# Spot value 30: the recommended masses sum to 1 once divided by their sum.
@pytest.mark.parametrize("age", [3, 4, 5.5, 8])
def test_segment_masses_sum_to_one(age):
    share = segment_masses(age)
    assert sum(v * (2 if k in LIMBS else 1) for k, v in share.items()) == pytest.approx(1.0)


def test_an_age_outside_the_tables_is_refused():
    with pytest.raises(InputError, match="14 years cannot be drawn"):
        body_at(14)


# Spot value 25: sitting height / stature, rows 4, 6 and 10. The drawn hips sit 5.6 % of stature
# above the floor so that the drawn seat touches it; the landmark of the survey sits near 3.5 %.
@pytest.mark.parametrize(("age", "share"), [(4.5, 0.5627), (6.5, 0.5477), (10.5, 0.5216)])
def test_a_child_who_sits_on_the_floor_is_as_tall_as_measured(age, share):
    long = Leg(lift=90.0, around=20.0)
    sitting = pose_body(Pose(hip=0.056, bend=0.0, left_leg=long, right_leg=long), body_at(age))
    top = (sitting.head + sitting.head_turn @ Z * sitting.body.head / 2)[2]
    assert top / sitting.body.stature == pytest.approx(share, abs=0.025)


# Spot value 39: on all fours the shoulder joint is 371.9, 420.7 and 468.3 mm high with palms
# flat and arms upright, at statures of 1052.0, 1179.2 and about 1295 mm. The drawn arms
# slant a little ahead and the wrist bends, which takes up to an eighth of that.
@pytest.mark.parametrize(("age", "share"), [(4.5, 0.3535), (6.5, 0.3568)])
def test_shoulders_are_as_high_on_all_fours_as_measured(age, share):
    asked = ask("crawl", age_years=age)
    child = asked.casts()[0].child
    height = (child.left_arm.root + child.right_arm.root)[2] / 2 / child.body.stature
    assert height == pytest.approx(share, rel=0.125)


# Drillis & Contini 1966 (via Winter): head .130, shoulder .818, hip .530, knee .285 of stature.
def test_a_grown_up_has_the_proportions_of_one():
    body = adult_body()
    assert body.head / body.stature == pytest.approx(0.130)
    assert (body.thigh + body.shank + body.ankle) / body.stature == pytest.approx(0.530)
    assert (body.shank + body.ankle) / body.stature == pytest.approx(0.285)
    standing = pose_body(UPRIGHT, body)
    assert standing.left_arm.root[2] / body.stature == pytest.approx(0.818, abs=0.01)
