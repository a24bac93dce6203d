"""Whatever a caseload holds, its rows and its file give it back."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, parse_caseload
from tapeline.caseload.hers import KeptText, LeftOut, OwnChange
from tapeline.caseload.history import (
    Blank,
    FamilyAnswer,
    LateOrEarly,
    PromptLevel,
    PromptList,
    Session,
    Sheet,
    Stop,
    Timing,
    Trial,
)
from tapeline.caseload.notes import (
    Amendment,
    KeptReport,
    MadeUp,
    NoteSentence,
    ReportPart,
    SessionNote,
)
from tapeline.caseload.people import (
    AlsoThere,
    Baseline,
    Child,
    ChildPrecaution,
    GoAhead,
    Goal,
    Home,
    Illness,
    LossAnswer,
    Start,
    SuccessBand,
    Therapist,
    Thing,
    Wording,
)
from tapeline.caseload.places import (
    WEEKDAYS,
    ClosedDay,
    Furniture,
    Group,
    Membership,
    Room,
    RoomDoor,
    Site,
    Term,
)
from tapeline.web.records.convert import caseload_from_rows, rows_from_caseload

TEXT = st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=12)
NAME = st.text(st.sampled_from("abc é-Ω"), min_size=1, max_size=8).filter(str.strip)
KEY = st.from_regex(r"[a-z][a-z0-9_.-]{0,5}", fullmatch=True)
DATES = st.dates(dt.date(2019, 1, 1), dt.date(2030, 1, 1))
MAYBE_DATE = st.none() | DATES
MONTHS = st.builds("{}-{:02d}".format, st.integers(2012, 2026), st.integers(1, 12))
CM = st.none() | st.integers(1, 300)


def few(values: st.SearchStrategy, unique: str | None = None) -> st.SearchStrategy:
    """At most three, as a tuple."""
    by = (lambda row: getattr(row, unique)) if unique else None
    return st.lists(values, max_size=3, unique_by=by).map(tuple)


THINGS = few(
    st.builds(
        Thing,
        material=KEY,
        count=st.none() | st.integers(0, 99),
        latex=st.sampled_from((None, "yes", "no", "unknown")),
    )
)


@st.composite
def go_aheads(draw: st.DrawFn) -> GoAhead:
    date = draw(DATES)
    days = draw(st.none() | st.integers(0, 400))
    return GoAhead(
        written_by=draw(TEXT),
        date=date,
        allows=draw(few(KEY)),
        ends=None if days is None else date + dt.timedelta(days=days),
        note=draw(TEXT),
    )


@st.composite
def goals(draw: st.DrawFn, key: str) -> Goal:
    tries = draw(st.integers(1, 9))
    baseline = st.builds(Baseline, k=st.integers(0, 5), n=st.integers(0, 9), date=DATES, help=KEY)
    return Goal(
        id=key,
        name=f"{key} {draw(TEXT)}",
        skill=draw(KEY),
        step=draw(KEY),
        k=draw(st.integers(1, tries)),
        n=tries,
        m=draw(st.integers(1, 3)),
        condition=draw(TEXT),
        behaviour=draw(TEXT),
        date=draw(MAYBE_DATE),
        baseline=draw(st.none() | baseline),
        weight=draw(st.integers(1, 3)),
    )


@st.composite
def children(draw: st.DrawFn, key: str, homes: tuple[str, ...]) -> Child:
    held = st.builds(
        ChildPrecaution, kind=KEY, since=MAYBE_DATE, note=TEXT, go_aheads=few(go_aheads())
    )
    goal_keys = draw(st.lists(KEY, unique=True, max_size=3))
    return Child(
        id=key,
        name=draw(NAME),
        born=draw(MONTHS),
        mark=draw(TEXT),
        home=draw(st.sampled_from((None, *homes))),
        skills=draw(few(st.builds(Start, skill=KEY, step=KEY), unique="skill")),
        goals=tuple(draw(goals(goal_key)) for goal_key in goal_keys),
        precautions=draw(few(held)),
        gets_about=draw(st.sampled_from(("on_foot", "walking_frame", "wheelchair", "splints"))),
        height_cm=draw(CM),
        jump_cm=draw(CM),
        hop_cm=draw(CM),
        stride_cm=draw(CM),
        device_width_cm=draw(CM),
        turning_cm=draw(CM),
        note=draw(TEXT),
        active=draw(st.booleans()),
        band=draw(st.none() | st.just(SuccessBand(low=55, best=65, high=80))),
        ill=draw(few(DATES.map(lambda day: Illness(first=day, last=day + dt.timedelta(days=3))))),
        loss_answers=draw(few(loss_answers())),
    )


def loss_answers() -> st.SearchStrategy[LossAnswer]:
    return st.builds(
        LossAnswer,
        skill=KEY,
        date=DATES,
        says=st.sampled_from(("well_again", "closed")),
        reason=NAME,
    )


@st.composite
def homes(draw: st.DrawFn, key: str) -> Home:
    return Home(
        id=key,
        name=draw(TEXT),
        space=draw(st.sampled_from(("room", "hallway", "own_size"))),
        length_cm=draw(st.integers(50, 900)),
        width_cm=draw(st.integers(50, 900)),
        things=draw(THINGS),
        helper=draw(TEXT),
        hands=draw(st.integers(0, 2)),
        language=draw(st.sampled_from(("en", "es"))),
        loudest=draw(st.sampled_from(("quiet", "usual", "loud"))),
        also_there=draw(few(st.builds(AlsoThere, who=TEXT, born=MONTHS))),
        crawling_baby=draw(st.booleans()),
    )


SPOT = st.tuples(st.integers(-5000, 5000), st.integers(-5000, 5000))
OUTLINE = st.lists(SPOT, min_size=3, max_size=5).map(tuple)


@st.composite
def sites(draw: st.DrawFn, key: str) -> Site:
    room = st.builds(
        Room,
        id=KEY,
        name=TEXT,
        length_cm=st.integers(100, 5000),
        width_cm=st.integers(100, 5000),
        things=THINGS,
        corners=st.just(()) | OUTLINE,
        doors=few(st.builds(RoomDoor, start=SPOT, end=SPOT, swing=st.sampled_from(("in", "out")))),
        furniture=few(st.builds(Furniture, name=TEXT, polygon=OUTLINE, movable=st.booleans())),
        pillars=few(OUTLINE),
        no_go=few(OUTLINE),
        adults=few(SPOT),
    )
    term = st.tuples(DATES, DATES).map(sorted)
    return Site(
        id=key,
        name=draw(TEXT),
        terms=tuple(
            Term(name=draw(TEXT), starts=first, ends=last)
            for first, last in draw(st.lists(term, max_size=3))
        ),
        closed=draw(few(st.builds(ClosedDay, date=DATES, reason=TEXT))),
        rooms=draw(few(room, unique="id")),
        recording_counts=draw(st.sampled_from(("not_said", "never", "when_sent", "when_followed"))),
        makes_up=draw(st.none() | st.just(()) | st.just(("provider", "child"))),
    )


@st.composite
def groups(draw: st.DrawFn, key: str, of: dict[str, Any]) -> Group:
    site = draw(st.sampled_from((None, *of["sites"])))
    rooms = tuple(room.id for room in site.rooms) if site else ()
    member = st.builds(
        Membership,
        child=st.sampled_from(of["children"]),
        place=st.sampled_from(("room", "home", "home_later")),
        starts=MAYBE_DATE,
        ends=MAYBE_DATE,
    )
    return Group(
        id=key,
        name=draw(TEXT),
        weekday=draw(st.sampled_from(WEEKDAYS)),
        start="09:05",
        minutes=draw(st.integers(1, 120)),
        site=site.id if site else None,
        room=draw(st.sampled_from((None, *rooms))),
        adults=draw(st.integers(0, 4)),
        members=draw(few(member)) if of["children"] else (),
        floor_of_trials=draw(st.none() | st.integers(0, 9)),
    )


@st.composite
def sessions(draw: st.DrawFn, key: str, groups: tuple[str, ...]) -> Session:
    return Session(
        id=key,
        group=draw(st.sampled_from(groups)),
        date=draw(DATES),
        status=draw(st.sampled_from(("planned", "held", "cancelled", "moved"))),
        side=draw(st.sampled_from((None, "child", "provider", "building"))),
        reason=draw(NAME),
        moved_to=draw(MAYBE_DATE),
        began=draw(st.none() | st.just("10:00")),
        activities=draw(few(KEY)),
        plan=draw(st.none() | st.dictionaries(KEY, TEXT | st.integers() | st.none(), max_size=3)),
    )


@st.composite
def notes(draw: st.DrawFn, within: dict[str, Any]) -> SessionNote:
    signed_at = draw(st.none() | st.just("2026-11-17T15:20:00Z"))
    sentence = st.builds(NoteSentence, text=TEXT, rests_on=few(KEY))
    amendment = st.builds(Amendment, at=st.just("2026-11-18T08:00:00Z"), by=NAME, text=NAME)
    return SessionNote(
        id=draw(KEY),
        sentences=draw(few(sentence)),
        made_from=draw(st.sampled_from(("", "0a1b2c3d4e5f"))),
        signed_at=signed_at,
        signed_by=draw(NAME) if signed_at else "",
        amendments=draw(few(amendment)) if signed_at else (),
        **{name: draw(one) for name, one in within.items()},
    )


@st.composite
def reports(draw: st.DrawFn, child_keys: tuple[str, ...]) -> KeptReport:
    signed_at = draw(st.none() | st.just("2026-11-17T15:20:00Z"))
    first, last = sorted((draw(DATES), draw(DATES)))
    return KeptReport(
        id=draw(KEY),
        child=draw(st.sampled_from(child_keys)),
        first=first,
        last=last,
        parts=draw(few(st.builds(ReportPart, goal=KEY, name=TEXT, text=few(TEXT)))),
        made_from=draw(st.sampled_from(("", "0a1b2c3d4e5f"))),
        signed_at=signed_at,
        signed_by=draw(NAME) if signed_at else "",
    )


@st.composite
def made_up(draw: st.DrawFn, of: dict[str, Any]) -> MadeUp:
    return MadeUp(
        id=draw(KEY),
        child=draw(st.sampled_from(of["children"])),
        group=draw(st.sampled_from(of["groups"])),
        date=draw(DATES),
        minutes=draw(st.integers(1, 240)),
        place=draw(st.sampled_from(("room", "home", "home_later"))),
        note=draw(TEXT),
    )


@st.composite
def caseloads(draw: st.DrawFn) -> Caseload:
    def keys() -> tuple[str, ...]:
        return tuple(draw(st.lists(KEY, unique=True, max_size=3)))

    home_keys, child_keys = keys(), keys()
    made_sites = tuple(draw(sites(key)) for key in keys())
    of = {"sites": made_sites, "children": child_keys}
    made_groups = tuple(draw(groups(key, of)) for key in keys())
    group_keys = tuple(group.id for group in made_groups)
    made_sessions = tuple(draw(sessions(key, group_keys)) for key in (keys() if group_keys else ()))
    within = {
        "session": st.sampled_from([session.id for session in made_sessions]),
        "child": st.sampled_from(child_keys),
    }
    recorded = bool(made_sessions and child_keys)
    trial = st.builds(
        Trial,
        id=KEY,
        version=KEY,
        step=KEY,
        outcome=st.sampled_from(("alone", "with_help", "not_yet")),
        count=st.integers(1, 20),
        at=st.none() | st.just("2026-11-17T14:20:00Z"),
        measured=st.none() | st.floats(allow_nan=False, allow_infinity=False),
        corrects=st.none() | KEY,
        **within,
    )
    answer = st.builds(
        FamilyAnswer,
        id=KEY,
        days_done=st.none() | st.integers(0, 7),
        went=st.sampled_from((None, "too_easy", "not_fun")),
        hurt_or_scary=TEXT,
        **within,
    )
    blank = st.builds(
        Blank,
        kind=st.sampled_from(("not_offered", "refused", "absent", "not_seen")),
        activity=st.none() | KEY,
        **within,
    )
    late = st.builds(
        LateOrEarly,
        id=KEY,
        kind=st.sampled_from(("late", "left_early")),
        at=st.just("14:20"),
        **within,
    )
    stop = st.builds(
        Stop,
        id=KEY,
        session=within["session"],
        child=st.none() | within["child"],
        happened=NAME,
        done=TEXT,
        activity=st.none() | KEY,
        at=st.none() | st.just("14:31"),
    )
    sheet = st.builds(
        Sheet,
        id=KEY,
        session=within["session"],
        by=TEXT,
        source=st.sampled_from(("run", "tally", "family")),
        at=st.none() | st.just("2026-11-17T15:02:00Z"),
    )
    timing = st.builds(
        Timing,
        id=KEY,
        version=KEY,
        seconds=st.floats(0.1, 999),
        units=st.integers(1, 50),
        date=DATES,
        child=st.none() | within["child"],
    )
    prompts = st.builds(
        PromptList,
        id=KEY,
        levels=few(st.builds(PromptLevel, id=KEY, name=TEXT, hidden=st.booleans())),
    )
    return Caseload(
        therapist=Therapist(
            name=draw(TEXT),
            wording=draw(few(st.builds(Wording, kind=KEY, text=TEXT, source=TEXT))),
            first_aid_read_on=draw(MAYBE_DATE),
            paper=draw(st.sampled_from(("a4", "letter"))),
        ),
        sites=made_sites,
        groups=made_groups,
        children=tuple(draw(children(key, home_keys)) for key in child_keys),
        homes=tuple(draw(homes(key)) for key in home_keys),
        sessions=made_sessions,
        trials=draw(few(trial, unique="id")) if recorded else (),
        blanks=_one_each(draw(few(blank))) if recorded else (),
        family_answers=draw(few(answer, unique="id")) if recorded else (),
        late_or_early=draw(few(late, unique="id")) if recorded else (),
        stops=draw(few(stop, unique="id")) if recorded else (),
        sheets=draw(few(sheet, unique="id")) if recorded else (),
        timings=draw(few(timing, unique="id")) if recorded else (),
        notes=_one_note_each(draw(few(notes(within), unique="id"))) if recorded else (),
        reports=draw(few(reports(child_keys), unique="id")) if child_keys else (),
        made_up=draw(few(made_up({**of, "groups": group_keys}), unique="id"))
        if group_keys and child_keys
        else (),
        prompt_lists=draw(few(prompts, unique="id")) or (PromptList(),),
        own_activities=tuple({"id": key, "note": draw(TEXT)} for key in keys()),
        own_materials=tuple({"id": key, "note": draw(TEXT)} for key in keys()),
        own_drafts=tuple({"id": key, "note": draw(TEXT)} for key in keys()),
        own_versions=tuple({"activity": key, "do": draw(TEXT)} for key in keys()),
        own_changes=draw(few(own_changes(), unique="id")),
        left_out=draw(few(left_outs(child_keys, home_keys), unique="id")),
        kept_texts=tuple(KeptText(id=key, activity={"name": draw(TEXT)}) for key in keys()),
        invented=draw(st.booleans()),
    )


def own_changes() -> st.SearchStrategy[OwnChange]:
    said = TEXT | st.integers(0, 99) | st.lists(TEXT, max_size=3)
    return st.builds(
        OwnChange,
        activity=KEY,
        version=st.just("") | KEY,
        field=st.sampled_from(("do", "steps", "most")),
        now=said,
        was=st.none() | said,
    )


def left_outs(children: tuple[str, ...], homes: tuple[str, ...]) -> st.SearchStrategy[LeftOut]:
    whose = [(None, None), *((one, None) for one in children), *((None, one) for one in homes)]
    return st.builds(
        lambda whose, **given: LeftOut(child=whose[0], home=whose[1], **given),
        whose=st.sampled_from(whose),
        id=KEY,
        activity=KEY,
        since=DATES,
        reason=TEXT,
    )


def _one_each(blanks: tuple[Blank, ...]) -> tuple[Blank, ...]:
    return tuple({(one.session, one.child, one.activity): one for one in blanks}.values())


def _one_note_each(some: tuple[SessionNote, ...]) -> tuple[SessionNote, ...]:
    return tuple({(one.session, one.child): one for one in some}.values())


@pytest.mark.django_db
@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(caseload=caseloads())
def test_file_to_rows_to_file_loses_nothing(caseload: Caseload) -> None:
    with transaction.atomic():
        rows_from_caseload(parse_caseload(caseload_json(caseload), name="it"))
        found = caseload_from_rows()
        transaction.set_rollback(True)
    assert caseload_json(found) == caseload_json(caseload)


@pytest.mark.django_db
@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(first=caseloads(), second=caseloads())
def test_writing_over_it_leaves_what_was_written_last(first: Caseload, second: Caseload) -> None:
    with transaction.atomic():
        rows_from_caseload(first)
        try:
            rows_from_caseload(second)
        except ValueError:  # a room that an earlier group still needs
            transaction.set_rollback(True)
            return
        found = caseload_from_rows()
        transaction.set_rollback(True)
    for kind in ("children", "homes", "sites", "groups", "sessions", "made_up"):
        now = {row.id: row for row in getattr(found, kind)}
        assert all(now[row.id] == row for row in getattr(second, kind))
