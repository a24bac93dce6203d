"""One search for a session's plan that goes on behind the pages.

Every plan that is stored on the way is a whole one that the checker has passed. The search
stores nothing any more once she asked something else, called the session off or began it.
"""

from __future__ import annotations

import threading
import time
from contextlib import suppress
from typing import TYPE_CHECKING

from tapeline.caseload.history import Session
from tapeline.errors import InputError, TapelineError
from tapeline.web.gate import GATE
from tapeline.web.records.models import Asked
from tapeline.web.records.which import opened
from tapeline.web.services.behind import Search, Spot, Superseded, caseload_on_file
from tapeline.web.services.checked import refuse_faulty
from tapeline.web.services.kept_texts import plan_keep
from tapeline.web.services.saving import saving
from tapeline.web.services.sessions import session_to_plan

if TYPE_CHECKING:
    from tapeline.planner.plan import Wishes
    from tapeline.sessions.prepare import Decided

STORE_AGAIN_S = 0.5


class Looking(Search):
    """A search that stores what it finds; the key of her question on file is what it is asked.

    `stored` counts how often a plan was stored, so that a page sees that there is news.
    """

    def __init__(self, spot: Spot, key: str, wishes: Wishes | None, adults: int | None) -> None:
        from tapeline.planner.solve import Halt

        super().__init__(spot, key)
        self.key = key
        self.stored = 0
        self.is_decided = False
        self._wishes = wishes
        self._adults = adults
        self._halt = Halt()
        self._found: dict[int, Decided] = {}
        self._at_most: int | None = None
        self._take: int | None = None
        self._stored_at = 0.0
        self._news = threading.Event()

    @property
    def left(self) -> float | None:
        """What share more than the best plan so far is possible at most; None: not known yet."""
        worth = max((one.choice.worth for one in list(self._found.values())), default=0)
        if self._at_most is None or worth <= 0:
            return None
        return max(0.0, self._at_most / worth - 1)

    def wait(self, seconds: float) -> None:
        """Wait until a plan is stored or the search is over, or so long."""
        self._news.wait(seconds)

    def take(self, number: int) -> None:
        """Let the plan of this number stand, or the best one where there is none of it."""
        self._take = number
        self._halt.call()

    def drop(self) -> None:
        """Store nothing any more, and end soon."""
        super().drop()
        self._halt.call()

    def run(self, before: Search | None = None) -> None:
        """Search to the end, once the search before it has ended."""
        if before is not None:
            before.end()
        try:
            super().run()
        finally:
            self._found.clear()
            self._news.set()

    def search(self) -> None:
        """Choose the plan and then its swaps, and store each plan on the way."""
        from tapeline.sessions.prepare import choose_session, lay_out_session

        caseload = caseload_on_file()
        self.go_on()
        spot = self.spot
        given, board = lay_out_session(
            caseload, group=spot.group, on=spot.date, wishes=self._wishes, adults=self._adults
        )
        self.go_on()
        best = choose_session(
            given, board, watch=self._watch, halt=self._halt, bounds=self._bounded
        )
        self.go_on()
        if self._take is not None:
            best = self._found.get(self._take, best)
        self._store(best, closes=self._take is not None)
        self.is_decided = True
        self._store(best, with_swaps=True, closes=True)

    def _watch(self, found: Decided) -> None:
        """Note a plan; store the first, and a better one when the last is a while ago."""
        self._found[found.choice.number] = found
        if not self.stored or time.monotonic() - self._stored_at > STORE_AGAIN_S:
            with suppress(TapelineError):  # the last one is stored all the same, or says why
                try:
                    self._store(found)
                except Superseded:
                    self.drop()

    def _bounded(self, at_most: int) -> None:
        self._at_most = at_most

    def _store(self, best: Decided, *, with_swaps: bool = False, closes: bool = False) -> None:
        from tapeline.sessions.course_again import as_walked

        caseload = best.given.caseload
        plan = as_walked(best.written(), caseload) if with_swaps else best.as_it_stands()
        refuse_faulty(plan, caseload)
        with GATE.passing(), saving():
            plan_keep(self._session(), plan, caseload)
            if closes:
                Asked.objects.filter(key=self.key).update(is_open=False)
        self.stored += 1
        self._stored_at = time.monotonic()
        self._news.set()

    def _session(self) -> Session:
        """The session as it is on file now, where this search is still the one she wants."""
        if self.is_dropped or not Asked.objects.filter(key=self.key).exists():
            raise Superseded
        try:
            return session_to_plan(group_key=self.spot.group, on=self.spot.date)
        except InputError:  # called off, begun or held meanwhile: its page says so
            raise Superseded from None

    def fail(self, error: TapelineError) -> None:
        """Keep why no plan comes, also on file, where it is still the one she wants."""
        if self.is_dropped:
            return
        super().fail(error)
        with suppress(TapelineError), opened(self.spot.database), GATE.passing(), saving():
            Asked.objects.filter(key=self.key).update(is_open=False)
