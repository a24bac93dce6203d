"""Searches that run beside the pages."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest

from tapeline.errors import NoFeasiblePlan, TapelineError
from tapeline.web.services import searches
from tapeline.web.services.searches import (
    MOST_KEPT,
    Running,
    search_begin,
    search_forget,
)

PATIENCE_S = 20.0


@pytest.fixture(autouse=True)
def nothing_runs() -> Iterator[None]:
    """Each test begins and ends without searches."""
    yield
    for key in list(searches._kept):
        search_forget(key)


def test_what_is_found_on_the_way_is_numbered_and_the_answer_kept() -> None:
    def work(running: Running[int, str]) -> str:
        for walk in (30, 25, 23):
            running.found(walk)
        return "23 m"

    running = search_begin(key="a", work=work)
    running.wait(PATIENCE_S)
    assert (running.is_over, running.answer, running.betters) == (True, "23 m", [30, 25, 23])


def test_the_same_question_finds_the_same_search() -> None:
    times = []
    first = search_begin(key="same", work=lambda running: times.append(1))
    first.wait(PATIENCE_S)
    assert search_begin(key="same", work=lambda running: times.append(2)) is first
    assert times == [1]


def test_what_there_is_can_be_taken_while_it_runs() -> None:
    go_on, ended = threading.Event(), threading.Event()

    def work(running: Running[int, str]) -> str:
        running.found(30)
        go_on.wait(PATIENCE_S)
        try:
            running.found(25)
        finally:
            ended.set()
        return "never"

    running = search_begin(key="taken", work=work)
    running.wait_for_better(1, PATIENCE_S)
    running.end()
    assert running.is_over
    go_on.set()
    assert ended.wait(PATIENCE_S)
    assert (running.betters, running.answer) == ([30], None)


@pytest.mark.parametrize(
    ("raised", "name"),
    [(NoFeasiblePlan("It does not fit.", clash=()), "fault"), (ZeroDivisionError(), "broke")],
)
def test_a_search_that_fails_keeps_why(raised: Exception, name: str) -> None:
    def work(running: Running[int, str]) -> str:
        raise raised

    running = search_begin(key=name, work=work)
    running.wait(PATIENCE_S)
    assert running.is_over
    assert getattr(running, name) is raised
    assert isinstance(raised, TapelineError) == (name == "fault")


def test_old_searches_are_ended_and_forgotten() -> None:
    waits = threading.Event()
    first = search_begin(key="0", work=lambda running: waits.wait(PATIENCE_S))
    for number in range(1, MOST_KEPT + 1):
        search_begin(key=str(number), work=lambda running: None)
    assert "0" not in searches._kept
    assert first.is_ended
    waits.set()
