"""Rows to core values and back: two functions per record, and nowhere else.

`..._from_row` reads (prefetch first, see `whole.py`), `..._to_row` writes the row and what
hangs on it. Writing happens inside a service's transaction.
"""

from tapeline.web.records.convert.history import (
    answer_from_row,
    answer_to_row,
    blank_from_row,
    blank_to_row,
    own_activity_from_row,
    own_activity_to_row,
    prompt_list_from_row,
    prompt_list_to_row,
    session_from_row,
    session_to_row,
    trial_from_row,
    trial_to_row,
    trials_with_all,
)
from tapeline.web.records.convert.people import (
    child_from_row,
    child_to_row,
    children_with_all,
    home_from_row,
    home_to_row,
    therapist_from_row,
    therapist_to_row,
)
from tapeline.web.records.convert.places import (
    group_from_row,
    group_to_row,
    groups_with_all,
    site_from_row,
    site_to_row,
    sites_with_all,
)
from tapeline.web.records.convert.whole import caseload_from_rows, rows_from_caseload

__all__ = [
    "answer_from_row",
    "answer_to_row",
    "blank_from_row",
    "blank_to_row",
    "caseload_from_rows",
    "child_from_row",
    "child_to_row",
    "children_with_all",
    "group_from_row",
    "group_to_row",
    "groups_with_all",
    "home_from_row",
    "home_to_row",
    "own_activity_from_row",
    "own_activity_to_row",
    "prompt_list_from_row",
    "prompt_list_to_row",
    "rows_from_caseload",
    "session_from_row",
    "session_to_row",
    "site_from_row",
    "site_to_row",
    "sites_with_all",
    "therapist_from_row",
    "therapist_to_row",
    "trial_from_row",
    "trial_to_row",
    "trials_with_all",
]
