"""What is known of a child is kept only as long as nothing it rests on changes."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.activities.loader import load_library
from tapeline.caseload.caseload import Caseload
from tapeline.sessions import learned
from tapeline.sessions.learn import learned_of
from tapeline.sessions.learned import forget_learned, learned_so_far
from tests.builders import TODAY
from tests.unit.sessions.written_world import a_written_world, tries


@pytest.fixture(autouse=True)
def counted(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How often the record was replayed."""
    forget_learned()
    calls: list[int] = []

    def replayed(*args, **words):
        calls.append(1)
        return learned_of(*args, **words)

    monkeypatch.setattr(learned, "learned_of", replayed)
    return calls


def ask(world: Caseload, on: dt.date = TODAY):
    return learned_so_far(world, load_library(), world.children[0], on=on)


def test_the_same_question_is_replayed_once(counted: list[int]) -> None:
    world = a_written_world()
    first = ask(world)
    assert ask(replace(world, stops=())) is first
    assert len(counted) == 1


@pytest.mark.parametrize("change", ["trials", "dates", "child", "levels", "on"])
def test_whatever_it_rests_on_is_replayed_when_it_changes(change: str, counted: list[int]) -> None:
    world = a_written_world()
    ask(world)
    shown = world.prompt_lists[0].levels
    changed = {
        "trials": replace(world, trials=(*world.trials, tries(9, "c1", "alone"))),
        "dates": replace(
            world, sessions=(replace(world.sessions[0], date=TODAY - dt.timedelta(days=1)),)
        ),
        "child": replace(
            world, children=(replace(world.children[0], skills=()), *world.children[1:])
        ),
        "levels": replace(world, prompt_lists=(replace(world.prompt_lists[0], levels=shown[1:]),)),
        "on": world,
    }[change]
    ask(changed, TODAY + dt.timedelta(days=change == "on"))
    assert len(counted) == 2


def test_what_is_kept_is_bounded(counted: list[int], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(learned, "MOST_KEPT", 2)
    world = a_written_world()
    for days in (0, 1, 2, 0):
        ask(world, TODAY + dt.timedelta(days=days))
    assert len(counted) == 4


def test_a_try_of_another_child_is_news_for_all(counted: list[int]) -> None:
    """Steps are learned across children, so nobody's answer may outlive it."""
    world = a_written_world()
    ask(world)
    other = world.children[1].id
    ask(replace(world, trials=(*world.trials, tries(9, other, "alone"))))
    assert len(counted) == 2
