from itertools import combinations
from xml.etree import ElementTree

import numpy as np
import pytest

from tapeline.errors import InputError
from tapeline.figures.marks import MARKS, mark_svg
from tests.unit.figures.outline import flatten, pixels


def overlap(one: np.ndarray, other: np.ndarray) -> float:
    """Shared ink over all ink; 1 for the same shape."""
    return float(np.minimum(one, other).sum() / np.maximum(one, other).sum())


def best_overlap(one: np.ndarray, other: np.ndarray) -> float:
    """Overlap with the second shape moved up to two pixels, as a glance would."""
    moves = range(-2, 3)
    return max(
        overlap(one, np.roll(np.roll(other, down, axis=0), right, axis=1))
        for down in moves
        for right in moves
    )


def test_there_are_sixteen_marks_with_words_in_both_languages():
    assert len(MARKS) == 16
    assert len({mark.english for mark in MARKS.values()}) == 16
    assert len({mark.spanish for mark in MARKS.values()}) == 16


@pytest.mark.parametrize("name", MARKS)
def test_a_mark_stays_in_its_box_and_fills_enough_of_it(name):
    corners = [point for ring in flatten(MARKS[name].outline) for point in ring]
    assert all(-0.05 <= value <= 40.05 for point in corners for value in point)
    assert 0.2 < pixels(MARKS[name].outline, size=40).mean() < 0.75


@pytest.mark.parametrize(("one", "other"), list(combinations(MARKS, 2)))
def test_two_marks_are_told_apart_at_17_px_in_ink_alone(one, other):
    shapes = [pixels(MARKS[name].outline, size=17) for name in (one, other)]
    assert best_overlap(*shapes) < 0.8


def test_a_mark_without_colour_is_ink_and_named_by_its_title():
    root = ElementTree.fromstring(mark_svg("boat", size=17, title="boat"))
    assert root.get("role") == "img"
    assert root.find("{http://www.w3.org/2000/svg}title").text == "boat"
    assert 'fill="#22201c"' in mark_svg("boat")


def test_an_unknown_mark_is_refused_by_name():
    with pytest.raises(InputError, match="no mark “comet”"):
        mark_svg("comet")
