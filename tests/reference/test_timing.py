"""Planning times that are measured or follow from physics."""

from __future__ import annotations

from math import sqrt

import pytest

from tapeline.activities.timing import timing_value

GRAVITY_M_S2 = 9.81


# Source: Hausdorff et al. (1999), gait maturation, PhysioNet (read in a stored copy):
# walking speed 1.00 m/s at 3-4 years and 1.20 m/s at 6-7; stride time 0.900 and 0.955 s.
@pytest.mark.parametrize(
    ("age_years", "walking_m_a_s", "stride_s"), [(3.5, 1.00, 0.900), (6.5, 1.20, 0.955)]
)
def test_walking_is_as_measured(age_years, walking_m_a_s, stride_s):
    walking = timing_value("walking_cm_a_s", age_years=age_years)
    stride = timing_value("stride_s", age_years=age_years)
    assert walking.value == pytest.approx(100 * walking_m_a_s)
    assert stride.value == pytest.approx(stride_s)
    assert walking.mark == stride.mark == "sourced"


# Source: physics, a fall from rest without air, t = sqrt(2h/g).
def test_a_ball_falls_as_physics_says():
    assert timing_value("ball_fall_s").value == pytest.approx(
        sqrt(2 * 1.2 / GRAVITY_M_S2), abs=5e-3
    )


# Source: a sphere falling with drag (Cd 0.47, air 1.2 kg/m3), its air and half that much
# air outside moving with it; 3 g and 27.5 cm are the middle of the stated inputs.
def test_a_balloon_takes_about_three_times_as_long_as_a_ball():
    balloon = timing_value("balloon_fall_s")
    assert (
        balloon.low <= fall_with_drag_s(height_m=1.2, mass_kg=0.003, wide_m=0.275) <= balloon.high
    )
    assert balloon.value / timing_value("ball_fall_s").value == pytest.approx(3, abs=0.5)


def fall_with_drag_s(*, height_m: float, mass_kg: float, wide_m: float) -> float:
    """Seconds until a light sphere has fallen so far, in small steps."""
    air_kg_m3, drag = 1.2, 0.47
    volume, area = 3.14159 / 6 * wide_m**3, 3.14159 / 4 * wide_m**2
    moved_kg = mass_kg + 1.5 * air_kg_m3 * volume
    speed = fallen = seconds = 0.0
    step = 1e-4
    while fallen < height_m:
        pull = mass_kg * GRAVITY_M_S2 - 0.5 * air_kg_m3 * drag * area * speed**2
        speed += pull / moved_kg * step
        fallen += speed * step
        seconds += step
    return seconds


# Source: the middle of the ranges of common practice (no source), as typed from the table.
@pytest.mark.parametrize(
    ("key", "age_years", "low", "high"),
    [
        ("throw_catch_adult_each_s", 4, 6, 10),
        ("hop_each_s", 7, 0.7, 1),
        ("course_round_s", 4, 60, 90),
        ("cut_15_cm_line_each_s", 6, 15, 40),
        ("station_min", 4, 4, 6),
        ("station_min", 6, 5, 8),
        ("rest_s", 6, 60, 90),
    ],
)
def test_a_range_is_planned_with_its_middle(key, age_years, low, high):
    found = timing_value(key, age_years=age_years)
    assert (found.low, found.high) == (low, high)
    assert found.value == pytest.approx((low + high) / 2)
