"""Caption tracks (WebVTT) for a recorded session, with times or with times to fill in later.

The words come from the script before anything is filmed. Until the real times are known
the track runs through guessed ones, so that it opens in any player, and says so in a note
that begins with ``X-TIMES-TO-FILL``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from textwrap import wrap

from tapeline.activities.readability import reading_limit
from tapeline.errors import InputError

TIMES_TO_FILL = "X-TIMES-TO-FILL"

_LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")
_SENTENCE_END = re.compile(r"(?<=[.!?…])\s+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Caption:
    """Words to show, and from when to when in seconds of the film; both None until filmed."""

    words: str
    from_s: float | None = None
    to_s: float | None = None

    def __post_init__(self) -> None:
        if not self.words.strip():
            raise InputError("A caption has no words. Write some, or leave it out.", field="words")
        if (self.from_s is None) != (self.to_s is None):
            raise InputError(
                f"The caption “{self.words}” has only one of its two times.",
                field="to_s",
                hint="Give both its start and its end, or neither.",
            )
        if self.from_s is None or self.to_s is None:
            return
        if self.from_s < 0 or _ms(self.to_s) <= _ms(self.from_s):
            raise InputError(
                f"The caption “{self.words}” runs from {self.from_s:g} s to {self.to_s:g} s.",
                field="to_s",
                hint="Let it start at 0 s or later and end after it starts.",
            )


@dataclass(frozen=True, slots=True)
class _Cue:
    id: str
    lines: tuple[str, ...]
    from_ms: int
    to_ms: int


def caption_file(captions: Sequence[Caption], language: str) -> str:
    """The text of a WebVTT file: at most two lines of 42 characters a cue, each with an id.

    A caption too long for one cue is cut at its sentences, then at its lines; the cues
    share its time by their letters and are numbered ``3.1``, ``3.2``. Save as UTF-8.

    Parameters
    ----------
    captions
        In the order they are shown, either all with times or all without.
    language
        Of the words, as a language tag such as ``en`` or ``es``.

    Raises
    ------
    InputError
        Some captions have times and some not, two overlap, or the language is no tag.
    """
    if not _LANGUAGE.fullmatch(language):
        raise InputError(
            f"{language!r} is not a language tag.", field="language", hint="Write en or es."
        )
    is_timed = _all_timed(captions)
    timed = captions if is_timed else _with_guessed_times(captions)
    blocks = ["WEBVTT", f"NOTE Language: {language}"]
    if not is_timed:
        blocks.append(
            f"NOTE {TIMES_TO_FILL}\n"
            "The times below are guesses, one caption after the other.\n"
            "Put the real ones in after filming, then take this note out."
        )
    blocks += [_block(cue) for cue in _cues(timed)]
    return "\n\n".join(blocks) + "\n"


def _all_timed(captions: Sequence[Caption]) -> bool:
    """Whether every caption has times; checks that none overlap and that none are mixed."""
    untimed = [number for number, one in enumerate(captions, start=1) if one.from_s is None]
    if untimed and len(untimed) < len(captions):
        raise InputError(
            f"{len(untimed)} of {len(captions)} captions have no times,"
            f" the first of them caption {untimed[0]}.",
            field="from_s",
            hint="Give times to all of them, or to none.",
        )
    last_end = 0.0
    for number, one in enumerate(captions, start=1):
        if one.from_s is None or one.to_s is None:
            continue
        if one.from_s < last_end:
            raise InputError(
                f"Caption {number} starts at {one.from_s:g} s,"
                f" before the one in front of it ends at {last_end:g} s.",
                field="from_s",
                hint="Let it start later, or end the one in front sooner.",
            )
        last_end = one.to_s
    return not untimed


def _with_guessed_times(captions: Iterable[Caption]) -> Iterator[Caption]:
    """The captions one after the other, each as long as it takes to read."""
    a_second = reading_limit("caption_characters_a_second", "en").plain
    shortest = reading_limit("caption_shortest_s", "en").plain
    start = 0.0
    for one in captions:
        end = start + max(shortest * len(_chunks(one.words)), len(one.words) / a_second)
        yield Caption(words=one.words, from_s=start, to_s=round(end, 1))
        start = round(end, 1)


def _cues(captions: Iterable[Caption]) -> Iterator[_Cue]:
    for number, one in enumerate(captions, start=1):
        assert one.from_s is not None
        assert one.to_s is not None
        chunks = _chunks(one.words)
        letters = [sum(map(len, chunk)) for chunk in chunks]
        start, length = _ms(one.from_s), _ms(one.to_s) - _ms(one.from_s)
        edges = [start + length * sum(letters[:i]) // sum(letters) for i in range(len(chunks) + 1)]
        if len(set(edges)) < len(edges):
            raise InputError(
                f"Caption {number} lasts {length} ms and needs {len(chunks)} cues.",
                field="to_s",
                hint="Give it more time.",
            )
        for part, chunk in enumerate(chunks, start=1):
            name = f"{number}.{part}" if len(chunks) > 1 else f"{number}"
            yield _Cue(name, chunk, edges[part - 1], edges[part])


def _chunks(words: str) -> list[tuple[str, ...]]:
    """The lines of each cue that the words need, whole sentences kept together if they fit."""
    most = int(reading_limit("caption_lines", "en").plain)
    chunks: list[tuple[str, ...]] = []
    held = ""
    for sentence in _SENTENCE_END.split(" ".join(words.split())):
        together = f"{held} {sentence}".strip()
        if held and len(_lines(together)) > most:
            chunks.append(_lines(held))
            together = sentence
        lines = _lines(together)
        whole = [lines[at : at + most] for at in range(0, len(lines), most)]
        chunks += whole[:-1]
        held = " ".join(whole[-1])
    return [*chunks, _lines(held)]


def _lines(text: str) -> tuple[str, ...]:
    """As few lines as the width allows, of about the same length."""
    width = int(reading_limit("caption_line_characters", "en").plain)
    lines = wrap(text, width)
    longest_word = max(map(len, text.split()))
    for narrower in range(width - 1, longest_word - 1, -1):
        tried = wrap(text, narrower)
        if len(tried) > len(lines):
            break
        lines = tried
    return tuple(lines)


def _block(cue: _Cue) -> str:
    times = f"{_timestamp(cue.from_ms)} --> {_timestamp(cue.to_ms)}"
    return "\n".join([cue.id, times, *map(_escaped, cue.lines)])


def _escaped(line: str) -> str:
    return line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _timestamp(milliseconds: int) -> str:
    seconds, thousandths = divmod(milliseconds, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{seconds:02d}.{thousandths:03d}"


def _ms(seconds: float) -> int:
    return round(seconds * 1000)
