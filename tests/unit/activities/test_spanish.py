"""What a family reads in its own language, and when it is stale."""

from __future__ import annotations

from dataclasses import replace

from tapeline.activities.loader import load_library
from tapeline.activities.models import AdultPart
from tapeline.activities.spanish import (
    english_fingerprint,
    load_spanish,
    skill_text_in,
    stale_activities,
    text_in,
)
from tests.unit.activities.small_library import a_library, a_version


def a_shipped_one():
    """A shipped activity with its first version."""
    activity = load_library().activities["sock_basket"]
    return activity, activity.versions[0]


def test_english_is_read_as_it_stands():
    activity, version = a_shipped_one()
    text = text_in("en", activity, version)
    assert (text.name, text.do, text.adult) == (
        activity.name,
        version.do,
        version.adult.sentences(),
    )
    assert (text.state, text.to_be_read_by_a_person) == ("own", False)


def test_spanish_takes_the_common_lines_and_the_versions_own():
    activity, version = a_shipped_one()
    text = text_in("es", activity, version)
    assert text.language == "es"
    assert text.do != version.do
    assert text.name != activity.name
    assert len(text.cues) == len(version.cues)
    assert len(text.adult) == len(version.adult.sentences())


def test_spanish_is_to_be_read_by_a_person_until_that_text_is_ticked():
    activity, version = a_shipped_one()
    stamped = load_spanish().activities[activity.id]
    load_spanish().activities[activity.id] = replace(stamped, english=english_fingerprint(activity))
    try:
        unread = text_in("es", activity, version)
        ticked = text_in("es", activity, version, read_by_a_person={unread.fingerprint})
    finally:
        load_spanish().activities[activity.id] = stamped
    assert (unread.state, unread.to_be_read_by_a_person) == ("fresh", True)
    assert (ticked.state, ticked.to_be_read_by_a_person) == ("fresh", False)


def test_changed_english_makes_the_spanish_stale_and_the_tick_worthless():
    activity, version = a_shipped_one()
    tick = text_in("es", activity, version).fingerprint
    changed = replace(version, too_hard="Put the basket on a stool.")
    other = replace(activity, versions=(changed, *activity.versions[1:]))
    text = text_in("es", other, changed, read_by_a_person={tick})
    assert (text.state, text.to_be_read_by_a_person) == ("stale", True)


def test_english_stands_in_where_there_is_no_spanish_and_says_so():
    activity = a_library().activities["into_the_box"]
    text = text_in("es", activity, activity.versions[0])
    assert (text.language, text.state, text.do) == ("en", "missing", activity.versions[0].do)


def test_every_sentence_that_families_read_changes_the_fingerprint():
    library = a_library()
    activity = library.activities["into_the_box"]
    before = english_fingerprint(activity)
    assert before == english_fingerprint(a_library().activities["into_the_box"])
    changes = [
        {"do": "Other."},
        {"steps": ("Other.", "Swing your arm.", "Let go.")},
        {"captions": ("other", "swing", "let go")},
        {"cues": ("Other.",)},
        {"adult": AdultPart(stand="Stand beside the child.", stop="Other.")},
        {"watch": ("Other.",)},
        {"too_hard": "Other."},
        {"too_easy": "Other."},
    ]
    found = {
        english_fingerprint(replace(activity, versions=(a_version(**change),)))
        for change in changes
    }
    found.add(english_fingerprint(replace(activity, name="Other")))
    found.add(english_fingerprint(replace(activity, sibling="Other.")))
    assert len(found | {before}) == len(changes) + 3


def test_what_families_do_not_read_leaves_the_fingerprint():
    activity = a_library().activities["into_the_box"]
    longer = replace(activity, versions=(a_version(setup_s=90, most=30),))
    assert english_fingerprint(longer) == english_fingerprint(activity)


def test_a_skill_has_its_name_and_purpose_in_both_languages():
    skill = load_library().skills["toss_under"]
    assert skill_text_in("en", skill).name == skill.name
    spanish = skill_text_in("es", skill)
    assert spanish.state == "fresh"
    assert spanish.name != skill.name
    assert skill_text_in("es", a_library().skills["toss"]).state == "missing"


def test_only_what_carries_another_stamp_is_listed_as_stale():
    library = load_library()
    activity, version = a_shipped_one()
    stamped = replace(load_spanish().activities[activity.id], english=english_fingerprint(activity))
    kept = load_spanish().activities[activity.id]
    load_spanish().activities[activity.id] = stamped
    changed = replace(activity, versions=(replace(version, do="Other."), *activity.versions[1:]))
    edited = replace(library, activities={**library.activities, activity.id: changed})
    try:
        assert activity.id not in stale_activities(library)
        assert activity.id in stale_activities(edited)
    finally:
        load_spanish().activities[activity.id] = kept
