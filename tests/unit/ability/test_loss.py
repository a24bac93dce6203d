"""A clear, lasting fall is found; noise, one bad week and a harder step are not."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from tapeline.ability.loss import SkillLoss, find_loss, loss_values
from tapeline.ability.matters import LossMatter, loss_matter
from tapeline.ability.replay import DatedTrial
from tapeline.ability.settings import shipped_levels
from tapeline.caseload.people import Child, Illness, LossAnswer
from tapeline.errors import InputError
from tests.builders import a_child
from tests.unit.ability.a_ladder import TOSS, a_day, a_row, week

LEVELS = shipped_levels()
GOOD, LOST = (4, 5, 4, 5, 4), (1, 0, 1)


def some_weeks(*alone: int, of: int = 6, first: int = 0, **fields: str) -> list[DatedTrial]:
    """So many tries alone each week; the others needed a model or did not work with one."""
    rows = []
    for number, one in enumerate(alone):
        day, rest = week(first + number), of - one
        rows += a_day(day, one, one, **fields)
        for outcome, count in (("with_help", rest - rest // 2), ("not_yet", rest // 2)):
            if count:
                rows.append(a_row(day, outcome, count, help="model", **fields))
    return rows


def found(rows: list[DatedTrial], on: int, after: dt.date | None = None) -> SkillLoss | None:
    return find_loss(TOSS, rows, on=week(on), levels=LEVELS, after=after)


def test_a_clear_lasting_fall_is_found_with_its_days():
    loss = found(some_weeks(*GOOD, *LOST), 7)
    assert loss is not None
    assert (loss.since, loss.last, loss.days, loss.tries) == (week(5), week(7), 3, 18)
    assert (loss.skill, loss.step) == ("toss", "toss.near")
    assert loss.before_in_ten >= 7
    assert loss.now_in_ten <= 3
    assert loss.ratio > loss_values()["evidence_ratio"]["value"]


def test_one_bad_week_is_no_loss():
    assert found(some_weeks(*GOOD, 0), 5) is None
    assert found(some_weeks(*GOOD, 0, 5), 6) is None


@pytest.mark.parametrize(
    "alone", [(4, 3, 4, 5, 3, 4, 4, 3), (5, 4, 4, 3, 4, 3, 3, 4), (4, 3, 4, 4, 3, 4, 3, 4, 3)]
)
def test_noise_is_no_loss(alone: tuple[int, ...]):
    assert found(some_weeks(*alone, of=5), len(alone)) is None


def test_a_constant_series_and_a_single_day_are_no_loss():
    for alone in ((5,) * 12, (0,) * 12, (3,) * 12, (3,)):
        assert found(some_weeks(*alone, of=5), len(alone)) is None
    assert found([], 3) is None


def test_a_harder_step_that_fails_is_no_loss():
    harder = some_weeks(0, 0, 0, first=5, step="toss.far")
    assert found(some_weeks(*GOOD) + harder, 7) is None


def test_an_easier_step_that_fails_counts():
    easier = some_weeks(0, 1, 0, first=5, step="toss.drop")
    assert found(some_weeks(*GOOD) + easier, 7) is not None


def test_more_help_needed_at_the_same_step_is_a_fall():
    with_a_word = [a_row(week(number), "with_help", 6, help="word") for number in range(6)]
    by_hand = [a_row(week(6 + n), "with_help", 6, help="full_physical") for n in range(3)]
    assert found(with_a_word, 6) is None
    assert found(with_a_word + by_hand, 9) is not None


def test_a_skill_that_comes_back_is_no_loss_any_more():
    rows = some_weeks(*GOOD, *LOST, 5, 5, 5, 5, 5)
    assert found(rows, 7) is not None
    assert found(rows, 12) is None


def test_a_fall_stays_found_while_it_lasts():
    rows = some_weeks(*GOOD, *LOST, 1, 0, 1, 1, 0, 1, 0, 1)
    assert all(found(rows, on) is not None for on in range(7, 16))


def test_a_closed_fall_is_silent_until_the_skill_falls_anew():
    rows = some_weeks(*GOOD, *LOST, 1, 1, 1)
    assert found(rows, 10, after=week(7)) is None
    again = some_weeks(*GOOD, *LOST, 4, 5, 5, 5, 0, 0, 1)
    assert found(again, 14, after=week(7)) is not None


def test_a_thousand_tries_in_a_session_stay_finite():
    with np.errstate(all="raise", under="ignore"):
        loss = found(some_weeks(800, 810, 805, 790, 20, 10, of=1000), 6)
    assert loss is not None
    assert np.isfinite(loss.ratio)


def test_a_prompt_level_outside_the_list_is_refused():
    with pytest.raises(InputError, match="prompt level 'nudge'") as caught:
        found([a_row(week(0), "with_help", 3, help="nudge")], 1)
    assert caught.value.field == "help"


def matter(child: Child, on: int = 7, alone: tuple[int, ...] = LOST) -> LossMatter | None:
    rows = some_weeks(*GOOD, *alone)
    return loss_matter(TOSS, child, rows, on=week(on), levels=LEVELS)


def test_a_fall_is_raised():
    raised = matter(a_child())
    assert raised is not None
    assert raised.stage == "raised"


def test_after_an_illness_it_asks_first():
    ill = Illness(first=week(4), last=week(5))
    asked = matter(a_child(ill=(ill,)))
    assert asked is not None
    assert (asked.stage, asked.ill) == ("after_illness", ill)


def test_an_illness_long_ago_does_not_count():
    raised = matter(a_child(ill=(Illness(first=week(0), last=week(1)),)))
    assert raised is not None
    assert raised.stage == "raised"


def test_after_an_illness_it_is_raised_when_she_says_that_the_child_is_well():
    ill = Illness(first=week(4), last=week(5))
    well = LossAnswer(skill="toss", date=week(6), says="well_again")
    raised = matter(a_child(ill=(ill,), loss_answers=(well,)))
    assert raised is not None
    assert raised.stage == "raised"
    other = replace(well, skill="hop")
    asked = matter(a_child(ill=(ill,), loss_answers=(other,)))
    assert asked is not None
    assert asked.stage == "after_illness"


def test_after_an_illness_it_is_raised_once_the_weeks_of_grace_are_over():
    ill = Illness(first=week(4), last=week(5))
    raised = matter(a_child(ill=(ill,)), on=9, alone=(*LOST, 1, 0))
    assert raised is not None
    assert raised.stage == "raised"


def test_a_matter_she_closed_is_gone_from_that_day_on():
    closed = LossAnswer(skill="toss", date=week(7), says="closed", reason="spoken with the family")
    assert matter(a_child(loss_answers=(closed,))) is None
    assert matter(a_child(loss_answers=(replace(closed, date=week(8)),))) is not None
