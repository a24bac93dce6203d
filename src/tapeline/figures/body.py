"""The lengths and masses of a child's body at an age, from published measurements.

Loaders state their tables: `body_dimensions.csv` (Snyder 1977, fractions of stature),
`body_stature.csv` (CDC 2000, cm) and `body_segment_masses.csv` (Jensen, fractions of mass).
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

import numpy as np

from tapeline.errors import InputError

YOUNGEST, OLDEST = 2.5, 11.5
MONTHS_A_YEAR = 12
LIMBS = ("upper_arm", "forearm", "hand", "thigh", "shank", "foot")


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Segment lengths in cm for one age; joints are taken at the survey's landmarks.

    Shoulders stand a little below the breastbone notch and hips at the trochanter's height:
    the survey measured neither joint centre (our choice).
    """

    age_years: float
    stature: float
    head: float
    neck: float
    chest: float
    waist: float
    thigh: float
    shank: float
    ankle: float
    foot: float
    foot_breadth: float
    upper_arm: float
    forearm: float
    hand: float
    half_shoulders: float
    half_hips: float

    @property
    def slimness(self) -> float:
        """Factor for the drawn radii, 1 at 4 years; limbs thin out as the head's share falls."""
        return 0.55 + 0.45 * (self.head / self.stature) / 0.171


@lru_cache(maxsize=64)
def body_at(age_years: float) -> Body:
    """The body of a child of this age, both sexes together.

    Dimensions are straight lines between the middles of whole-year bins.

    Raises
    ------
    InputError
        The age lies outside 2½ to 11½ years, where the tables end.
    """
    if not YOUNGEST <= age_years <= OLDEST:
        raise InputError(
            f"A figure of {age_years:g} years cannot be drawn. "
            f"Give an age from {YOUNGEST:g} to {OLDEST:g} years.",
            field="age_years",
        )
    stature = stature_at(age_years)
    share = {name: ratio_at(name, age_years) * stature for name in _dimensions()}
    return Body(
        age_years=age_years,
        stature=stature,
        head=share["head_height"],
        neck=stature - share["head_height"] - share["suprasternale_height"],
        chest=share["suprasternale_height"] - share["waist_height"],
        waist=share["waist_height"] - share["trochanteric_height"],
        thigh=share["trochanteric_height"] - share["tibiale_height"],
        shank=share["tibiale_height"] - share["sphyrion_height"],
        ankle=share["sphyrion_height"],
        foot=share["foot_length"],
        foot_breadth=share["foot_breadth"],
        upper_arm=share["shoulder_elbow_length"],
        forearm=share["elbow_hand_length"] - share["hand_length"],
        hand=share["hand_length"],
        half_shoulders=share["biacromial_breadth"] / 2,
        half_hips=share["hip_breadth_trochanter"] * 0.26,
    )


ADULT_CM = 165.0
ADULT_AGE = 30.0
HIP_IN = 0.52


@lru_cache(maxsize=1)
def adult_body() -> Body:
    """A grown-up of 165 cm (our choice) with the proportions of Drillis and Contini, 1966.

    The breastbone notch is put a little above the shoulders and the waist where a child's is.
    """
    share = {row["segment"]: float(row["fraction_of_stature"]) for row in _read("body_adult.csv")}
    notch = share["shoulder height"] + 0.012
    hips, waist = share["hip height"], 0.63
    parts = {
        "head": share["head height (chin to top)"],
        "neck": 1.0 - share["head height (chin to top)"] - notch,
        "chest": notch - waist,
        "waist": waist - hips,
        "thigh": share["thigh (hip to knee)"],
        "shank": share["shank (knee to ankle)"],
        "ankle": share["ankle height"],
        "foot": share["foot length"],
        "foot_breadth": share["foot breadth"],
        "upper_arm": share["upper arm"],
        "forearm": share["forearm"],
        "hand": share["hand"],
        "half_shoulders": share["half shoulder width (midline to shoulder)"] * 0.86,
        "half_hips": share["hip width"] * HIP_IN / 2,
    }
    lengths = {name: part * ADULT_CM for name, part in parts.items()}
    return Body(age_years=ADULT_AGE, stature=ADULT_CM, **lengths)


def stature_at(age_years: float) -> float:
    """Median stature in cm, the mean of boys and girls, in a straight line between rows."""
    months = [float(row["age_months"]) for row in _read("body_stature.csv")]
    tall = [(float(r["boys_cm"]) + float(r["girls_cm"])) / 2 for r in _read("body_stature.csv")]
    return float(np.interp(age_years * MONTHS_A_YEAR, months, tall))


def ratio_at(measure: str, age_years: float) -> float:
    """A dimension over stature."""
    ages, ratios = _dimensions()[measure]
    return float(np.interp(age_years, ages, ratios))


@lru_cache(maxsize=64)
def segment_masses(age_years: float) -> dict[str, float]:
    """Mass shares of head and neck, trunk and one limb of each kind; both sides sum to 1."""
    table: dict[str, tuple[list[float], list[float]]] = {}
    for row in _read("body_segment_masses.csv"):
        if row["kind"] == "mass":
            ages, values = table.setdefault(row["segment"], ([], []))
            ages.append(float(row["age_y"]))
            values.append(float(row["value"]))
    share = {name: float(np.interp(age_years, *columns)) for name, columns in table.items()}
    total = sum(value * (2 if name in LIMBS else 1) for name, value in share.items())
    return {name: value / total for name, value in share.items()}


@lru_cache(maxsize=1)
def segment_centres() -> dict[str, float]:
    """Where each segment's mass lies, as a fraction of its length from its upper end."""
    rows = _read("body_segment_masses.csv")
    return {row["segment"]: float(row["value"]) for row in rows if row["kind"] == "centre"}


@lru_cache(maxsize=1)
def _dimensions() -> dict[str, tuple[list[float], list[float]]]:
    table: dict[str, tuple[list[float], list[float]]] = {}
    for row in _read("body_dimensions.csv"):
        ages, ratios = table.setdefault(row["measure"], ([], []))
        ages.append(float(row["age_mid_y"]))
        ratios.append(float(row["ratio"]))
    return table


@lru_cache(maxsize=8)
def _read(name: str) -> tuple[dict[str, str], ...]:
    text = (files("tapeline") / "data" / "growth" / name).read_text(encoding="utf-8")
    lines = (line for line in text.splitlines() if not line.startswith("#"))
    return tuple(csv.DictReader(lines))
