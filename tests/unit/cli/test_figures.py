"""The drawn moves on the command line."""

from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner

from tapeline.cli.app import app
from tapeline.errors import InputError
from tapeline.figures.moves import MOVES


def test_every_move_is_named_with_its_choices():
    told = json.loads(CliRunner().invoke(app, ["figures", "--json"]).stdout)
    assert set(told) == set(MOVES)
    assert told["throw_under"]["target"] == list(MOVES["throw_under"].choices["target"])
    assert "wheelchair" in told["throw_under"]["way"]


def test_one_move_is_printed_and_moves(tmp_path):
    sheet, loop = tmp_path / "one.pdf", tmp_path / "one.svg"
    asked = ["figures", "--move", "hop", "--sheet", str(sheet), "--loop", str(loop)]
    assert CliRunner().invoke(app, asked).exit_code == 0
    assert sheet.read_bytes().startswith(b"%PDF")
    assert "@keyframes" in loop.read_text("utf-8")


@pytest.mark.parametrize("asked", [["--move", "moonwalk"], ["--loop", "x.svg"]])
def test_what_is_not_there_is_said(asked):
    found = CliRunner().invoke(app, ["figures", *asked])
    assert isinstance(found.exception, InputError)
    assert found.exception.field == "move"
