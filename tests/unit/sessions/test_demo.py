"""The invented caseload: sound on any day, plausible in its past, and plainly invented."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from functools import cache

import pytest

from tapeline.activities.allowed import Here, what_is_allowed
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.models import Version
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.check import check_caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.history import SHIPPED_LEVELS
from tapeline.caseload.people import Child, ChildPrecaution
from tapeline.caseload.places import WEEKDAYS
from tapeline.figures.marks import MARKS
from tapeline.planner.places import Taking, who_takes_part
from tapeline.sessions.demo import demo_caseload, next_meeting

TODAY = dt.date(2026, 11, 25)
DAYS = (
    *(TODAY + dt.timedelta(days=day) for day in range(7)),
    dt.date(2027, 1, 1),
    dt.date(2027, 12, 31),
    dt.date(2028, 2, 29),
    dt.date(2031, 5, 31),
)
ABSENT_ALL_DAY = None


@cache
def demo(today: dt.date = TODAY) -> Caseload:
    return demo_caseload(today)


@pytest.fixture(params=DAYS, ids=str)
def today(request: pytest.FixtureRequest) -> dt.date:
    day: dt.date = request.param
    return day


def test_it_is_a_sound_caseload_on_any_day(today: dt.date) -> None:
    check_caseload(
        demo(today),
        library=load_library(),
        book=load_rule_book(),
        today=today,
        name="The invented caseload",
    )


def test_the_same_day_gives_the_same_file() -> None:
    assert caseload_json(demo_caseload(TODAY)) == caseload_json(demo_caseload(TODAY))


def test_it_says_that_it_is_invented() -> None:
    assert demo().invented


def test_telephone_numbers_are_of_the_block_kept_for_fiction() -> None:
    # 555-0100 to 555-0199: reserved for fictional use in the North American Numbering Plan
    # (ATIS industry numbering guidelines; from memory).
    assert "555-01" in demo().therapist.ring


def test_fifteen_children_stay_three_to_seven_years_old(today: dt.date) -> None:
    ages = [child.age_months(today) for child in demo(today).children]
    assert len(ages) == 15
    assert min(ages) >= 3 * 12
    assert max(ages) < 8 * 12
    assert max(ages) - min(ages) > 24


def test_the_birth_months_follow_today() -> None:
    one_year_on = TODAY.replace(year=TODAY.year + 1)
    for now, later in zip(demo().children, demo(one_year_on).children, strict=True):
        assert int(later.born[:4]) == int(now.born[:4]) + 1
        assert later.born[4:] == now.born[4:]


def test_groups_have_the_places_they_are_told_with() -> None:
    places = {
        group.id: Counter(member.place for member in group.members) for group in demo().groups
    }
    assert places == {
        "hall": {"room": 6},
        "home": {"home": 3, "home_later": 2},
        "mixed": {"room": 2, "home": 1, "home_later": 1},
    }


def test_marks_differ_within_a_group() -> None:
    for group in demo().groups:
        marks = [demo().child(member.child).mark for member in group.members]
        assert len(set(marks)) == len(marks)
        assert set(marks) <= set(MARKS)


def test_every_child_has_one_to_three_goals_above_the_start() -> None:
    skills = load_library().skills
    for child in demo().children:
        assert 1 <= len(child.goals) <= 3
        for goal in child.goals:
            start = child.start_of(goal.skill)
            if start is not None:
                index = skills[goal.skill].index_of
                assert index(start) <= index(goal.step) <= index(start) + 1
            assert goal.baseline is not None
            assert goal.baseline.k < goal.k


def test_homes_differ() -> None:
    homes = demo().homes
    spaces = {home.space for home in homes}
    assert {"one_square_metre", "garden", "own_size", "room"} <= spaces
    assert any(home.language == "es" for home in homes)
    assert any(home.hands == 1 for home in homes)
    assert any(home.crawling_baby for home in homes)
    assert any(home.loudest == "quiet" for home in homes)
    assert len({home.things for home in homes}) == len(homes)


def test_coming_meetings_fall_on_open_days_within_a_term(today: dt.date) -> None:
    caseload = demo(today)
    for group in caseload.groups:
        for week in range(6):
            on = next_meeting(group.weekday, today) + dt.timedelta(weeks=week)
            assert WEEKDAYS[on.weekday()] == group.weekday
            if group.site is not None:
                caseload.site(group.site).refuse_date(on)


def test_the_next_meeting_may_be_today() -> None:
    assert next_meeting("wednesday", TODAY) == TODAY
    assert next_meeting("tuesday", TODAY) == TODAY + dt.timedelta(days=6)


def test_two_terms_lie_around_today(today: dt.date) -> None:
    (site,) = demo(today).sites
    first, second = site.terms
    assert first.starts < today <= first.ends < second.starts


def test_what_was_held_lies_behind(today: dt.date) -> None:
    caseload = demo(today)
    for group in caseload.groups:
        sessions = caseload.sessions_of(group.id)
        weeks = {(next_meeting(group.weekday, today) - one.date).days // 7 for one in sessions}
        assert weeks | {2, 3} == {1, 2, 3, 4, 5, 6, 7, 8}
        for session in sessions:
            assert session.date < today
            assert session.status in ("held", "cancelled", "moved")


def test_held_sessions_fell_on_open_days(today: dt.date) -> None:
    caseload = demo(today)
    for group in caseload.groups:
        if group.site is None:
            continue
        for session in caseload.sessions_of(group.id):
            if session.status == "held":
                caseload.site(group.site).refuse_date(session.date)


def test_one_session_was_cancelled_on_the_closed_day_and_one_moved() -> None:
    caseload = demo()
    (cancelled,) = (one for one in caseload.sessions if one.status == "cancelled")
    (moved,) = (one for one in caseload.sessions if one.status == "moved")
    closed = {day.date: day.reason for site in caseload.sites for day in site.closed}
    assert closed[cancelled.date] == cancelled.reason
    held = {one.date for one in caseload.sessions_of(moved.group) if one.status == "held"}
    assert moved.moved_to in held


def test_trials_name_versions_and_steps_that_exist() -> None:
    library = load_library()
    for trial in demo().trials:
        assert library.find_version(trial.version).step == trial.step, trial.id


def test_trials_use_the_shipped_prompt_levels() -> None:
    levels = {level.id for level in SHIPPED_LEVELS}
    assert {trial.help for trial in demo().trials} <= levels
    for trial in demo().trials:
        assert (trial.outcome == "alone") == (trial.help == "alone")


def test_trials_belong_to_a_game_of_their_session_and_to_a_member() -> None:
    caseload = demo()
    sessions = {session.id: session for session in caseload.sessions}
    for trial in caseload.trials:
        session = sessions[trial.session]
        assert trial.version.split(".")[0] in session.activities
        assert trial.child in {member.child for member in caseload.group(session.group).members}


def test_where_a_blank_stands_nothing_was_counted() -> None:
    caseload = demo()
    kinds = {blank.kind for blank in caseload.blanks}
    assert {"absent", "refused"} <= kinds
    for blank in caseload.blanks:
        own = [
            trial
            for trial in caseload.trials
            if (trial.session, trial.child) == (blank.session, blank.child)
        ]
        if blank.activity is not ABSENT_ALL_DAY:
            own = [trial for trial in own if trial.version.split(".")[0] == blank.activity]
        assert own == []


def test_trials_lie_below_at_and_above_the_starts() -> None:
    skills = load_library().skills
    lies = Counter()
    for trial in demo().trials:
        skill = skills[trial.step.partition(".")[0]]
        start = demo().child(trial.child).start_of(skill.id)
        if start is not None:
            index = skill.index_of(trial.step) - skill.index_of(start)
            lies["below" if index < 0 else "above" if index else "at"] += trial.count
    assert all(lies[where] >= 100 for where in ("below", "at", "above"))


def test_two_families_answered() -> None:
    answers = demo().family_answers
    assert len({answer.child for answer in answers}) == 2
    assert {answer.went for answer in answers} == {
        "too_easy",
        "about_right",
        "too_hard",
        "not_fun",
    }
    assert any(answer.hurt_or_scary for answer in answers)


def takings(on: dt.date) -> list[Taking]:
    caseload = demo()
    return [
        taking
        for group in caseload.groups
        for taking in who_takes_part(caseload, group, on=on, away=())
    ]


def versions_ruled_by(kind: str, taking: Taking, here: Here, on: dt.date) -> list[Version]:
    library, book = load_library(), load_rule_book()
    return [
        version
        for activity in library.activities.values()
        for version in activity.versions
        if any(
            rule.startswith(f"{kind}.")
            for rule in what_is_allowed(
                version, who=taking.who, here=here, library=library, book=book, on=on
            ).rules
        )
    ]


HELD = [(child, held) for child in demo().children for held in child.precautions]


@pytest.mark.parametrize(
    ("child", "held"),
    [pair for pair in HELD if not any(paper.ends for paper in pair[1].go_aheads)],
    ids=lambda found: found.id if isinstance(found, Child) else found.kind,
)
def test_every_precaution_bites(child: Child, held: ChildPrecaution) -> None:
    (taking,) = (one for one in takings(TODAY) if one.child.id == child.id)
    assert versions_ruled_by(held.kind, taking, taking.here, TODAY)


def test_a_latex_precaution_reaches_everybody_in_the_hall() -> None:
    reached = {
        taking.child.id
        for taking in takings(TODAY)
        if versions_ruled_by("latex", taking, taking.here, TODAY)
    }
    hall = {member.child for member in demo().group("hall").members}
    assert hall <= reached
    assert reached == hall


def test_turning_is_held_back_when_the_go_ahead_has_ended() -> None:
    (elif_now,) = (one for one in takings(TODAY) if one.child.name == "Elif")
    (held,) = elif_now.child.precautions
    (paper,) = held.go_aheads
    assert paper.ends is not None
    after = paper.ends + dt.timedelta(days=1)

    def held_back(on: dt.date) -> list[str]:
        found = versions_ruled_by("seizures_light_or_turning", elif_now, elif_now.here, on)
        return [version.id for version in found if "turn" in version.touches]

    assert TODAY < paper.ends < TODAY + dt.timedelta(weeks=6)
    assert held_back(paper.ends) == []
    assert held_back(after)
