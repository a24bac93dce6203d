"""What was parsed once is kept, and never used for a text that has changed."""

from __future__ import annotations

import sys

import pytest

from tapeline.activities import parsed_files, records
from tapeline.activities.library_files import LibraryFile, content_of
from tapeline.activities.parsed_files import contents_of
from tapeline.activities.records import Faults

ONE = LibraryFile(path="one.yaml", text="cues: [no]\ndate: 2026-11-25\n")
OTHER = LibraryFile(path="one.yaml", text="cues: [yes]\ndate: 2026-11-25\n")


@pytest.fixture
def parsed(tmp_path, monkeypatch):
    """The paths of the files that were parsed, with an empty folder to keep them in."""
    paths = []

    def counting(file):
        paths.append(file.path)
        return content_of(file)

    monkeypatch.setattr(parsed_files, "FOLDER", tmp_path / "kept")
    monkeypatch.setattr(records, "content_of", counting)
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    return paths


def read(*files: LibraryFile):
    return contents_of("some", files, Faults())


def test_a_second_read_parses_nothing_and_gives_the_same(parsed):
    first = read(ONE)
    assert read(ONE) == first == [{"cues": ["no"], "date": "2026-11-25"}]
    assert parsed == ["one.yaml"]


def test_a_changed_text_is_parsed_again(parsed):
    read(ONE)
    assert read(OTHER) == [{"cues": ["yes"], "date": "2026-11-25"}]
    assert read(ONE) == [{"cues": ["no"], "date": "2026-11-25"}]
    assert len(parsed) == 3


def test_a_damaged_copy_is_ignored(parsed):
    read(ONE)
    (parsed_files.FOLDER / "some.json").write_text('{"key": 1', encoding="utf-8")
    assert read(ONE) == [{"cues": ["no"], "date": "2026-11-25"}]
    (parsed_files.FOLDER / "some.json").write_text("[]", encoding="utf-8")
    assert read(ONE) == [{"cues": ["no"], "date": "2026-11-25"}]


def test_a_folder_that_cannot_be_written_does_no_harm(parsed, tmp_path):
    (tmp_path / "kept").write_text("a file stands where the folder should be", encoding="utf-8")
    assert read(ONE) == read(ONE) == [{"cues": ["no"], "date": "2026-11-25"}]


def test_a_file_with_a_fault_is_not_kept(parsed):
    broken = LibraryFile(path="broken.yaml", text="a: ]\n")
    for _ in range(2):
        faults = Faults()
        assert contents_of("some", (broken,), faults) == [{}]
        assert len(faults.found) == 1
    assert not (parsed_files.FOLDER / "some.json").exists()


def test_nothing_is_left_beside_the_copy(parsed):
    read(ONE)
    assert [entry.name for entry in parsed_files.FOLDER.iterdir()] == ["some.json"]
