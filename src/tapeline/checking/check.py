"""All rules of a plan, one after another."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from tapeline.checking.allowed import (
    flags_are_named,
    floors_fit,
    home_adults_have_hands,
    needs_have_things,
    no_rule_blocks,
    noise_fits,
    versions_run_there,
    ways_of_getting_about_are_served,
)
from tapeline.checking.amounts import (
    amounts_are_worth_doing,
    everybody_has_trials_on_a_goal,
    new_things_are_few,
    turns_stay_under_the_cap,
)
from tapeline.checking.dropped import no_goal_is_forgotten, what_is_said_of_a_goal_holds
from tapeline.checking.far import rows_stand_in_order
from tapeline.checking.fault import Fault
from tapeline.checking.hall import (
    adults_are_enough,
    an_adult_is_there,
    floors_fit_together,
    stations_have_an_adult,
    stations_share_what_is_there,
)
from tapeline.checking.hands import (
    stations_that_let_go_have_an_adult,
    who_is_let_go_has_an_adult,
)
from tapeline.checking.members import (
    activities_stand_where_they_may,
    everybody_has_a_row,
    no_activity_twice,
    nobody_else_has_a_row,
    parts_stand_in_order,
    places_are_the_members,
    versions_belong_to_the_activity,
)
from tapeline.checking.read import read_json, shaped_caseload, shaped_plan
from tapeline.checking.real import parts_are_real, practice_is_long_enough
from tapeline.checking.rulebook import Book, shipped_book
from tapeline.checking.scene import Scene
from tapeline.checking.stale import (
    children_are_as_they_were,
    the_place_is_as_it_was,
    the_rules_are_as_they_were,
)
from tapeline.checking.timing import (
    changes_are_long_enough,
    children_have_the_time,
    explaining_is_long_enough,
    parts_fit_the_session,
    parts_follow_each_other,
    practice_time_is_there,
)
from tapeline.checking.told import what_has_to_be_said_is_said, what_is_said_is_so
from tapeline.checking.wishes import (
    left_out_activities_are_not_played,
    locked_activities_are_played,
    nobody_plays_what_is_left_out_for_longer,
)

CHECKS: tuple[Callable[[Scene], Iterator[Fault]], ...] = (
    children_are_as_they_were,
    the_place_is_as_it_was,
    the_rules_are_as_they_were,
    everybody_has_a_row,
    nobody_else_has_a_row,
    places_are_the_members,
    versions_belong_to_the_activity,
    activities_stand_where_they_may,
    parts_stand_in_order,
    no_activity_twice,
    no_rule_blocks,
    flags_are_named,
    versions_run_there,
    floors_fit,
    needs_have_things,
    home_adults_have_hands,
    noise_fits,
    ways_of_getting_about_are_served,
    parts_follow_each_other,
    parts_fit_the_session,
    practice_time_is_there,
    children_have_the_time,
    changes_are_long_enough,
    explaining_is_long_enough,
    parts_are_real,
    practice_is_long_enough,
    amounts_are_worth_doing,
    new_things_are_few,
    turns_stay_under_the_cap,
    everybody_has_trials_on_a_goal,
    adults_are_enough,
    stations_have_an_adult,
    an_adult_is_there,
    who_is_let_go_has_an_adult,
    stations_that_let_go_have_an_adult,
    stations_share_what_is_there,
    floors_fit_together,
    locked_activities_are_played,
    left_out_activities_are_not_played,
    nobody_plays_what_is_left_out_for_longer,
    rows_stand_in_order,
    no_goal_is_forgotten,
    what_is_said_of_a_goal_holds,
    what_has_to_be_said_is_said,
    what_is_said_is_so,
)


# What was played counts here; everything else asks of the parts that are still ahead.
OVER_THE_WHOLE_SESSION = (
    versions_belong_to_the_activity,
    activities_stand_where_they_may,
    parts_stand_in_order,
    no_activity_twice,
    parts_follow_each_other,
    parts_fit_the_session,
    practice_time_is_there,
    new_things_are_few,
    turns_stay_under_the_cap,
    everybody_has_trials_on_a_goal,
    locked_activities_are_played,
    no_goal_is_forgotten,
    what_is_said_of_a_goal_holds,
)


def check_plan(
    plan: dict[str, Any], caseload: dict[str, Any], *, book: Book | None = None
) -> tuple[Fault, ...]:
    """Every fault of a plan beside the caseload it is for; empty when all holds.

    Parameters
    ----------
    plan, caseload
        The content of plan.json and of the caseload file.
    book
        Library, rules and timing; those that come with the program when left out.

    Raises
    ------
    InputError
        One of the two is not in its format, or the plan's group is not in the caseload.
    """
    scene = Scene(shaped_plan(plan), shaped_caseload(caseload), book or shipped_book())
    return tuple(
        fault
        for check in CHECKS
        for fault in check(scene if check in OVER_THE_WHOLE_SESSION else scene.ahead)
    )


def check_files(plan_path: Path, caseload_path: Path) -> tuple[Fault, ...]:
    """Every fault of a plan file beside a caseload file.

    Raises
    ------
    InputError
        A file is not there, is no JSON, or is not in its format.
    """
    return check_plan(read_json(plan_path), read_json(caseload_path))
