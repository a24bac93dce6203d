"""The bench itself: the cheat wins, the truth comes next, and aims that are not met say so."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from bench.honesty.aims import Aim, gain
from bench.honesty.cohort import Cohort, Seen
from bench.honesty.goals import Asked, Declared, Said
from bench.honesty.policies import Ladder
from bench.honesty.scores import forecasts_of, score, sessions_of
from bench.honesty.setting import ORDINARY
from bench.honesty.stream import POLICIES, Stream, run
from bench.honesty.summary import goal_words, policy_worth, sure_bins
from bench.honesty.tables import aim_table
from bench.honesty.worlds import WORLDS

SMALL = replace(ORDINARY, children=10, skills=2, weeks=8)


@cache
def stream(policy: str) -> Stream:
    return run(SMALL, WORLDS[0], 11, policy)


@pytest.mark.parametrize("policy", POLICIES)
def test_the_cheat_beats_everyone_and_nobody_honest_beats_the_truth(policy: str) -> None:
    some = [stream(policy)]
    came = sessions_of(some)
    logs = {name: score(forecasts_of(some, name), came).log.value for name in some[0].forecasts}
    best = sorted(logs, key=logs.__getitem__, reverse=True)
    assert best[:2] == ["cheat", "knows the truth"]


def test_forecasts_are_distributions_over_the_goes_there_are() -> None:
    one = stream("ladder rule")
    for found in one.forecasts.values():
        table = np.array(found)
        assert table.sum(axis=1) == pytest.approx(1)
        assert all(row[n + 1 :].sum() == 0 for row, n in zip(table, one.n, strict=True))


def test_every_policy_meets_the_same_days() -> None:
    seen = {(tuple(one.child), tuple(one.n)) for one in map(stream, POLICIES)}
    assert len(seen) == 1


def test_knowing_the_truth_keeps_children_in_the_band_most_often() -> None:
    worth = {name: policy_worth([stream(name)], SMALL.weeks).in_band for name in POLICIES}
    assert max(worth, key=worth.__getitem__) == "oracle"


def test_two_good_sessions_move_the_ladder_up_and_two_bad_ones_down() -> None:
    cohort = Cohort(SMALL, WORLDS[0], 11)
    ladder = Ladder(cohort)
    start = ladder.choose(0, 0, 0)
    good = Seen(goes=(("alone", 6, 4), ("not_yet", 5, 1)))
    bad = Seen(goes=(("alone", 6, 1), ("not_yet", 5, 4)))
    for seen, up in ((good, 0), (good, 1), (bad, 1), (good, 1), (bad, 1), (bad, 0)):
        ladder.see(0, 0, start, seen)
        assert ladder.choose(0, 0, 0) == start + up


def test_a_word_is_false_when_the_chance_is_short_in_that_week() -> None:
    def goal(child: int, week: int | None, chance: float | None) -> Declared:
        said = {} if chance is None else {"x": Said(week=9, true_chance=chance)}
        return Declared(child=child, skill=0, met_at_start=False, truly_week=week, said=said)

    one = replace_goals([goal(0, 4, 0.83), goal(1, None, 0.7), goal(2, 3, None), goal(3, 12, 0.75)])
    found = goal_words([one], "x")
    assert (found.goals, found.said, found.said_falsely) == (4, 3, 2)
    assert found.false_share.value == pytest.approx(2 / 3)
    assert found.false_gap == pytest.approx(0.075)
    assert found.found == pytest.approx(2 / 3)
    assert found.delay_weeks == pytest.approx(1)


def replace_goals(goals: list[Declared]) -> Stream:
    return Stream(setting="", world="", policy="", seed=1, goals=goals)


def test_certainty_is_sorted_by_how_sure_and_counted_by_truth() -> None:
    one = replace_goals([])
    one.asked["x"] = [
        Asked(child=child, sure=sure, is_met=is_met)
        for child, sure, is_met in (
            (0, 0.96, True),
            (1, 0.98, False),
            (2, 0.5, True),
            (3, 0.01, False),
        )
    ]
    found = [(b.answers, round(b.sure, 3), b.true.value) for b in sure_bins([one], "x")]
    assert found == [(1, 0.01, 0.0), (1, 0.5, 1.0), (2, 0.97, 0.5)]


def test_an_aim_that_is_not_met_is_printed_as_such() -> None:
    aims = [
        Aim(what="a", found=0.044, error=None, least=0.45),
        Aim(what="b", found=0.8, error=0.01, least=0.77, most=0.83),
        Aim(what="c", found=float("nan"), error=None, most=0.05),
    ]
    assert [line.endswith("NOT MET") for line in aim_table(aims)] == [True, False, True]


def test_a_gain_over_oneself_is_nothing_and_over_the_last_result_is_the_difference() -> None:
    some = [stream("ladder rule")]
    came = sessions_of(some)
    ours, last = (
        score(forecasts_of(some, name), came).log.value for name in ("tapeline", "last result")
    )
    assert gain(some, "tapeline").value == 0
    assert gain(some, "last result").value == pytest.approx(ours - last)
