"""Invented children: the same seed gives the same children, and chances mean what they say."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bench.honesty.cohort import CLOSED, Cohort, attendance, in_order, tally
from bench.honesty.setting import LEVELS, ORDINARY, SCENARIOS
from bench.honesty.worlds import WORLDS, World

SMALL = replace(ORDINARY, children=8, skills=2, weeks=16)


def test_a_seed_fixes_children_days_and_luck() -> None:
    one, other = (Cohort(SMALL, WORLDS[0], 5) for _ in range(2))
    assert np.array_equal(one.ability, other.ability)
    assert one.play(3, 1, 4, 1) == other.play(3, 1, 4, 1) == one.play(3, 1, 4, 1)
    assert not np.array_equal(one.ability, Cohort(SMALL, WORLDS[0], 6).ability)


def test_every_world_has_children_of_its_own() -> None:
    starts = {round(float(Cohort(SMALL, world, 5).ability.sum()), 6) for world in WORLDS}
    assert len(starts) == len(WORLDS)


@pytest.mark.parametrize("world", WORLDS, ids=lambda one: one.name)
def test_learning_stops_at_a_childs_own_most_and_depends_on_difficulty(world: World) -> None:
    chances = np.linspace(0.05, 0.95, 19)
    luck = np.linspace(0.0005, 0.9995, 1000)
    gains = [np.mean([world.law(float(one), float(two)) for two in luck]) for one in chances]
    assert min(gains) >= 0
    assert 0.5 < max(gains) < 2.5
    assert (np.ptp(gains) == 0) == (world.name == "any practice")
    cohort = Cohort(SMALL, world, 5)
    cohort.most[:] = cohort.ability
    before, growth = cohort.ability.copy(), cohort.growth[:, :, 0]
    cohort.practise(0, {(child, skill): 1 for child in range(8) for skill in range(2)})
    assert cohort.ability == pytest.approx(before + growth)


def test_the_share_of_goes_alone_is_the_chance_over_days() -> None:
    cohort = Cohort(replace(ORDINARY, children=40, weeks=120), WORLDS[0], 9)
    alone = chance = goes = 0.0
    for child, skill, week in zip(*np.nonzero(cohort.goes), strict=True):
        seen = cohort.play(child, skill, week, 1)
        alone, goes = alone + seen.alone, goes + seen.n
        chance += seen.n * cohort.chance(child, skill, 1)
    assert alone / goes == pytest.approx(chance / goes, abs=0.01)


def test_children_come_as_often_as_asked_and_miss_in_runs() -> None:
    here = attendance(np.random.default_rng(2), 300, 60, 0.6)
    opened = np.delete(here, CLOSED, axis=1)[:, :-3]
    assert opened.mean() == pytest.approx(0.6, abs=0.02)
    after_a_miss = here[:, 31:][~here[:, 30:-1]].mean()
    assert after_a_miss < 0.5
    assert not here[:, CLOSED].any()


@pytest.mark.parametrize("setting", SCENARIOS, ids=lambda one: one.name)
def test_first_impressions_are_as_wrong_as_the_scenario_says(setting: object) -> None:
    cohort = Cohort(replace(setting, children=400), WORLDS[0], 3)
    off = cohort.impression - cohort.started
    assert off.mean() == pytest.approx(cohort.setting.too_hopeful, abs=0.2)
    far = np.abs(off - cohort.setting.too_hopeful) > 1.4
    assert far.mean() == pytest.approx(0.84 * cohort.setting.misjudged, abs=0.06)


def test_step_guesses_stay_in_order_and_within_their_error() -> None:
    cohort = Cohort(SMALL, WORLDS[0], 4)
    for guessed, true in zip(cohort.guessed, cohort.difficulty, strict=True):
        assert (np.diff(guessed) > 0).all()
        assert (guessed - true >= -1).all()
    assert in_order(np.array([0.0, -1.0, 3.0])).tolist() == [0.0, 0.15, 3.0]


def test_a_go_that_needed_more_help_than_was_tried_is_not_yet_under_that_help() -> None:
    found = {(o, level): n for o, level, n in tally([6, 5, 2, 0], 4, [False] * 4)}
    assert found == {("alone", LEVELS): 1, ("with_help", 5): 1, ("not_yet", 4): 2}
    assert tally([5], 4, [True]) == (("with_help", 4, 1),)
    assert tally([4], 4, [True]) == (("with_help", 4, 1),)
