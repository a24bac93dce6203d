"""What all searches for a session share: joined, dropped, ended, and told when they break."""

from __future__ import annotations

import datetime as dt
import threading
from collections.abc import Callable

import pytest

from tapeline.errors import InputError
from tapeline.web.records.which import OWN, open_database
from tapeline.web.services.behind import Search, Spot, begin_or_join

SPOT = Spot("invented", "gulls", dt.date(2026, 12, 1))
PATIENCE_S = 20.0


class Works(Search):
    """A search that does what it is given."""

    def __init__(self, question: str, work: Callable[[Search], None]) -> None:
        super().__init__(SPOT, question)
        self.work = work

    def search(self) -> None:
        self.work(self)


def finished(one: Works) -> Works:
    assert one.over.wait(PATIENCE_S)
    return one


def test_the_same_question_joins_and_another_drops_the_one_before() -> None:
    go_on, kept = threading.Event(), {}
    after: list[str] = []

    def waits(one: Search) -> None:
        go_on.wait(PATIENCE_S)
        one.go_on()
        after.append("never")

    first = begin_or_join(kept, Works("a", waits))
    assert begin_or_join(kept, Works("a", lambda _one: after.append("twice"))) is first
    assert not first.is_dropped
    second = begin_or_join(kept, Works("b", lambda _one: after.append("second")))
    assert first.is_dropped
    go_on.set()
    finished(first), finished(second)
    assert kept == {SPOT: second}
    assert (after, first.error, second.error) == (["second"], None, None)


def test_a_search_works_on_the_caseload_it_was_asked_in() -> None:
    seen: list[str] = []
    finished(begin_or_join({}, Works("a", lambda _one: seen.append(open_database()))))
    assert (seen, open_database()) == (["invented"], OWN)


def test_what_she_can_mend_is_said_as_it_is_and_a_fault_of_ours_in_our_words() -> None:
    def raises(error: Exception) -> Works:
        def work(_one: Search) -> None:
            raise error

        return finished(begin_or_join({}, Works("a", work)))

    hers = InputError("Nobody comes.", field="members", hint="Add children.")
    assert raises(hers).error is hers
    ours = raises(ZeroDivisionError("Odo")).error
    assert ours is not None
    assert "a fault of tapeline's own" in ours.message
    assert "Odo" not in f"{ours.message}{ours.hint}"


@pytest.mark.parametrize("calls", [1, 3])
def test_a_drop_that_comes_too_early_is_made_again_until_the_search_is_over(calls: int) -> None:
    dropped: list[int] = []

    class Deaf(Works):
        """Hears the drop of this number."""

        def drop(self) -> None:
            super().drop()
            dropped.append(1)
            if len(dropped) >= calls:
                heard.set()

    heard = threading.Event()
    one = begin_or_join({}, Deaf("a", lambda _one: assert_heard(heard)))
    one.drop()
    one.end()
    assert one.over.is_set()
    assert len(dropped) >= calls


def assert_heard(heard: threading.Event) -> None:
    assert heard.wait(PATIENCE_S)
