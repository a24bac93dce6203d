"""Caption files against the WebVTT format and a second reader.

Source of the facts: W3C WebVTT, index.bs at 92a85cc2. Second reader: webvtt-py.
"""

from __future__ import annotations

import re
from io import StringIO

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from tapeline.documents.captions import Caption, caption_file

LETTERS = "abcdefghij <>&-.!?áñ¿"
# "[hh+:]mm:ss.ttt": minutes and seconds to 59, a full stop, exactly three decimals.
TIMING = re.compile(r"^(?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3} --> (?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3}$")


@st.composite
def tracks(draw):
    """Captions of any length, with times in order or without any."""
    texts = draw(st.lists(st.text(LETTERS, min_size=1, max_size=200), min_size=1, max_size=5))
    texts = [text for text in texts if text.strip()]
    if not draw(st.booleans()):
        return [Caption(words=text) for text in texts]
    captions, start = [], 0.0
    for text in texts:
        start += draw(st.integers(0, 4000))
        end = start + draw(st.integers(1, 30))
        captions.append(Caption(words=text, from_s=start, to_s=end))
        start = end
    return captions


def blocks_of(text: str) -> list[list[str]]:
    return [block.split("\n") for block in text.rstrip("\n").split("\n\n")]


# "First line WEBVTT, then a blank line."
@given(track=tracks())
def test_the_file_begins_with_its_name_and_a_blank_line(track):
    assert caption_file(track, "es").startswith("WEBVTT\n\n")


# "Cue = optional unique id line without --> + start --> end + payload + blank line; the
# payload must not contain -->; end after start; start not before any earlier start."
@given(track=tracks())
def test_every_block_is_a_note_or_a_cue_in_order(track):
    ids, starts = [], [""]
    for block in blocks_of(caption_file(track, "en"))[1:]:
        if block[0].startswith("NOTE"):
            assert not any("-->" in line for line in block)
            continue
        ids.append(block[0])
        assert TIMING.match(block[1])
        start, end = (time.rjust(14, "0") for time in block[1].split(" --> "))
        assert starts[-1] <= start < end
        starts.append(start)
        assert block[2:]
        assert not any("-->" in line or "<" in line for line in block[2:])
    assert len(ids) == len(set(ids))


@given(track=tracks())
def test_a_second_reader_finds_every_word(track):
    read = webvtt.from_buffer(StringIO(caption_file(track, "en")))
    found = "".join(caption.raw_text for caption in read)
    for sign, letter in (("&lt;", "<"), ("&gt;", ">"), ("&amp;", "&")):
        found = found.replace(sign, letter)
    wanted = "".join(one.words for one in track)
    assert re.sub(r"\s", "", found) == re.sub(r"\s", "", wanted)


# Common practice, no source: at most two lines of 42 characters.
@given(track=tracks())
def test_no_cue_has_more_than_two_lines_of_42_characters(track):
    for block in blocks_of(caption_file(track, "en"))[1:]:
        if not block[0].startswith("NOTE"):
            assert len(block) <= 2 + 2
            plain = [re.sub(r"&(lt|gt|amp);", "x", line) for line in block[2:]]
            assert all(0 < len(line) <= 42 for line in plain)


def test_times_are_written_as_the_example_of_the_format():
    words = "Stand on the tape line. Two hands ready."
    text = caption_file([Caption(words=words, from_s=1, to_s=4)], "en")
    assert text.endswith(f"1\n00:00:01.000 --> 00:00:04.000\n{words}\n")


@pytest.mark.parametrize(
    ("seconds", "printed"),
    [
        (0, "00:00:00.000"),
        (59.9996, "00:01:00.000"),
        (3725.5, "01:02:05.500"),
        (360000, "100:00:00.000"),
    ],
)
def test_a_time_rolls_over_like_a_clock(seconds, printed):
    text = caption_file([Caption(words="Go.", from_s=seconds, to_s=seconds + 9)], "en")
    assert f"\n{printed} --> " in text
