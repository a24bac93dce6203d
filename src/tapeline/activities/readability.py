"""How plain a text is to read: the formulas, our own counting, and the reason.

A formula is a rough sign and no verdict: it sees long words and long sentences, and
neither pictures nor order. A grade of the English text says nothing about the Spanish one.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Literal

from tapeline.activities.sentences import is_long, sentences_of, syllables_of
from tapeline.activities.shipped import shipped_rows
from tapeline.errors import InputError

Language = Literal["en", "es"]
LANGUAGES: tuple[Language, ...] = ("en", "es")


def flesch_reading_ease(*, words: int, sentences: int, syllables: int) -> float:
    """Flesch reading ease of an English text; higher is easier, 80 to 90 is easy [1]_.

    References
    ----------
    .. [1] Flesch, R. (1948). A new readability yardstick. Journal of Applied Psychology
           32(3), 221-233. doi:10.1037/h0057532
    """
    return 206.835 - 1.015 * words / sentences - 84.6 * syllables / words


def flesch_kincaid_grade(*, words: int, sentences: int, syllables: int) -> float:
    """United States school grade of an English text; lower is easier [1]_.

    It often comes out too low, so keep a grade of room.

    References
    ----------
    .. [1] Kincaid, J. P., Fishburne, R. P., Rogers, R. L., & Chissom, B. S. (1975).
           Derivation of new readability formulas for Navy enlisted personnel.
           Research Branch Report 8-75.
    """
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59


def fernandez_huerta(*, words: int, sentences: int, syllables: int) -> float:
    """Reading ease of a Spanish text; higher is easier, 80 to 90 is fifth grade [1]_.

    The form often printed takes sentences per 100 words, so that more sentences would
    make a text harder. Law (2011) shows that words per sentence is meant [2]_; that
    form is used here.

    References
    ----------
    .. [1] Fernández Huerta, J. (1959). Medidas sencillas de lecturabilidad.
           Consigna 214, 29-32.
    .. [2] Law, G. (2011). Error in the Fernandez Huerta readability formula.
           LINGUIST List 22.2332.
    """
    return 206.84 - 60 * syllables / words - 1.02 * words / sentences


def szigriszt_pazos(*, words: int, sentences: int, syllables: int) -> float:
    """Reading ease of a Spanish text; higher is easier, 65 to 80 is quite easy [1]_.

    References
    ----------
    .. [1] Szigriszt Pazos, F. (1993). Sistemas predictivos de legibilidad del mensaje
           escrito: fórmula de perspicuidad. Universidad Complutense de Madrid.
    """
    return 206.835 - 62.3 * syllables / words - words / sentences


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was counted in a text, and how plain that makes it.

    `ease` is Flesch's for English and Fernández-Huerta's for Spanish (higher is easier).
    `grade` is Flesch-Kincaid's; None for Spanish, which has no such formula.
    `longest_sentence` holds the words of the longest sentence, the first of equals;
    `long_words` each long word once, in the order met.
    """

    language: Language
    words: int
    sentences: int
    syllables: int
    ease: float
    grade: float | None
    longest_sentence: tuple[str, ...]
    long_words: tuple[str, ...]

    @property
    def longest_sentence_words(self) -> int:
        """Words in the longest sentence."""
        return len(self.longest_sentence)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingLimit:
    """A dated limit: `plain` is the aim, past `warn` the text wants another look."""

    measure: str
    plain: float
    warn: float
    unit: str
    valid_from: date
    mark: str
    source: str


def read_text(text: str, language: str) -> Reading:
    """What a reader meets in a text: words, sentences, syllables, grade or ease, the reasons.

    Parameters
    ----------
    text
        Plain text, one paragraph, bullet or command a line.
    language
        ``en`` or ``es``.

    Raises
    ------
    InputError
        The language is another one, or the text has no word.
    """
    known = _known(language)
    sentences = sentences_of(text, known)
    words = [word for sentence in sentences for word in sentence]
    if not words:
        raise InputError(
            "This text has no words, so there is nothing to read.",
            field="text",
            hint="Write at least one sentence.",
        )
    counts = {
        "words": len(words),
        "sentences": len(sentences),
        "syllables": sum(syllables_of(word, known) for word in words),
    }
    longest = max(sentences, key=len)
    is_english = known == "en"
    return Reading(
        language=known,
        ease=flesch_reading_ease(**counts) if is_english else fernandez_huerta(**counts),
        grade=flesch_kincaid_grade(**counts) if is_english else None,
        longest_sentence=tuple(longest),
        long_words=_long_words(words, known),
        **counts,
    )


def is_plain(reading: Reading) -> bool:
    """Whether the text meets the aim for family pages: grade or ease, and sentence length."""
    return not why_not_plain(reading)


def needs_another_look(reading: Reading) -> bool:
    """Whether the text is past the point where the therapist is warned."""
    if reading.grade is not None:
        is_past = reading.grade > reading_limit("flesch_kincaid_grade", "en").warn
    else:
        is_past = reading.ease < reading_limit("fernandez_huerta", "es").warn
    longest = reading_limit("sentence_words", reading.language).warn
    return is_past or reading.longest_sentence_words > longest


def why_not_plain(reading: Reading) -> tuple[str, ...]:
    """Sentences that say what makes the text hard; none when it is plain."""
    reasons = []
    if reading.grade is not None:
        aim = reading_limit("flesch_kincaid_grade", "en").plain
        if reading.grade > aim:
            reasons.append(f"It reads at grade {reading.grade:.1f}; aim for {aim:g} or below.")
    else:
        aim = reading_limit("fernandez_huerta", "es").plain
        if reading.ease < aim:
            reasons.append(f"Its reading ease is {reading.ease:.1f}; aim for {aim:g} or above.")
    if reasons and reading.long_words:
        reasons.append(_long_words_in_words(reading.long_words))
    most = reading_limit("sentence_words", reading.language).plain
    if reading.longest_sentence_words > most:
        start = " ".join(reading.longest_sentence[:4])
        reasons.append(
            f"The sentence that begins “{start}” has {reading.longest_sentence_words} words;"
            f" aim for {most:g} at most."
        )
    return tuple(reasons)


@cache
def reading_limit(measure: str, language: Language) -> ReadingLimit:
    """The limit in force for one measure, with its date and source."""
    for row in shipped_rows("words/reading_limits.csv"):
        if row["measure"] == measure and row["language"] in (language, "any"):
            return ReadingLimit(
                measure=measure,
                plain=float(row["plain"]),
                warn=float(row["warn"]),
                unit=row["unit"],
                valid_from=date.fromisoformat(row["valid_from"]),
                mark=row["mark"],
                source=row["source"],
            )
    raise ValueError(f"There is no reading limit {measure!r} for {language!r}.")


def _known(language: str) -> Language:
    for known in LANGUAGES:
        if language == known:
            return known
    raise InputError(
        f"The language {language!r} cannot be read here.",
        field="language",
        hint="Choose en (English) or es (Spanish).",
    )


def _long_words(words: list[str], language: Language) -> tuple[str, ...]:
    least = int(reading_limit("long_word_syllables", language).plain)
    long = [word.lower() for word in words if is_long(word, language, from_syllables=least)]
    return tuple(dict.fromkeys(long))


def _long_words_in_words(long_words: tuple[str, ...]) -> str:
    noun = "long word" if len(long_words) == 1 else "long words"
    return f"{len(long_words)} {noun}: {', '.join(long_words)}."
