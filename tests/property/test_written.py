"""Whatever was recorded, notes rest on it, name nobody else, and minutes add up."""

from __future__ import annotations

import re
from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Blank, FamilyAnswer, LateOrEarly, Session, Stop
from tapeline.sessions.minutes import ledger_of
from tapeline.sessions.note import draft_note, made_from
from tapeline.sessions.part_taken import part_taken
from tests.property.strategies import ON, WEEK, Asked, asked

CLOCKS = ("09:20", "09:30", "09:41", "10:05", "10:30")


@st.composite
def recorded(draw: st.DrawFn) -> Caseload:
    """A group whose last session was held, cut short, called off, or not written up."""
    case: Asked = draw(asked(most_children=4))
    children = [child.id for child in case.caseload.children]
    some = st.sampled_from(children)
    began, ended = sorted(draw(st.tuples(st.sampled_from(CLOCKS), st.sampled_from(CLOCKS))))
    status = draw(st.sampled_from(("held", "held", "held", "planned", "cancelled", "moved")))
    session = Session(
        id="last",
        group="g",
        date=ON - WEEK,
        status=status,
        side=draw(st.sampled_from((None, "child", "provider", "building"))),
        reason="C1 and C2 were out" if status in ("cancelled", "moved") else "",
        began=draw(st.sampled_from((None, began))),
        ended=draw(st.sampled_from((None, ended))),
    )
    sites = tuple(
        replace(
            site,
            recording_counts=draw(
                st.sampled_from(("not_said", "never", "when_sent", "when_followed"))
            ),
        )
        for site in case.caseload.sites
    )
    blanks = draw(
        st.lists(
            st.builds(
                Blank,
                session=st.just("last"),
                child=some,
                kind=st.sampled_from(("absent", "refused", "not_seen", "not_offered")),
                activity=st.sampled_from((None, "loaf_catch", "gone_from_the_library")),
            ),
            max_size=3,
        )
    )
    late = draw(
        st.lists(
            st.builds(
                LateOrEarly,
                id=st.just("l1"),
                session=st.just("last"),
                child=some,
                kind=st.sampled_from(("late", "left_early")),
                at=st.sampled_from(CLOCKS),
            ),
            max_size=1,
        )
    )
    stop = Stop(id="x1", session="last", happened="C1 ran into C2", done="C3 fetched ice")
    answer = FamilyAnswer(id="a1", session="last", child=children[0], hurt_or_scary="C2 cried")
    return replace(
        case.caseload,
        sites=sites,
        sessions=(session,),
        blanks=tuple(blanks),
        late_or_early=tuple(late),
        stops=draw(st.sampled_from(((), (stop,)))),
        family_answers=draw(st.sampled_from(((), (answer,)))),
    )


@settings(
    max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(caseload=recorded())
def test_notes_rest_on_the_record_and_minutes_add_up(caseload: Caseload) -> None:
    session, group = caseload.sessions[0], caseload.groups[0]
    for child in caseload.children:
        draft = draft_note(caseload, session, child)
        assert all(sentence.rests_on and sentence.text.strip() for sentence in draft)
        assert made_from(draft) == made_from(draft_note(caseload, session, child))
        said = " ".join(sentence.text for sentence in draft)
        for other in caseload.children:
            if other.id != child.id:
                assert not re.search(rf"\b{other.name}\b", said)
        ledger = ledger_of(caseload, child, group, first=ON - 2 * WEEK, last=ON)
        for line in ledger.lines:
            counted = min(line.delivered, line.planned) + line.missed + line.unsettled
            assert counted == line.planned
            assert min(line.delivered, line.missed, line.unsettled) >= 0
            assert (line.side is not None) == (line.missed > 0)
        part = part_taken(caseload, session, child)
        if part.presence != "there" or session.status != "held":
            assert "took part" not in said
            assert "delivered" not in said
        if session.status == "planned":
            assert draft == ()
