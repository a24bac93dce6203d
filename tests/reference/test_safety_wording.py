"""Facts of the rules and the emergency wording, beside the published advice they come from."""

from __future__ import annotations

from tapeline.activities.emergencies import load_emergencies
from tapeline.activities.loader import load_materials, load_rule_book
from tapeline.activities.shipped import shipped_yaml

# 16 CFR 1501.4: the small-parts cylinder is 1.25 in (31.7 mm) wide. 16 CFR 1500.19(a)(2): a
# small ball passes a hole of 1.75 in (44.4 mm). Both read in copies.
SMALL_PARTS_UNDER_MONTHS = 36  # 16 CFR 1501.1, 1500.18(a)(9): articles for under three
BALLOON_UNDER_MONTHS = 8 * 12  # 16 CFR 1500.19(b)(2): "Children under 8 yrs."


def lines(kind: str, style: str) -> list[str]:
    """English lines of one kind and style."""
    found = load_emergencies().kinds[kind].lines
    return [line.text.en for line in found if line.style == style]


def rules(touches: str) -> list:
    """Age rules that look at a word."""
    book = load_rule_book()
    return [rule for rule in book.rules if rule.touches == touches and rule.youngest_under_months]


def test_seizure_says_when_to_call_as_the_cdc_does():
    # CDC, cdc.gov/epilepsy, first aid: call 911 when the person has never had a seizure
    # before, has difficulty breathing or waking after it, it lasts longer than 5 minutes, a
    # second one follows soon, the person is hurt, it happens in water, or the person has
    # diabetes, heart disease or is pregnant.
    calls = " ".join(lines("seizure", "call"))
    assert "lasts more than 5 minutes, or another one starts" in calls
    for reason in ("first seizure", "hurt", "in water", "breathing or waking", "diabetes", "heart"):
        assert reason in calls


def test_seizure_never_holds_down_and_puts_nothing_in_the_mouth():
    # Same CDC page.
    steps = " ".join(lines("seizure", "do"))
    assert "Do not hold your child down" in steps
    assert "nothing in the mouth" in steps
    assert "on the side" in steps


def test_choking_gives_back_blows_first_and_up_to_five_of_each():
    # American Heart Association guidelines, Circulation, 22 October 2025, in reprinted
    # releases: children and adults, 5 back blows then 5 abdominal thrusts in turn; infants
    # never abdominal thrusts.
    steps = lines("choking", "do")
    blows = next(n for n, line in enumerate(steps) if "shoulder blades" in line)
    thrusts = next(n for n, line in enumerate(steps) if "belly button" in line)
    assert blows < thrusts
    assert "up to 5 times" in steps[blows]
    assert "up to 5 times" in steps[thrusts]
    assert "Never use belly thrusts on a baby under 1 year." in lines("choking", "say")


def test_allergy_gives_the_injector_before_the_call_and_a_second_after_five_minutes():
    # ASCIA first aid plan (allergy.org.au): lay flat, inject, call; further dose if no better
    # after 5 minutes. AAP plan form (copy): inject, then call.
    steps = lines("allergic_reaction", "do")
    assert "injector (epinephrine) right away" in steps[0]
    assert steps[1].startswith("Call")
    assert any("5 minutes" in line and "second injector" in line for line in steps)


def test_head_knock_names_the_danger_signs_of_the_cdc():
    # CDC, cdc.gov/headsup, concussion danger signs.
    calls = " ".join(lines("head_bump", "call"))
    for sign in ("pupil", "sleepy", "gets worse", "seizure", "numb", "passed out", "stop crying"):
        assert sign in calls


def test_faint_waits_one_minute_as_emergency_physicians_say():
    # American College of Emergency Physicians, "Fainting".
    assert "is not awake in 1 minute" in lines("faint", "call")


def test_latex_balloons_are_barred_under_eight_and_under_three_without_a_way_out():
    # Caring for Our Children, standard 6.4.1.5; 16 CFR 1500.19(b)(2).
    found = {rule.youngest_under_months: rule for rule in rules("balloon_latex")}
    assert found[BALLOON_UNDER_MONTHS].effect == "blocks"
    assert found[BALLOON_UNDER_MONTHS].lifted_by == "reason"
    assert found[36].lifted_by == "nothing"


def test_small_parts_are_barred_under_three_without_a_way_out():
    (rule,) = rules("small_parts")
    assert rule.youngest_under_months == SMALL_PARTS_UNDER_MONTHS
    assert (rule.effect, rule.lifted_by) == ("blocks", "nothing")


def test_cords_are_flagged_with_the_lengths_of_the_licensing_summary():
    # US state licensing summary, second-hand: infants 6 in, 3 to 5 years 12 in.
    sentences = {rule.youngest_under_months: rule for rule in rules("cord")}
    assert "12 in" in sentences[72].sentence
    assert "6 in" in sentences[36].sentence
    assert {rule.effect for rule in sentences.values()} == {"flags"}


def test_magnets_are_flagged_at_the_distances_of_the_fda_and_not_banned():
    # FDA on programmable shunt valves: 2 in (5 cm), as reported by RAPS 2019/7; on pacemakers
    # and strong magnets: 6 in (15 cm), as quoted on two news pages.
    book = {rule.id: rule for rule in load_rule_book().rules}
    valve, device = book["shunt_magnet.magnet"], book["heart_device.magnet"]
    assert "5 cm (2 in)" in valve.sentence
    assert "15 cm (6 in)" in device.sentence
    assert {valve.effect, device.effect} == {"flags"}


def test_a_shunt_blocks_nothing():
    # Spina Bifida Hydrocephalus Ireland and Shine: running, jumping, trampolining and forward
    # rolls are allowed; hanging upside down for any length of time is what they discourage.
    found = [rule for rule in load_rule_book().rules if rule.precaution == "shunt"]
    assert {rule.effect for rule in found} == {"flags"}
    assert not {rule.touches for rule in found} & {"jump", "run", "roll"}


def test_loose_joints_and_sore_joints_block_nothing():
    # NELFT and Lincolnshire NHS leaflets list crawling, climbing and wheelbarrow games as
    # good. Sheffield Children's advice for teachers: no limits when well or controlled.
    effects = {
        rule.effect
        for rule in load_rule_book().rules
        if rule.precaution in ("hypermobile", "sore_joints")
    }
    assert effects == {"flags"}


def test_latex_reaches_the_room_and_nothing_lifts_it():
    # Spina Bifida Association guideline, J Pediatr Rehabil Med 2020, PRM-200741: avoid latex
    # in all settings from birth.
    found = [rule for rule in load_rule_book().rules if rule.precaution == "latex"]
    assert {(rule.scope, rule.effect, rule.lifted_by) for rule in found} == {
        ("room", "blocks", "nothing")
    }


def test_the_running_lane_ends_six_feet_before_a_hall_wall():
    # Caring for Our Children, standard 6.2.3.1: 6 ft; 6 x 30.48 cm.
    assert shipped_yaml("practice/stations.yaml")["clear"]["run_room"] == round(6 * 30.48)


def test_things_that_fit_the_cylinder_carry_the_word():
    # Widths from memory: coin and cap under 31.7 mm across; 16 CFR 1501.4.
    materials = load_materials()
    for name in ("bottle_cap", "coin", "button_large", "straw_pieces", "pasta_thread"):
        assert "small_parts" in materials[name].touches
    for name in ("sock_ball", "ring_card", "paper_cup", "ball_tennis"):
        assert "small_parts" not in materials[name].touches
