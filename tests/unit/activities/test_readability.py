"""What counts as plain, and the reasons that are shown."""

from __future__ import annotations

import pytest

from tapeline.activities.readability import (
    is_plain,
    needs_another_look,
    read_text,
    reading_limit,
    why_not_plain,
)
from tapeline.activities.sentences import sentences_of, syllables_of
from tapeline.activities.syllables import syllables_in
from tapeline.errors import InputError

PLAIN = "Put two socks on the floor. Jump from one to the other. Rest, then do it again."
HARD = "Coordination activities necessitate appropriate equipment and considerable supervision."


def test_a_plain_text_is_plain_and_gives_no_reason():
    reading = read_text(PLAIN, "en")
    assert is_plain(reading)
    assert not needs_another_look(reading)
    assert why_not_plain(reading) == ()


def test_a_hard_text_names_its_long_words():
    reading = read_text(HARD, "en")
    assert not is_plain(reading)
    assert needs_another_look(reading)
    assert any("coordination" in reason for reason in why_not_plain(reading))


def test_a_long_sentence_of_short_words_is_not_plain():
    reading = read_text("Go to the box and get the ball and run to me and sit.", "en")
    assert reading.longest_sentence_words == 14
    assert reading.grade < 6
    assert not is_plain(reading)
    assert why_not_plain(reading)[-1].startswith("The sentence that begins “Go to the box” has 14")


def test_between_aim_and_warning_a_text_is_not_plain_and_raises_no_warning():
    text = "The adult sits beside the smaller child. Balance the yellow pillow over your body."
    reading = read_text(text, "en")
    assert 5 < reading.grade <= 6
    assert not is_plain(reading)
    assert not needs_another_look(reading)


def test_hard_spanish_is_past_the_warning():
    reading = read_text("La coordinación bimanual requiere supervisión individualizada.", "es")
    assert reading.grade is None
    assert reading.ease < 70
    assert needs_another_look(reading)
    assert "individualizada" in reading.long_words


def test_the_reading_counts_each_long_word_once():
    reading = read_text("Get the equipment. Use the equipment.", "en")
    assert reading.long_words == ("equipment",)


@pytest.mark.parametrize("mark", ["- ", "* ", "• ", "☐ ", "1. ", "2) ", "a) "])
def test_a_bullet_mark_is_no_word(mark):
    assert sentences_of(f"{mark}Hop twice", "en") == [["Hop", "twice"]]


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("Stand back 3 ft. Throw.", 2),
        ("Stand 3 ft. from the box.", 1),
        ("Get tape, string, etc. and a box.", 1),
        ("Get tape, string, etc. Then sit.", 2),
        ("Dr. Ola Fenn is the one to ask.", 1),
        ("“Ready?” Wait for a nod.", 2),
        ("Wait… Now go!", 2),
        ("\n\nStop.\n\n", 1),
    ],
)
def test_stops_end_sentences_only_where_a_reader_would_stop(text, sentences):
    assert len(sentences_of(text, "en")) == sentences


@pytest.mark.parametrize("word", ["20", "1.5", "10:30", "½", "cm", "e.g", "5x"])
def test_figures_and_short_forms_have_one_syllable(word):
    assert syllables_of(word, "en") == 1


@pytest.mark.parametrize(
    ("word", "syllables"),
    [
        ("table", 2),
        ("tables", 2),
        ("hopped", 1),
        ("lifted", 2),
        ("settled", 2),
        ("rolled", 1),
        ("boxes", 2),
        ("hopes", 1),
        ("bounce's", 2),
        ("dog's", 1),
        ("careful", 2),
        ("homework", 2),
        ("movement", 2),
        ("player", 2),
        ("played", 1),
        ("trying", 2),
        ("quiet", 2),
        ("station", 2),
        ("playdough", 2),
        ("piers", 1),
        ("buoys", 2),
        ("beanbags", 2),
        ("side-step", 2),
        ("don’t", 1),
        ("didn’t", 2),
        ("Coordination", 5),
    ],
)
def test_english_syllables(word, syllables):
    assert syllables_in(word, "en") == syllables


def test_a_text_without_words_is_refused():
    with pytest.raises(InputError, match="no words"):
        read_text(" … \n- ", "en")


def test_another_language_is_refused_by_name():
    with pytest.raises(InputError, match="'fr'") as caught:
        read_text("Bonjour.", "fr")
    assert caught.value.field == "language"


def test_every_limit_is_dated_and_sourced():
    for measure, language in [("flesch_kincaid_grade", "en"), ("fernandez_huerta", "es")]:
        limit = reading_limit(measure, language)
        assert limit.source
        assert limit.valid_from.year >= 2026
    assert reading_limit("sentence_words", "es").plain == 12
