"""The packet: who is named where, whose things, which words, and when it is refused."""

from __future__ import annotations

import datetime as dt
from dataclasses import asdict, replace

import pytest
import webvtt

from tapeline.activities.loader import load_materials
from tapeline.caseload.history import Session, Trial
from tapeline.caseload.people import AlsoThere, ChildPrecaution, Therapist, Wording
from tapeline.errors import InputError
from tapeline.planner.plan import plan_as_data, read_plan
from tapeline.sessions.packet.room import sheet_id
from tapeline.sessions.packet.whole import caption_files, packet_for
from tests.builders import TODAY, some_things
from tests.unit.sessions.packet_world import (
    DRIFT,
    FOIL,
    LOW,
    NAMES,
    OWNED,
    TOSS_NAME,
    TOSS_NAME_ES,
    a_packet_plan,
    a_world,
    with_child,
    with_home,
)

STEP_OF_CPR = "start CPR"


def the_packet(caseload=None, **plan):
    caseload = caseload or a_world()
    return packet_for(a_packet_plan(caseload, **plan), caseload)


def signed(caseload, on):
    therapist = replace(caseload.therapist, first_aid_read_by="Merryn Vosper", first_aid_read_on=on)
    return replace(caseload, therapist=therapist)


def emergency_text(packet, language="en"):
    return str([asdict(page) for page in packet.emergency if page.language == language])


# ---- who is named where


def test_names_stand_on_her_pages_and_nowhere_else():
    packet = the_packet()
    others = str(
        [asdict(page) for page in (*packet.families, *packet.cards, *packet.emergency)]
        + [asdict(packet.tally), *(asdict(script) for script in packet.recorded.scripts)]
    )
    for name in NAMES:
        assert name not in others
        assert name in str(asdict(packet.running))


def test_a_child_without_a_mark_gets_one_that_nobody_here_has():
    packet = the_packet(with_child(a_world(), "c3", mark=""))
    assert packet.families[0].mark not in ("", "boat", "kite", "moon")


# ---- a home's pages


def test_every_child_at_home_has_pages_and_nobody_else():
    assert [family.mark for family in the_packet().families] == ["fish", "moon"]


def test_a_home_is_asked_only_for_what_it_owns():
    owned = {name for id_ in OWNED for name in _names_of(id_)}
    for family in the_packet().families:
        assert family.have_ready
        assert {thing.split(" × ")[0] for thing in family.have_ready} <= owned


def _names_of(material):
    found = load_materials()[material]
    return found.name, found.name_es


def test_a_number_that_was_not_given_is_a_line_to_write_on():
    caseload = a_world(therapist=Therapist())
    family = the_packet(caseload).families[0]
    assert (family.emergency_number, family.ring) == ("____", "____")


def test_each_home_reads_its_own_language():
    english, spanish = the_packet().families
    assert (english.language, spanish.language) == ("en", "es")
    assert TOSS_NAME in [game.name for game in english.activities]
    assert TOSS_NAME_ES in [game.name for game in spanish.activities]


def test_spanish_is_to_be_read_by_a_person_and_english_stands_in_tagged_as_english():
    english, spanish = the_packet().families
    assert spanish.to_be_read
    assert not english.to_be_read
    own = next(game for game in spanish.activities if game.name == "Drift and tap")
    assert own.language == "en"


def test_only_games_that_make_tries_have_days_to_colour():
    games = the_packet().families[0].activities
    assert [game.is_short for game in games] == [True, False, False]


def test_the_five_days_follow_a_live_session_and_begin_with_a_recording():
    live, later = the_packet().families
    assert live.days == ("Wed", "Thu", "Fri", "Sat", "Sun")
    assert later.days == ("mar", "mié", "jue", "vie", "sáb")


def test_a_brother_or_sister_is_given_something_to_do():
    caseload = with_home(a_world(), "h3", also_there=(AlsoThere(who="sister", born="2018-01"),))
    games = {game.name: game.sibling for game in the_packet(caseload).families[0].activities}
    assert games[TOSS_NAME]
    assert not any(game.sibling for game in the_packet().families[0].activities)


def test_a_game_done_from_a_chair_is_shown_on_one():
    def picture_of(position):
        own = {**DRIFT, "all": {**DRIFT["all"], "move": "throw_under", "position": position}}
        caseload = a_world(own_activities=(own,))
        return the_packet(caseload).families[0].activities[2].figure

    assert picture_of("standing").gets_about == "on_foot"
    assert picture_of("sitting").gets_about == "chair"


def test_a_child_with_a_walking_frame_is_never_shown_without_it():
    on_foot = the_packet().families[0].activities[1].figure
    caseload = with_child(a_world(), "c3", gets_about="walking_frame")
    assert on_foot.gets_about == "on_foot"
    with_frame = the_packet(caseload).families[0].activities[1].figure
    assert with_frame.gets_about == "walking_frame"


# ---- cautions


def test_the_balloon_caution_is_whole_exactly_where_a_balloon_is_used():
    """The official wording: 16 CFR 1500.19(b)(2), as ONIX code list 143 value 02 quotes it."""
    whole = (
        "CHOKING HAZARD—Children under 8 yrs. can choke or suffocate on uninflated or broken "
        "balloons. Adult supervision required.\n"
        "Keep uninflated balloons from children. Discard broken balloons at once."
    )
    packet = the_packet(drift={"c3": FOIL})
    assert [whole in caution.text for caution in packet.ready.cautions] == [True]
    live, later = packet.families
    assert [whole in caution.text for caution in live.cautions] == [True]
    assert later.cautions == ()
    assert all(card.cautions == () for card in packet.cards)
    assert the_packet().ready.cautions == ()


def test_a_flag_of_the_plan_is_a_thing_to_check_with_somebody():
    caseload = with_child(a_world(), "c1", precautions=(ChildPrecaution(kind="neck"),))
    plan = a_packet_plan(caseload)
    first = plan.parts[1].children[0]
    part = replace(
        plan.parts[1],
        children=(replace(first, flags=("neck.head_down",)), *plan.parts[1].children[1:]),
    )
    packet = packet_for(replace(plan, parts=(plan.parts[0], part, plan.parts[2])), caseload)
    (check,) = packet.ready.checks
    assert check.check_with == "the child's doctor"
    assert [who.name for who in check.who] == [NAMES[0]]
    (line,) = [
        does for does in packet.running.parts[1].does if NAMES[0] in [who.name for who in does.who]
    ]
    assert "Check" in line.who[0].tags


# ---- how much, and how often round


def with_course(plan, rounds):
    """The same plan with its last two parts as the stations of a course."""
    stations = tuple(replace(part, part="course", rounds=rounds) for part in plan.parts[1:])
    return replace(plan, parts=(plan.parts[0], *stations))


def test_a_part_in_which_nothing_is_counted_has_minutes():
    english, spanish = the_packet().families
    assert [english.activities[0].amount, spanish.activities[0].amount] == [
        "5 minutes",
        "5 minutos",
    ]
    assert the_packet().running.parts[0].does[0].amount == ""


def test_a_home_reads_how_many_games_belong_to_a_course_and_how_often_round():
    caseload = a_world()
    packet = packet_for(with_course(a_packet_plan(caseload), rounds=2), caseload)
    arrival, first, second = packet.families[0].activities
    assert (first.course.games, first.course.rounds) == (2, 2)
    assert (arrival.course, second.course) == (None, None)
    assert first.amount == "12 times each round"
    assert packet.families[1].activities[1].amount == "12 veces en cada ronda"
    assert packet.running.parts[1].does[0].amount == "2 × 12 times"


# ---- the running order


def test_children_who_do_the_same_share_a_line_wherever_they_are():
    arrival, toss, drift = the_packet(drift={"c2": LOW}).running.parts
    assert [does.is_all for does in arrival.does] == [False]
    assert [len(does.who) for does in toss.does] == [4]
    assert sorted(len(does.who) for does in drift.does) == [1, 3]


def test_the_chance_of_managing_it_alone_stands_by_each_child_and_is_explained():
    running = the_packet().running
    assert [who.chance for who in running.parts[1].does[0].who] == [7, 7, 7, 7]
    assert "likely to manage" in running.key
    assert "New:" not in running.key


def test_what_a_wall_card_says_is_not_said_again():
    packet = the_packet()
    arrival, toss, _ = packet.running.parts
    assert arrival.lead
    assert toss.lead == ""
    assert packet.cards[1].lead
    caseload = a_world()
    group = replace(caseload.groups[0], members=caseload.groups[0].members[2:])
    assert the_packet(replace(caseload, groups=(group,))).running.parts[1].lead


# ---- the room


def test_the_room_list_counts_one_for_each_child_at_it_and_what_is_shared_once():
    room = {thing.name: thing.count for thing in the_packet().ready.room}
    for material, count in (("sock_ball", "10"), ("scarf", "2")):
        assert room[load_materials()[material].name] == count


def test_a_group_at_home_has_no_wall_cards_and_no_room_list():
    caseload = a_world()
    group = replace(caseload.groups[0], members=caseload.groups[0].members[2:])
    packet = the_packet(replace(caseload, groups=(group,)))
    assert packet.cards == ()
    assert packet.ready.room == ()
    assert packet.running.adults == 0


def test_the_tally_has_every_try_that_she_can_see():
    tally = the_packet().tally
    assert [activity.name for activity in tally.activities] == [TOSS_NAME, "Drift and tap"]
    assert tally.activities[0].rows == (("boat", 12), ("kite", 12), ("fish", 12))
    assert tally.levels == ("full physical", "partial physical", "model", "gesture", "word")


def test_a_sheet_has_one_id_for_one_plan():
    caseload = a_world()
    plan = a_packet_plan(caseload)
    assert sheet_id(plan) == sheet_id(read_plan(plan_as_data(plan)))
    assert sheet_id(plan) != sheet_id(a_packet_plan(caseload, drift={"c1": FOIL}))


# ---- emergencies


def test_first_aid_steps_wait_until_somebody_trained_has_signed_them_off():
    packet = the_packet()
    assert STEP_OF_CPR not in emergency_text(packet)
    assert packet.emergency[0].not_signed
    assert "911" in emergency_text(packet)


def test_signed_steps_are_printed_with_who_signed_and_when():
    packet = the_packet(signed(a_world(), TODAY - dt.timedelta(days=30)))
    assert STEP_OF_CPR in emergency_text(packet)
    assert packet.emergency[0].not_signed == ()
    assert "Merryn Vosper" in packet.emergency[0].signed


def test_a_signature_older_than_a_year_no_longer_counts():
    packet = the_packet(signed(a_world(), TODAY - dt.timedelta(days=366)))
    assert STEP_OF_CPR not in emergency_text(packet)


def test_only_the_kinds_that_fit_this_group_are_printed():
    before = [kind.name for kind in the_packet().emergency[0].kinds]
    caseload = with_child(a_world(), "c1", precautions=(ChildPrecaution(kind="seizures"),))
    after = [kind.name for kind in the_packet(caseload).emergency[0].kinds]
    assert "Seizure" not in before
    assert "Seizure" in after
    assert {"Bump on the head", "Not responding"} <= set(before)


def test_her_own_wording_of_a_kind_takes_the_place_of_the_steps():
    therapist = replace(
        a_world().therapist,
        wording=(Wording(kind="head_bump", text="Ring the nurse first.", source="Site plan 2026"),),
    )
    packet = the_packet(a_world(therapist=therapist))
    bump = next(kind for kind in packet.emergency[0].kinds if kind.name == "Bump on the head")
    assert [line.text for line in bump.lines] == ["Ring the nurse first."]
    assert "Site plan 2026" in bump.source


def test_a_home_that_reads_spanish_gets_the_emergency_page_in_spanish():
    assert [page.language for page in the_packet().emergency] == ["en", "es"]
    english_only = with_home(a_world(), "h4", language="en")
    assert [page.language for page in the_packet(english_only).emergency] == ["en"]


def test_a_precaution_adds_its_own_signs_to_that_home_alone():
    caseload = with_child(a_world(), "c3", precautions=(ChildPrecaution(kind="shunt"),))
    live, later = the_packet(caseload).families
    assert live.own_signs
    assert later.own_signs == ()


# ---- the recording


def test_watching_is_counted_apart_from_doing():
    script = the_packet().recorded.scripts[0]
    played = [scene for scene in script.scenes if scene.pause]
    assert len(played) == 3
    assert all(scene.do_s > 0 for scene in played)
    assert script.watch_minutes == pytest.approx(
        sum(scene.watch_s for scene in script.scenes) / 60, abs=0.51
    )
    assert script.do_minutes == pytest.approx(sum(s.do_s for s in script.scenes) / 60, abs=0.51)


def test_captions_say_all_that_is_said_and_nothing_else():
    packet = the_packet()
    files = caption_files(packet)
    assert set(files) == {"captions.en.vtt", "captions.es.vtt"}
    for script in packet.recorded.scripts:
        track = webvtt.from_string(files[f"captions.{script.language}.vtt"])
        shown = " ".join(cue.text for cue in track).split()
        said = [s for scene in script.scenes for s in (*scene.say, scene.pause)]
        assert shown == " ".join(said).split()


def test_nobody_recorded_no_film():
    caseload = a_world()
    group = replace(caseload.groups[0], members=caseload.groups[0].members[:3])
    packet = the_packet(replace(caseload, groups=(group,)))
    assert packet.recorded is None
    assert caption_files(packet) == {}


# ---- refused


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (
            lambda c: with_child(c, "c3", precautions=(ChildPrecaution(kind="heart"),)),
            "Ondrej's precautions",
        ),
        (lambda c: with_home(c, "h4", things=some_things("sock_ball")), "Xiadani's home"),
        (
            lambda c: replace(c, groups=(replace(c.groups[0], minutes=30),)),
            "the group or its room",
        ),
        (lambda c: replace(c, own_activities=()), "the library of activities"),
    ],
)
def test_a_plan_made_before_a_change_is_not_printed(change, words):
    caseload = a_world()
    plan = a_packet_plan(caseload)
    with pytest.raises(InputError, match=f"made before {words} changed: plan again") as found:
        packet_for(plan, change(caseload))
    assert found.value.hint


@pytest.mark.parametrize("how", [{"status": "held"}, {"began": "14:12"}])
def test_a_session_that_has_begun_is_printed_as_it_was_planned_and_says_so(how):
    caseload = a_world()
    plan = a_packet_plan(caseload)
    session = Session(id="s1", group="tuesday", date=TODAY, **how)
    trial = Trial(
        id="t1",
        session="s1",
        child="c1",
        version="sock_basket.half_metre.usual",
        step="toss_under.half_metre",
        outcome="alone",
    )
    counted = replace(caseload, trials=(trial,))
    with pytest.raises(InputError, match="history"):
        packet_for(plan, counted)
    said = packet_for(plan, counted.with_session(session)).running.notes[0]
    name = counted.child("c1").name
    assert said == f"As it was planned before it began. Changed since: {name}'s tries."
    as_before = packet_for(plan, caseload.with_session(session)).running.notes
    assert not any("before it began" in note for note in as_before)


def test_a_precaution_put_on_file_in_mid_session_stops_the_old_packet():
    caseload = a_world()
    plan = a_packet_plan(caseload)
    session = Session(id="s1", group="tuesday", date=TODAY, began="14:12")
    changed = with_child(caseload, "c3", precautions=(ChildPrecaution(kind="heart"),))
    with pytest.raises(InputError, match="precautions") as found:
        packet_for(plan, changed.with_session(session))
    assert "Plan again from now" in found.value.hint
