"""What is left out for good, for a child or for a home: planner and checker agree."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tapeline.caseload.hers import LeftOut
from tapeline.errors import NoFeasiblePlan
from tests.property.strategies import ON, Asked, asked, library
from tests.property.test_plans_hold import PHASES, SLOW, faults_of, plan_for


@st.composite
def rows_of(draw: st.DrawFn, asked: Asked, activities: list[str]) -> tuple[LeftOut, ...]:
    """Up to six rows, for everybody, for a child or for a home."""
    caseload = asked.caseload
    whose = [
        (None, None),
        *((child.id, None) for child in caseload.children),
        *((None, home.id) for home in caseload.homes),
    ]
    picked = draw(
        st.lists(
            st.tuples(st.sampled_from(activities), st.sampled_from(whose)), min_size=1, max_size=6
        )
    )
    return tuple(
        LeftOut(id=f"l{place}", activity=activity, since=ON, child=child, home=home)
        for place, (activity, (child, home)) in enumerate(picked)
    )


@settings(
    max_examples=25, deadline=None, derandomize=True, phases=PHASES, suppress_health_check=SLOW
)
@given(asked(most_children=3), st.data())
def test_a_session_without_what_is_left_out_keeps_every_rule(asked: Asked, data: st.DataObject):
    asked = replace(asked, wishes=replace(asked.wishes, locked=()))
    rows = data.draw(rows_of(asked, sorted(library().activities)))
    asked = replace(asked, caseload=replace(asked.caseload, left_out=rows))
    plan = plan_for(asked)
    if isinstance(plan, NoFeasiblePlan):
        assert plan.clash
    else:
        assert faults_of(plan, asked) == []


@settings(
    max_examples=15, deadline=None, derandomize=True, phases=PHASES, suppress_health_check=SLOW
)
@given(asked(most_children=3), st.data())
def test_a_game_left_out_after_the_plan_was_made_is_found(asked: Asked, data: st.DataObject):
    plan = plan_for(asked)
    assume(not isinstance(plan, NoFeasiblePlan))
    part = data.draw(st.sampled_from(plan["parts"]))
    row = data.draw(st.sampled_from(part["children"]))
    child = asked.caseload.child(row["id"])
    homes = [None] if row["place"] == "room" or child.home is None else [None, child.home]
    home = data.draw(st.sampled_from(homes))
    left_out = LeftOut(
        id="l1",
        activity=part["activity"],
        since=ON,
        child=None if home else child.id,
        home=home,
    )
    caseload = replace(asked.caseload, left_out=(left_out,))
    kinds = {fault.split(":")[0] for fault in faults_of(plan, replace(asked, caseload=caseload))}
    assert "left_out" in kinds
