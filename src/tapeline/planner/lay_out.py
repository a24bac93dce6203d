"""From core values to the board: which activities may stand in which part, for how long."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from tapeline.activities.allowed import Ruling, what_is_allowed
from tapeline.activities.models import PARTS, PARTS_WITH_TRIALS, Activity, PartName, Version
from tapeline.activities.timing import explain_s
from tapeline.activities.values import planning_values, session_shapes
from tapeline.planner.board import (
    Board,
    BoardChild,
    Candidate,
    CourseShape,
    Hindrance,
    Level,
    PartShape,
)
from tapeline.planner.given import Given, Slot
from tapeline.planner.load import without_added_load
from tapeline.planner.options import Offer, idle_seconds, offers_for, option_at, without_too_hard
from tapeline.planner.places import Taking, stock_counts, with_children
from tapeline.planner.prune import thin
from tapeline.planner.real_parts import is_real
from tapeline.planner.values import real_parts

COURSE_STEP_MIN = 2
Permitted = dict[str, list[tuple[Version, Ruling]]]


def lay_out(given: Given, *, only: Collection[PartName] = PARTS) -> Board:
    """The board for a request: candidates per part, and what stood in the way of others.

    `only` names the parts for which activities are looked for.
    """
    parts, courses = shape_of(given.request.seconds // 60, in_room=given.in_room > 0)
    candidates: list[Candidate] = []
    hindrances: list[Hindrance] = []
    for shape in (shape for shape in parts if shape.part in only):
        for activity in _activities_for(given, shape.part):
            found = _candidate_or_hindrance(given, activity, shape, courses)
            if isinstance(found, Candidate):
                candidates.append(found)
            else:
                hindrances.append(found)
    room = next((taking.here for taking in given.taking if taking.member.place == "room"), None)
    board = Board(
        request=given.request,
        children=_board_children(given, courses),
        parts=parts,
        courses=courses,
        candidates=tuple(candidates),
        hindrances=tuple(hindrances),
        room_cm2=room.length_cm * room.width_cm if room else 0,
        room_stock=stock_counts(room) if room else {},
    )
    return thin(board)


def shape_of(
    minutes: int, *, in_room: bool
) -> tuple[tuple[PartShape, ...], tuple[CourseShape, ...]]:
    """Parts of a session of this length, and the lengths its course may have."""
    shapes = session_shapes()
    shape = next((one for one in shapes if minutes <= one["up_to_minutes"]), shapes[-1])
    parts = tuple(
        PartShape(
            part=part,
            least=size["least"],
            most=size["most"],
            always=size["needed"] == "always",
            doing_s=60 * size.get("doing", 0),
        )
        for part, size in shape["parts"].items()
    )
    course = shape["parts"].get("course")
    course_kinds = "course" if in_room else "course_at_home"
    lengths = range(course["least"], course["most"] + 1, COURSE_STEP_MIN) if course else ()
    kinds = [(length, kind) for length in lengths for kind in shape[course_kinds]]
    return parts, tuple(
        CourseShape(key=key, minutes=length, stations=kind["stations"], rounds=kind["rounds"])
        for key, (length, kind) in enumerate(kinds)
    )


def _activities_for(given: Given, part: PartName) -> Iterator[Activity]:
    for activity in given.library.activities.values():
        if part in activity.uses and activity.id not in given.left_out:
            yield activity


def _candidate_or_hindrance(
    given: Given, activity: Activity, shape: PartShape, courses: tuple[CourseShape, ...]
) -> Candidate | Hindrance:
    permitted = _permitted(given, activity, shape, courses)
    if isinstance(permitted, Hindrance):
        return permitted
    lengths = (
        courses
        if shape.part == "course"
        else [
            CourseShape(key=minutes, minutes=minutes, stations=1, rounds=1)
            for minutes in range(shape.least, shape.most + 1)
        ]
    )
    offers = _offers(given, activity, shape.part, permitted)
    struggling = next((child for child, own in offers.items() if not own), None)
    if struggling is not None:
        rule = "added_load" if struggling in given.losing else "too_hard"
        return Hindrance(part=shape.part, activity=activity.id, child=struggling, rules=(rule,))
    levels = [_level(given, activity, shape.part, permitted, offers, length) for length in lengths]
    found = tuple(level for level in levels if level and is_real(level, shape))
    if not found:
        return Hindrance(part=shape.part, activity=activity.id, child="", rules=("minutes",))
    skill = given.library.skills.get(activity.skill) if activity.skill else None
    return Candidate(
        part=shape.part,
        activity=activity.id,
        skill=activity.skill,
        family=skill.family if skill else None,
        lanes=activity.lanes,
        levels=found,
        manner=given.manners[activity.id],
        out_for=_out_for(given, activity),
    )


def _out_for(given: Given, activity: Activity) -> int:
    """For how many who take part from home the family still has a thing of it out."""
    served_by = given.manners[activity.id].served_by
    return sum(
        taking.member.place != "room"
        and bool(served_by & given.still_out.get(taking.child.id, frozenset()))
        for taking in given.taking
    )


def _permitted(
    given: Given, activity: Activity, shape: PartShape, courses: tuple[CourseShape, ...]
) -> Permitted | Hindrance:
    """Versions each child may do, or the rules in the way of a child without any."""
    fewest = min((course.stations for course in courses), default=1)
    slot = Slot(
        activity=activity,
        part=shape.part,
        practice_s=0,
        stations=fewest if shape.part == "course" else 1,
    )
    permitted: Permitted = {}
    for taking in given.taking:
        rulings = _rulings(given, slot, taking)
        free = [(version, ruling) for version, ruling in rulings if ruling.status != "blocked"]
        if not free:
            nearest = min((ruling.rules for _, ruling in rulings), key=len)
            return Hindrance(
                part=shape.part, activity=activity.id, child=taking.child.id, rules=nearest
            )
        permitted[taking.child.id] = free
    return permitted


def _rulings(given: Given, slot: Slot, taking: Taking) -> list[tuple[Version, Ruling]]:
    at_once = slot.at_once(given.in_room)
    key = (slot.activity.id, taking.child.id, at_once)
    if key not in given.rulings:
        given.rulings[key] = _rule_on_each(given, slot.activity, taking, at_once)
    return given.rulings[key]


def _rule_on_each(
    given: Given, activity: Activity, taking: Taking, at_once: int
) -> list[tuple[Version, Ruling]]:
    here = with_children(taking.here, at_once)
    in_force = given.in_force(taking)
    return [
        (
            version,
            what_is_allowed(
                version,
                who=taking.who,
                here=here,
                library=given.library,
                book=given.book,
                on=given.request.date,
                in_force=in_force,
            ),
        )
        for version in activity.versions
    ]


def _level(
    given: Given,
    activity: Activity,
    part: PartName,
    permitted: Permitted,
    offers: dict[str, list[Offer]],
    length: CourseShape,
) -> Level | None:
    """The length with every child's options, or None when a child has none at it."""
    change_s = 0 if part == "closing" else given.change_s
    setup_s = 0
    if part == "course":
        talk_s = int(planning_values()["course"]["explain_s"])
    else:
        is_copied = part in real_parts()["told_while_doing"]
        talk_s = explain_s(is_new=not is_copied and not given.past.knows(activity.id))
        setup_s = max(version.setup_s for free in permitted.values() for version, _ in free)
    practice_s = (60 * length.minutes - talk_s - change_s) // length.stations - setup_s
    if practice_s <= 0:
        return None
    slot = Slot(
        activity=activity,
        part=part,
        practice_s=practice_s,
        stations=length.stations,
        rounds=length.rounds,
    )
    options = {
        child: tuple(option for offer in own if (option := option_at(offer, slot, given.in_room)))
        for child, own in offers.items()
    }
    idle_s = min(
        idle_seconds(offer, slot, given.in_room) for own in offers.values() for offer in own
    )
    if not all(options.values()):
        return None
    return Level(
        key=length.key,
        minutes=length.minutes,
        stations=length.stations,
        rounds=length.rounds,
        explain_s=talk_s,
        setup_s=setup_s,
        change_s=change_s,
        idle_s=idle_s,
        options=options,
    )


def _offers(
    given: Given, activity: Activity, part: PartName, permitted: Permitted
) -> dict[str, list[Offer]]:
    slot = Slot(activity=activity, part=part, practice_s=0)
    found = {}
    for taking in given.taking:
        free = without_added_load(given, slot, taking, permitted[taking.child.id])
        free = without_too_hard(given, slot, taking, free)
        found[taking.child.id] = offers_for(given, slot, taking, free)
    return found


def _board_children(given: Given, courses: tuple[CourseShape, ...]) -> tuple[BoardChild, ...]:
    playable = _playable_skills(given, courses)
    return tuple(
        BoardChild(
            id=taking.child.id,
            place=taking.member.place,
            floor_skills=()
            if taking.child.id in given.request.wishes.any_skill
            else _floor_skills(taking, playable),
            is_far=taking.child.id in given.far,
        )
        for taking in given.taking
    )


def _playable_skills(given: Given, courses: tuple[CourseShape, ...]) -> set[str]:
    """Skills with an activity, not left out, that everybody who takes part may do."""
    found: set[str] = set()
    for activity in given.library.activities.values():
        if activity.skill is None or activity.skill in found:
            continue
        if activity.id in given.left_out:
            continue
        for part in PARTS:
            if part in PARTS_WITH_TRIALS and part in activity.uses:
                shape = PartShape(part=part, least=1, most=1, always=False)
                if not isinstance(_permitted(given, activity, shape, courses), Hindrance):
                    found.add(activity.skill)
    return found


def _floor_skills(taking: Taking, playable: set[str]) -> tuple[str, ...]:
    """Own goals' skills that can be played; without goals any started skill; else any."""
    goals = {goal.skill for goal in taking.child.goals}
    wanted = goals or {start.skill for start in taking.child.skills}
    return tuple(sorted(wanted & playable))
