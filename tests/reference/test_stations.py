"""What stations are built by, against tables and rules from outside the project."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from tapeline.activities.shipped import shipped_rows
from tapeline.courses.bodies import Body, _ratio, body_of, device_space_cm
from tapeline.courses.growth import stature_limits_cm
from tapeline.courses.spacing import gap_of, median_jump_cm
from tests.builders import TODAY, a_child

STATIONS = Path("src/tapeline/data/practice/stations.yaml")
BORN = {3: "2022-09", 4: "2021-09", 5: "2020-09", 6: "2019-09", 7: "2018-09", 8: "2017-09"}


def a_body(years: int) -> Body:
    return body_of(a_child(born=BORN[years]), TODAY)


# Source: Snyder et al. 1977 (UM-HSRI-77-17), worked out from the individual records, both sexes:
# 5th, 50th and 95th percentile in mm by whole year of age.
STEP_HEIGHT_P5_MM = {3: 256.8, 4: 318.8, 5: 342.4, 6: 434.7, 7: 416.0, 8: 471.0}
GRIP_REACH_P5_P95_MM = {
    3: (1004.0, 1208.2),
    4: (1112.4, 1334.0),
    5: (1202.4, 1433.0),
    6: (1283.8, 1538.0),
    7: (1354.6, 1613.0),
    8: (1433.2, 1704.2),
}


@pytest.mark.parametrize("years", STEP_HEIGHT_P5_MM)
def test_the_ceiling_of_a_step_is_no_higher_than_the_fifth_percentile(years: int) -> None:
    assert 10 * a_body(years).highest_lift_cm <= STEP_HEIGHT_P5_MM[years]


@pytest.mark.parametrize("years", GRIP_REACH_P5_P95_MM)
def test_reaches_are_short_ones_and_openings_long_ones(years: int) -> None:
    """Near the survey's own 5th and 95th percentile, which hold reach and stature at once."""
    low, high = GRIP_REACH_P5_P95_MM[years]
    body = a_body(years)
    assert 10 * body.at_most("vertical_grip_reach") == pytest.approx(low, abs=60)
    assert 10 * body.at_least("vertical_grip_reach") == pytest.approx(high, abs=60)


# Source: Drillis & Contini 1966 via Winter: adults' eyes at 0.936 of stature. A child's head is
# larger, so the share is a little lower; it grows towards the adult one.
def test_eyes_lie_a_little_lower_than_an_adult_s_share() -> None:
    shares = [
        1 - _ratio("sitting_height", years)[0] + _ratio("eye_height_seated", years)[0]
        for years in (3.5, 5.5, 7.5, 11.5)
    ]
    assert shares == sorted(shares)
    assert 0.88 <= shares[0] < shares[-1] <= 0.936


# Source: the same survey's own table: foot length over stature at 4 is 166.5 / 1052.0 mm.
def test_a_foot_s_share_of_stature_is_the_survey_s() -> None:
    assert _ratio("foot_length", 4.5)[0] == pytest.approx(166.5 / 1052.0, abs=0.002)


# Source: CDC 2000, Vital Health Stat 11(246): boys of 60.5 months, P3 100.3 and P97 117.8 cm.
def test_the_range_of_stature_holds_the_boys_third_and_ninety_seventh() -> None:
    low, high = stature_limits_cm(60.5)
    assert low <= 100.331847
    assert high >= 117.831386
    assert 17 <= high - low <= 23


# Source: Latorre-Román et al. 2017, Pediatr Exerc Sci 29:116-120: 86 children of 56.2 (10.3)
# months jump 76.5 (SD 20.2) cm. Corbin 1973 (from memory): 38 to 60 cm at 3, 61 to 84 at 4.
def test_the_median_jump_agrees_with_other_samples() -> None:
    assert median_jump_cm(56) == pytest.approx(76.53, abs=5)
    assert 38 <= median_jump_cm(39) <= 60
    assert 61 <= median_jump_cm(51) <= 84
    assert median_jump_cm(30) == median_jump_cm(36)
    assert median_jump_cm(100) == median_jump_cm(72)


@pytest.mark.parametrize("years", BORN)
def test_the_default_spacing_is_forty_to_sixty_percent_of_the_median_jump(years: int) -> None:
    body = a_body(years)
    median = median_jump_cm(body.age_months)
    gap = gap_of(body, "jump")
    assert 0.4 * median <= gap.least_cm < gap.most_cm <= 0.6 * median


# Source: Hausdorff et al. 1999, J Appl Physiol 86:1040-1047: 1.00 m/s with a stride of 0.900 s at
# 3 to 4 years, so a footstep of 0.45 m; the median boy of 4 is 102.5 cm (CDC): 0.44 of stature.
def test_a_footstep_is_the_walking_one() -> None:
    walked_cm = 100 * 0.900 / 2
    body = body_of(a_child(born=BORN[4], height_cm=103), TODAY)
    gap = gap_of(body, "footstep")
    assert gap.most_cm == pytest.approx(walked_cm, abs=1)
    assert gap.least_cm < walked_cm


# Source: 2010 ADA Standards 304.3.1, 305.3, 1008.4.3 and UFAS 4.3.3, in mm.
def test_a_wheelchair_s_floor_is_the_building_rule_s() -> None:
    found = {
        name: device_space_cm("wheelchair", name)
        for name in ("turning", "lane", "place_width", "place_length", "knee_height")
    }
    published = {
        "turning": 1525,
        "lane": 915,
        "place_width": 760,
        "place_length": 1220,
        "knee_height": 610,
    }
    for name, least in published.items():
        assert least <= 10 * found[name] < least + 10


# Source: 1 ft = 30.48 cm. "Caring for Our Children" 6.2.3.1 has 6 ft; mats were tested over 1 ft,
# and only those of 4 in (10 cm) held more than 3 ft.
def test_feet_are_rounded_to_the_safe_side() -> None:
    clear = yaml.safe_load(STATIONS.read_text(encoding="utf-8"))
    assert clear["clear"]["fall"] >= 6 * 30.48 - 0.12
    assert clear["clear"]["wait_back"] == clear["clear"]["run_room"] == clear["clear"]["fall"]
    assert clear["clear"]["run_lane"] >= 3 * 30.48
    assert clear["heights"]["landing_mat"] <= 30.48 < clear["heights"]["thick_mat"] <= 2 * 30.48


def test_every_table_names_its_source_and_its_licence_or_mark() -> None:
    for name in ("station_dimensions", "standing_long_jump", "device_space"):
        text = Path(f"src/tapeline/data/growth/{name}.csv").read_text(encoding="utf-8")
        assert "# Source" in text
        assert shipped_rows(f"growth/{name}.csv")
