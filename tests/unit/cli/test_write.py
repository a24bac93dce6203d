"""``tapeline note`` and ``summary`` write up what a file holds."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, write_whole
from tapeline.caseload.notes import Amendment, NoteSentence, SessionNote
from tests.unit.cli.commands import Run
from tests.unit.cli.conftest import TODAY


def test_a_note_is_drafted_from_the_record(harbour: Path, invented: Caseload, run: Run) -> None:
    session = next(one for one in invented.sessions if one.id == "hall-w2")
    done = run(
        "note", harbour, "--group", "hall", "--date", session.date, "--child", "c1",
        "--today", TODAY,
    )  # fmt: skip
    assert (done.code, done.err) == (0, "")
    assert "Amara took part in Tuesday hall group" in done.out
    assert "Luka" not in done.out


def test_in_json_each_sentence_says_what_it_rests_on(
    harbour: Path, invented: Caseload, run: Run
) -> None:
    session = next(one for one in invented.sessions if one.id == "hall-w2")
    done = run(
        "note", harbour, "--group", "hall", "--date", session.date, "--child", "c1", "--json",
        "--today", TODAY,
    )  # fmt: skip
    sentences = json.loads(done.out)["sentences"]
    assert sentences
    assert all(sentence["rests_on"] for sentence in sentences)


def test_a_signed_note_is_printed_as_it_was_signed(
    tmp_path: Path, invented: Caseload, run: Run
) -> None:
    session = next(one for one in invented.sessions if one.id == "hall-w2")
    kept = SessionNote(
        id="n1",
        session=session.id,
        child="c1",
        sentences=(NoteSentence(text="Amara played."),),
        signed_at="2026-11-17T15:20:00Z",
        signed_by="M. Quint, OTR/L",
        amendments=(Amendment(at="2026-11-18T08:00:00Z", by="M. Quint", text="In the gym."),),
    )
    path = tmp_path / "signed.json"
    write_whole(path, caseload_json(replace(invented, notes=(kept,))))
    done = run(
        "note", path, "--group", "hall", "--date", session.date, "--child", "c1", "--today", TODAY
    )
    assert done.out.splitlines() == [
        "Amara played.",
        "Signed by M. Quint, OTR/L, 2026-11-17T15:20:00Z.",
        "Amendment, 2026-11-18T08:00:00Z, M. Quint: In the gym.",
    ]


def test_a_day_without_a_session_is_refused(harbour: Path, run: Run) -> None:
    done = run(
        "note", harbour, "--group", "hall", "--date", "2020-01-01", "--child", "c1",
        "--today", TODAY,
    )  # fmt: skip
    assert done.code == 2
    assert "No session of hall on 2020-01-01" in done.err


def test_a_summary_is_a_pdf_of_its_own(harbour: Path, tmp_path: Path, run: Run) -> None:
    out = tmp_path / "amara.pdf"
    done = run("summary", harbour, "--child", "c1", "--out", out, "--today", TODAY)
    assert (done.code, done.out) == (0, f"Written: {out}\n")
    assert out.read_bytes().startswith(b"%PDF-")


def test_a_report_for_a_team_has_a_page_for_each_goal(
    harbour: Path, tmp_path: Path, run: Run
) -> None:
    out = tmp_path / "team.pdf"
    options = ("--child", "c1", "--out", out, "--today", TODAY)
    done = run("summary", harbour, "--team", *options)
    assert (done.code, done.out) == (0, f"Written: {out}\n")
    with pikepdf.open(out) as pdf:
        assert len(pdf.pages) == 2
    told = run("summary", harbour, "--team", "--json", "--since", "2026-10-01", *options)
    report = json.loads(told.out)["report"]
    assert [goal["name"] for goal in report["goals"]] == [
        "Catch a bounced ball",
        "Cut along a straight line",
    ]
    assert report["goals"][0]["chart"]["weeks"][-1]["met"] == 6
    assert report["period"].startswith("1 October 2026")


@pytest.mark.parametrize(
    ("options", "why"),
    [
        (("--since", "2026-10-01"), "for the page for a family"),
        (("--team", "--since", "2027-01-01"), "begins on 2027-01-01"),
    ],
)
def test_a_first_day_that_does_not_fit_is_refused(
    harbour: Path, tmp_path: Path, run: Run, options: tuple[str, ...], why: str
) -> None:
    out = tmp_path / "no.pdf"
    done = run("summary", harbour, "--child", "c1", "--out", out, "--today", TODAY, *options)
    assert (done.code, out.exists()) == (2, False)
    assert why in done.err


def test_a_summary_of_nobody_is_refused(harbour: Path, tmp_path: Path, run: Run) -> None:
    out = tmp_path / "nobody.pdf"
    done = run("summary", harbour, "--child", "c99", "--out", out, "--today", TODAY)
    assert done.code == 2
    assert not out.exists()


def test_a_session_not_held_yet_has_no_note(tmp_path: Path, invented: Caseload, run: Run) -> None:
    session = next(one for one in invented.sessions if one.id == "hall-w1")
    planned = replace(session, status="planned")
    path = tmp_path / "planned.json"
    write_whole(path, caseload_json(invented.with_session(planned)))
    done = run(
        "note", path, "--group", "hall", "--date", session.date, "--child", "c1", "--today", TODAY
    )
    assert done.code == 2
    assert "not recorded as held yet" in done.err
