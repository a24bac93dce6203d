"""The stamp script writes what is missing, and never covers up what is stale."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scripts import stamp_spanish
from tapeline.activities.spanish import SpanishActivity, english_fingerprint
from tests.unit.activities.small_library import a_library

FILE = """activities:
  into_the_box:
    name: A la caja
    all: {cues: [Mira.]}
  into_the_box_again:
    name: Otra vez
"""


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A data folder with one Spanish file of two activities."""
    tmp_path.joinpath("library", "trunk").mkdir(parents=True)
    file = tmp_path / "library" / "trunk" / "toss.es.yaml"
    file.write_text(FILE, encoding="utf-8")
    monkeypatch.setattr(stamp_spanish, "DATA", tmp_path)
    return file


def some_spanish(**changes) -> SpanishActivity:
    """The Spanish of one activity, not stamped yet."""
    spanish = SpanishActivity(
        name="A la caja",
        sibling="",
        english="",
        versions={},
        path="library/trunk/toss.es.yaml",
    )
    return replace(spanish, **changes)


def run(monkeypatch, spanish: SpanishActivity, *arguments: str, name: str = "into_the_box") -> int:
    """Run the script over one activity."""

    class Shelf:
        activities = {name: spanish}

    monkeypatch.setattr(stamp_spanish, "load_library", a_library)
    monkeypatch.setattr(stamp_spanish, "load_spanish", Shelf)
    return stamp_spanish.main(list(arguments))


def the_fingerprint() -> str:
    return english_fingerprint(a_library().activities["into_the_box"])


def test_a_missing_stamp_is_written_under_its_activity_and_nothing_else_moves(folder, monkeypatch):
    assert run(monkeypatch, some_spanish()) == 0
    stamp = f'  into_the_box:\n    english: "{the_fingerprint()}"\n'
    assert folder.read_text(encoding="utf-8") == FILE.replace("  into_the_box:\n", stamp, 1)


def test_a_stale_text_is_named_and_left(folder, monkeypatch, capsys):
    assert run(monkeypatch, some_spanish(english="00000000")) == 1
    assert "into_the_box: the English changed" in capsys.readouterr().out
    assert folder.read_text(encoding="utf-8") == FILE


def test_a_stale_text_is_stamped_again_when_it_is_named(folder, monkeypatch):
    old = FILE.replace("  into_the_box:\n", '  into_the_box:\n    english: "00000000"\n', 1)
    folder.write_text(old, encoding="utf-8")
    found = run(monkeypatch, some_spanish(english="00000000"), "--again", "into_the_box")
    assert found == 0
    assert folder.read_text(encoding="utf-8") == old.replace("00000000", the_fingerprint())


def test_a_fresh_text_is_left_alone(folder, monkeypatch):
    assert run(monkeypatch, some_spanish(english=the_fingerprint())) == 0
    assert folder.read_text(encoding="utf-8") == FILE


def test_spanish_without_english_is_named(folder, monkeypatch, capsys):
    assert run(monkeypatch, some_spanish(), name="gone") == 1
    assert "no English activity" in capsys.readouterr().out
