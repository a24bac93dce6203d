"""Too hard and too easy: do their words speak of the change the progression makes?"""

from __future__ import annotations

import pytest

from tapeline.activities.check_grading import looks_in_grading, variables_in
from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.shipped import shipped_rows
from tests.unit.activities.small_library import a_library, a_version


def looks(**changes: str) -> list[tuple[str, str]]:
    """Line and text of each look at the version for the first step (the next is distance)."""
    library = a_library(a_version(**changes))
    activity = library.activities["into_the_box"]
    return [(look.line, look.text) for look in looks_in_grading(activity, library)]


def test_a_sentence_that_speaks_of_another_change_is_shown() -> None:
    assert looks(too_easy="Sit down for the toss.") == [("too_easy", "Sit down for the toss.")]


def test_a_sentence_that_speaks_of_the_same_change_is_not_shown() -> None:
    assert looks(too_easy="Take one step back.") == []


def test_a_sentence_without_a_telling_word_is_left_alone() -> None:
    assert looks(too_easy="Move it over there.") == []


def test_below_the_first_step_anything_may_change() -> None:
    assert looks(too_hard="Sit down for the toss.") == []


def test_the_easier_line_is_held_against_what_made_this_step() -> None:
    far = {"id": "into_the_box.far.usual", "step": "toss.far"}
    assert looks(**far, too_hard="Use a bigger and lighter ball.", too_easy="Sit down.") == [
        ("too_hard", "Use a bigger and lighter ball.")
    ]


@pytest.mark.parametrize("row", shipped_rows("words/grading_words.csv"))
def test_each_row_names_grading_variables_that_are_known(row: dict[str, str]) -> None:
    known = content_of(data_file("rules/grading.yaml"))["changes"]
    assert set(row["may_mean"].split(";")) <= set(known)


def test_words_inside_other_words_do_not_count() -> None:
    assert variables_in("Singer and talker sit.") == ()
    assert variables_in("Sing as you go.") != ()
