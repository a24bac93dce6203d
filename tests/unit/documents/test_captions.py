"""Caption tracks before and after filming, and what is refused."""

from __future__ import annotations

import pytest

from tapeline.documents.captions import TIMES_TO_FILL, Caption, caption_file
from tapeline.errors import InputError

LONG = (
    "Throw the sock ball into the box and wait for a nod from your grown-up."
    " Then pick it up and walk back along the line."
)


def test_times_that_wait_are_announced_in_a_note():
    text = caption_file([Caption(words="Stop."), Caption(words="Clap once.")], "en")
    assert f"\n\nNOTE {TIMES_TO_FILL}\n" in text
    assert "00:00:00.000 --> 00:00:01.000\nStop." in text
    assert "00:00:01.000 --> 00:00:02.000\nClap once." in text


def test_a_track_with_its_times_has_no_such_note():
    text = caption_file([Caption(words="Stop.", from_s=2, to_s=3)], "es")
    assert TIMES_TO_FILL not in text
    assert "NOTE Language: es" in text


def test_a_long_caption_is_cut_between_its_sentences_and_shares_its_time():
    text = caption_file([Caption(words=LONG, from_s=10, to_s=20)], "en")
    first, second = text.rstrip().split("\n\n")[2:]
    assert first.startswith("1.1\n00:00:10.000 --> ")
    assert first.endswith("grown-up.")
    assert second.startswith("1.2\n")
    assert " --> 00:00:20.000\nThen pick it up" in second


def test_two_lines_are_about_as_long_as_each_other():
    words = "Carry the box with both hands to the line"
    lines = caption_file([Caption(words=f"{words} slowly")], "en").rstrip().split("\n")[-2:]
    assert abs(len(lines[0]) - len(lines[1])) < 10


def test_no_word_is_broken_to_make_lines_alike():
    text = caption_file(
        [Caption(words="Put it on the otorhinolaryngological extraordinariness")], "en"
    )
    assert "otorhinolaryngological" in text
    assert "extraordinariness" in text


@pytest.mark.parametrize(
    ("from_s", "to_s", "message"),
    [
        (1, None, "only one of its two times"),
        (None, 1, "only one of its two times"),
        (4, 4, "runs from 4 s to 4 s"),
        (4, 3, "runs from 4 s to 3 s"),
        (-1, 3, "runs from -1 s"),
        (1, 1.0001, "runs from 1 s"),
    ],
)
def test_times_that_cannot_be_are_refused(from_s, to_s, message):
    with pytest.raises(InputError, match=message):
        Caption(words="Go.", from_s=from_s, to_s=to_s)


def test_a_caption_without_words_is_refused():
    with pytest.raises(InputError, match="no words"):
        Caption(words="  \n")


def test_captions_that_overlap_are_refused_by_number():
    track = [Caption(words="a", from_s=0, to_s=5), Caption(words="b", from_s=4, to_s=6)]
    with pytest.raises(InputError, match="Caption 2 starts at 4 s"):
        caption_file(track, "en")


def test_some_with_times_and_some_without_are_refused():
    track = [Caption(words="a", from_s=0, to_s=5), Caption(words="b"), Caption(words="c")]
    with pytest.raises(
        InputError, match="2 of 3 captions have no times, the first of them caption 2"
    ):
        caption_file(track, "en")


def test_too_short_a_time_for_its_cues_is_refused():
    with pytest.raises(InputError, match="Caption 1 lasts 1 ms and needs 2 cues"):
        caption_file([Caption(words=LONG, from_s=1, to_s=1.001)], "en")


def test_a_language_that_is_no_tag_is_refused():
    with pytest.raises(InputError, match="'Spanish '"):
        caption_file([Caption(words="a")], "Spanish ")
