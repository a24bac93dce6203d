"""The session plan: propose, lock, swap, leave out, ask for an amount, move, cancel, take back."""

from __future__ import annotations

import html
import re

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.planner.plan import SessionPlan, wishes_from_json
from tapeline.web.records.models import Child as ChildRow
from tapeline.web.records.models import Room as RoomRow
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.erase import child_erase
from tapeline.web.services.places import member_add
from tests.web.pages.plan_pages import (
    ASK,
    CALL_OFF,
    GROUP,
    PACKET,
    PLAN,
    TUESDAY,
    ask,
    fault_of,
    keep_plan,
    kept,
    text_of,
)

pytestmark = pytest.mark.django_db
MOVE = {"do": "move", "reason": "The hall is painted", "side": "building", "to": "2026-12-02"}
CANCEL = {"do": "cancel", "reason": "The heating failed", "side": "building"}


@pytest.fixture
def plan(on_file: Caseload) -> SessionPlan:
    """The session of Tuesday, 1 December, planned."""
    return keep_plan()


def skilled_place(plan: SessionPlan) -> int:
    """A part in which tries are counted."""
    return next(at for at, part in enumerate(plan.parts) if part.part == "practice")


# ---- propose


def test_a_session_without_a_plan_offers_to_make_one(browser: Client, on_file: Caseload) -> None:
    said = text_of(browser.get(PLAN))
    assert "2 children come." in said
    assert "Propose a session" in said


def test_a_proposal_has_a_version_and_a_reason_for_every_child(
    browser: Client, on_file: Caseload
) -> None:
    answer = ask(browser)
    said = text_of(answer)
    assert answer.redirect_chain == [(PLAN, 302)]
    assert "Here is a proposal." in said
    assert "Odo" in said
    assert "Wim" in said
    reasons = re.findall(r'<p class="reason">(.*?)</p>', answer.content.decode())
    assert len(reasons) == 2
    assert all(reason.endswith(".") for reason in reasons)


def test_minutes_of_the_parts_add_up_to_what_the_head_says(
    browser: Client, plan: SessionPlan
) -> None:
    page = browser.get(PLAN).content.decode()
    each = [int(count) for count in re.findall(r"(\d+) min</span>", page)]
    head = re.search(r"(\d+) of 40 minutes", text_of(browser.get(PLAN)))
    assert head is not None
    assert sum(each) == int(head[1])


def test_every_part_opens_with_its_own_activity(browser: Client, plan: SessionPlan) -> None:
    titles = set()
    for place in range(len(plan.parts)):
        page = browser.get(PLAN, {"part": place}).content.decode()
        titles.add(re.search(r'id="chosen".*?<h2>(.*?)</h2>', page, re.DOTALL)[1])
    assert len(titles) == len(plan.parts)


@pytest.mark.parametrize("part", ["999", "-1", "x", "", "1.5", "²", "9" * 5000])
def test_a_part_that_is_not_there_shows_the_nearest(
    part: str, browser: Client, plan: SessionPlan
) -> None:
    assert browser.get(PLAN, {"part": part}).status_code == 200


# ---- wishes


def test_a_locked_activity_stays_until_it_is_unlocked(browser: Client, plan: SessionPlan) -> None:
    activity = plan.parts[1].activity
    locked = ask(browser, "lock", activity=activity, part=1)
    assert '<span class="tag">Locked</span>' in locked.content.decode()
    assert [lock.activity for lock in kept().request.wishes.locked] == [activity]
    unlocked = ask(browser, "unlock", activity=activity, part=1)
    assert '<span class="tag">Locked</span>' not in unlocked.content.decode()
    assert kept().request.wishes.locked == ()


def test_locking_changes_nothing_else(browser: Client, plan: SessionPlan) -> None:
    said = text_of(ask(browser, "lock", activity=plan.parts[0].activity))
    assert "Nothing else changed." in said
    assert kept().parts == plan.parts


def test_a_swap_puts_the_other_in_its_place_and_says_so(browser: Client, plan: SessionPlan) -> None:
    swap = plan.swaps[0]
    out = plan.parts[swap.part]
    said = text_of(ask(browser, "swap", activity=out.activity, other=swap.activity, part=swap.part))
    assert "in place of" in said
    assert out.activity not in {part.activity for part in kept().parts}
    new = kept().part_of(swap.activity)
    assert new is not None
    assert new.part == out.part


def test_what_is_left_out_is_gone_until_it_is_allowed_again(
    browser: Client, plan: SessionPlan
) -> None:
    activity = plan.parts[0].activity
    answer = ask(browser, "leave_out", activity=activity, part=0)
    assert kept().part_of(activity) is None
    assert re.search(r"Allow [^<]* again", answer.content.decode())
    ask(browser, "take_in", activity=activity)
    assert kept().request.wishes.left_out == ()


def test_an_amount_for_one_child_leaves_the_others_theirs(
    browser: Client, plan: SessionPlan
) -> None:
    place = skilled_place(plan)
    activity = plan.parts[place].activity
    before = {row.id: row.amount for row in plan.parts[place].children}
    amount = before["c2"] - 1
    ask(browser, "amount", activity=activity, child="c2", amount=amount, part=place)
    after = kept().part_of(activity)
    assert after is not None
    assert {row.id: row.amount for row in after.children} == before | {"c2": amount}


def test_an_amount_is_asked_again_with_the_next_wish(browser: Client, plan: SessionPlan) -> None:
    place = skilled_place(plan)
    activity = plan.parts[place].activity
    ask(browser, "amount", activity=activity, child="c2", amount=5, part=place)
    ask(browser, "lock", activity=plan.parts[0].activity)
    assert [one.amount for one in kept().request.wishes.amounts] == [5]


def test_who_is_away_has_no_version(browser: Client, plan: SessionPlan) -> None:
    answer = ask(browser, "away", away=["c2"], adults=2)
    assert {row.id for part in kept().parts for row in part.children} == {"c1"}
    assert re.search(r'name="away" value="c2" checked', answer.content.decode())
    ask(browser, "away", adults=2)
    assert kept().request.wishes.away == ()


def test_other_adults_are_kept_for_the_next_question(browser: Client, plan: SessionPlan) -> None:
    ask(browser, "away", adults=4)
    ask(browser, "lock", activity=kept().parts[0].activity)
    assert kept().request.adults == 4


def test_choosing_anew_keeps_the_wishes(browser: Client, plan: SessionPlan) -> None:
    activity = plan.parts[0].activity
    ask(browser, "lock", activity=activity)
    ask(browser, "afresh")
    assert [lock.activity for lock in kept().request.wishes.locked] == [activity]


# ---- what cannot be


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ({"do": "amount", "amount": "many"}, "'many' is not a whole number"),
        ({"do": "amount", "amount": "-3"}, "'-3' is not a whole number"),
        ({"do": "amount", "amount": "2.5"}, "'2.5' is not a whole number"),
        ({"do": "amount", "amount": "9" * 5000}, "is not a whole number"),
        ({"do": "away", "adults": "0"}, "Tuesday hall has no adult in the room on 2026-12-01."),
        ({"do": "away", "adults": "two"}, "'two' is not a whole number"),
        ({"do": "away", "away": ["c1", "c2"]}, "Tuesday hall has no children on 2026-12-01."),
        ({"do": "lock", "activity": "zz"}, "There is no activity 'zz' in the library."),
        ({"do": "swap", "activity": "zz", "other": "zz"}, "zz is no longer in the plan."),
    ],
)
def test_what_cannot_be_used_is_said_in_a_sentence_and_the_plan_stays(
    words: dict[str, object], sentence: str, browser: Client, plan: SessionPlan
) -> None:
    if words["do"] == "amount":
        words |= {"activity": plan.parts[skilled_place(plan)].activity, "child": "c2"}
    answer = browser.post(ASK, words)
    assert answer.status_code == 422
    assert sentence in fault_of(answer)
    assert kept() == plan
    assert "Print the packet" in text_of(answer)


def test_an_amount_that_no_part_can_hold_says_what_clashes_and_what_was_tried(
    browser: Client, plan: SessionPlan
) -> None:
    activity = plan.parts[skilled_place(plan)].activity
    ask(browser, "lock", activity=activity)
    answer = browser.post(ASK, {"do": "amount", "activity": activity, "amount": 99, "child": "c2"})
    assert answer.status_code == 422
    assert fault_of(answer).startswith("No session fits. ")
    assert "Each of these was tried, and gives a plan:" in fault_of(answer)
    assert kept().request.wishes.amounts == ()


def test_a_way_out_is_one_press(browser: Client, plan: SessionPlan) -> None:
    activity = plan.parts[skilled_place(plan)].activity
    ask(browser, "lock", activity=activity)
    answer = browser.post(ASK, {"do": "amount", "activity": activity, "amount": 99, "child": "c2"})
    page = answer.content.decode()
    wishes = html.unescape(page.split('name="wishes" value="', 1)[1].split('"', 1)[0])
    adults = page.split('name="adults" value="', 1)[1].split('"', 1)[0]
    browser.post(ASK, {"do": "way", "wishes": wishes, "adults": adults})
    assert kept() != plan
    assert kept().request.wishes == wishes_from_json(wishes)


def test_a_button_that_was_tampered_with_is_refused(browser: Client, plan: SessionPlan) -> None:
    answer = browser.post(ASK, {"do": "way", "wishes": "{", "adults": "2"})
    assert answer.status_code == 422
    assert "could not be read" in fault_of(answer)
    assert kept() == plan


def test_tries_at_any_skill_are_asked_for_with_who_is_there(
    browser: Client, plan: SessionPlan
) -> None:
    ask(browser, "away", any_skill=["c2"])
    assert kept().request.wishes.any_skill == ("c2",)


def test_a_group_or_a_date_that_is_not_there_is_a_calm_404(
    browser: Client, on_file: Caseload
) -> None:
    for address in ("/groups/zz/2026-12-01/", f"/groups/{GROUP}/tomorrow/", "/week/tomorrow/"):
        answer = browser.get(address)
        assert answer.status_code == 404
        assert "This page is not here" in text_of(answer)


@pytest.mark.parametrize("date", ["0001-01-01", "9999-12-31"])
def test_the_ends_of_the_calendar_are_dates_too(
    date: str, browser: Client, on_file: Caseload
) -> None:
    assert browser.get(f"/groups/{GROUP}/{date}/").status_code == 200
    assert browser.post(f"/groups/{GROUP}/{date}/ask/").status_code == 422


def test_a_closed_day_says_why_and_is_not_planned(browser: Client, on_file: Caseload) -> None:
    address = f"/groups/{GROUP}/2026-11-26/"
    assert "Quay School is closed on 2026-11-26 (staff day)." in text_of(browser.get(address))
    answer = browser.post(f"{address}ask/")
    assert answer.status_code == 422
    assert "staff day" in fault_of(answer)
    assert session_of(GROUP, TUESDAY) is None


def test_a_held_session_is_not_planned_again(browser: Client, on_file: Caseload) -> None:
    answer = browser.post(f"/groups/{GROUP}/2026-11-17/ask/")
    assert answer.status_code == 422
    assert "was held. What was held is not planned again" in fault_of(answer)


@pytest.mark.parametrize("address", [ASK, CALL_OFF])
def test_nothing_is_changed_by_following_a_link(
    address: str, browser: Client, plan: SessionPlan
) -> None:
    assert browser.get(address).status_code == 405


# ---- what changed since


def test_a_plan_made_before_a_precaution_changed_says_plan_again(
    browser: Client, plan: SessionPlan
) -> None:
    row = ChildRow.objects.get(key="c2")
    row.gets_about = "wheelchair"
    row.save()
    said = text_of(browser.get(PLAN))
    assert "Made before Wim's precautions changed: plan again." in said
    assert "Plan again" in said
    assert "Print the packet" not in said


def test_a_plan_made_before_the_group_changed_says_plan_again(
    browser: Client, plan: SessionPlan
) -> None:
    member_add(group_key=GROUP, child_key="c3")
    said = text_of(browser.get(PLAN))
    assert "Made before the group or its room changed: plan again." in said
    assert "Print the packet" not in said


def test_a_plan_made_before_a_thing_was_taken_out_of_the_room_says_plan_again(
    browser: Client, plan: SessionPlan
) -> None:
    RoomRow.objects.update(things=[])
    assert "Made before the group or its room changed" in text_of(browser.get(PLAN))


def test_planning_again_takes_the_notice_away(browser: Client, plan: SessionPlan) -> None:
    ChildRow.objects.filter(key="c2").update(gets_about="wheelchair")
    said = text_of(ask(browser))
    assert "plan again" not in said
    assert "Print the packet" in said


def test_a_stale_plan_is_not_printed(browser: Client, plan: SessionPlan) -> None:
    ChildRow.objects.filter(key="c2").update(gets_about="wheelchair")
    answer = browser.get(PACKET)
    assert answer.status_code == 422
    assert "plan again" in fault_of(answer)


def test_a_plan_goes_on_without_a_child_who_was_deleted(browser: Client, plan: SessionPlan) -> None:
    child_erase(child_key="c2")
    answer = browser.get(PLAN)
    assert answer.status_code == 200
    assert "Wim" not in text_of(answer)
    assert {row.id for part in kept().parts for row in part.children} == {"c1"}
    assert "Plan again" in text_of(answer)


def test_a_renamed_child_is_called_by_the_new_name(browser: Client, plan: SessionPlan) -> None:
    ChildRow.objects.filter(key="c2").update(name="Wilma")
    said = text_of(browser.get(PLAN))
    assert "Wilma" in said
    assert "Made before" not in said


# ---- the packet


def test_the_packet_is_a_pdf_named_after_the_group_and_the_date(
    browser: Client, plan: SessionPlan
) -> None:
    answer = browser.get(PACKET)
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"] == 'inline; filename="packet-gulls-2026-12-01.pdf"'
    assert answer.content.startswith(b"%PDF-")


def test_without_a_plan_the_packet_leads_to_the_plan_page(
    browser: Client, on_file: Caseload
) -> None:
    answer = browser.get(PACKET)
    assert (answer.status_code, answer["Location"]) == (302, PLAN)


# ---- move, cancel, take back


def test_a_move_leads_to_the_new_date_and_the_old_one_says_where_it_went(
    browser: Client, plan: SessionPlan
) -> None:
    answer = browser.post(CALL_OFF, MOVE)
    assert answer["Location"] == f"/groups/{GROUP}/2026-12-02/"
    said = text_of(browser.get(PLAN))
    assert "Moved to Wednesday 2 December : The hall is painted" in said
    assert "Take that back" in said
    assert "Propose a session" in text_of(browser.get(answer["Location"]))


def test_a_move_taken_back_is_planned_where_it_was(browser: Client, plan: SessionPlan) -> None:
    browser.post(CALL_OFF, MOVE)
    answer = browser.post(CALL_OFF, {"do": "take_back"}, follow=True)
    assert answer.redirect_chain == [(PLAN, 302)]
    assert "Print the packet" in text_of(answer)
    assert kept() == plan


def test_a_cancelled_session_says_why_and_can_be_taken_back(
    browser: Client, plan: SessionPlan
) -> None:
    said = text_of(browser.post(CALL_OFF, CANCEL, follow=True))
    assert "Cancelled: The heating failed" in said
    assert "Print the packet" not in said
    assert "Print the packet" in text_of(browser.post(CALL_OFF, {"do": "take_back"}, follow=True))


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (MOVE | {"reason": "  "}, "reason"),
        (MOVE | {"side": ""}, "No side was chosen. Say whose side the miss is on."),
        (MOVE | {"side": "weather"}, "No side was chosen."),
        (MOVE | {"to": ""}, "'' is not a date. Choose the new date."),
        (MOVE | {"to": "2026-12-01"}, "Tuesday hall meets on 2026-12-01 already."),
        (MOVE | {"to": "2026-11-26"}, "closed on 2026-11-26 (staff day)"),
        (MOVE | {"to": "2027-02-01"}, "2027-02-01 lies outside the terms of Quay School"),
        (MOVE | {"to": "2026-11-17"}, "Tuesday hall has a session on 2026-11-17 already."),
        (CANCEL | {"reason": ""}, "reason"),
        (CANCEL | {"side": ""}, "No side was chosen."),
        ({"do": "take_back"}, "No cancelled or moved session of"),
    ],
)
def test_what_is_missing_to_call_off_is_said_and_nothing_is_changed(
    words: dict[str, str], sentence: str, browser: Client, plan: SessionPlan
) -> None:
    answer = browser.post(CALL_OFF, words)
    assert answer.status_code == 422
    assert sentence in fault_of(answer)
    assert session_of(GROUP, TUESDAY).status == "planned"
    assert "<details open" in answer.content.decode()


def test_what_was_typed_to_call_off_is_still_there(browser: Client, plan: SessionPlan) -> None:
    page = browser.post(CALL_OFF, MOVE | {"to": "2026-11-26"}).content.decode()
    assert 'value="The hall is painted"' in page
    assert '<option value="building" selected>' in page
    assert 'value="2026-11-26"' in page


def test_a_button_that_is_not_there_does_not_cancel(browser: Client, plan: SessionPlan) -> None:
    answer = browser.post(CALL_OFF, CANCEL | {"do": ""})
    assert answer.status_code == 422
    assert session_of(GROUP, TUESDAY).status == "planned"


def test_a_cancelled_session_is_not_planned(browser: Client, plan: SessionPlan) -> None:
    browser.post(CALL_OFF, CANCEL)
    answer = browser.post(ASK)
    assert answer.status_code == 422
    assert "Take the cancellation back first." in fault_of(answer)


def test_names_are_shown_as_they_were_typed(browser: Client, plan: SessionPlan) -> None:
    ChildRow.objects.filter(key="c2").update(name='<b>"Wim" & co</b>')
    page = browser.get(PLAN).content.decode()
    assert "<b>" not in page
    assert "&lt;b&gt;&quot;Wim&quot; &amp; co&lt;/b&gt;" in page
