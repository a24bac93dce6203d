"""What a caseload file and a plan file hold, field by field, with what left-out fields mean."""

from __future__ import annotations

from tapeline.checking.readers import (
    anything,
    by_id,
    day,
    maybe,
    month,
    number,
    one_of,
    record,
    rows,
    text,
    whole,
    yes_no,
)

PARTS = (
    "arrival",
    "warm_up",
    "revisit",
    "practice",
    "course",
    "fine_motor",
    "cool_down",
    "closing",
)
NOISES = ("quiet", "usual", "loud")
LATEX = ("yes", "no", "unknown")
place = one_of("room", "home", "home_later")
words = rows(text)

go_ahead = record(
    {
        "written_by": text,
        "date": day,
        "allows": (words, []),
        "ends": (maybe(day), None),
        "note": (text, ""),
    }
)
precaution = record(
    {
        "kind": text,
        "since": (maybe(day), None),
        "note": (text, ""),
        "go_aheads": (rows(go_ahead), []),
    }
)
start = record({"skill": text, "step": text})
baseline = record({"k": whole, "n": whole, "date": day, "help": (text, "alone")})
goal = record(
    {
        "id": text,
        "name": text,
        "skill": text,
        "step": text,
        "k": whole,
        "n": whole,
        "m": (whole, 1),
        "help_at_most": (text, "alone"),
        "condition": (text, ""),
        "behaviour": (text, ""),
        "date": (maybe(day), None),
        "baseline": (maybe(baseline), None),
        "weight": (whole, 1),
    }
)
band = record({"low": whole, "best": whole, "high": whole})
illness = record({"first": day, "last": day})
loss_answer = record(
    {
        "skill": text,
        "date": day,
        "says": one_of("well_again", "closed"),
        "reason": (text, ""),
    }
)
child = record(
    {
        "id": text,
        "name": text,
        "born": month,
        "mark": (text, ""),
        "home": (maybe(text), None),
        "skills": (rows(start), []),
        "goals": (rows(goal), []),
        "precautions": (rows(precaution), []),
        "gets_about": (one_of("on_foot", "walking_frame", "wheelchair", "splints"), "on_foot"),
        "height_cm": (maybe(whole), None),
        "jump_cm": (maybe(whole), None),
        "hop_cm": (maybe(whole), None),
        "stride_cm": (maybe(whole), None),
        "device_width_cm": (maybe(whole), None),
        "turning_cm": (maybe(whole), None),
        "note": (text, ""),
        "active": (yes_no, True),
        "band": (maybe(band), None),
        "ill": (rows(illness), []),
        "loss_answers": (rows(loss_answer), []),
    }
)
thing = record(
    {"material": text, "count": (maybe(whole), None), "latex": (maybe(one_of(*LATEX)), None)}
)
also_there = record({"who": text, "born": month})
home = record(
    {
        "id": text,
        "name": (text, ""),
        "space": (
            one_of("one_square_metre", "two_by_two", "hallway", "room", "garden", "own_size"),
            "room",
        ),
        "length_cm": (maybe(whole), None),
        "width_cm": (maybe(whole), None),
        "things": (rows(thing), []),
        "helper": (text, ""),
        "hands": (whole, 2),
        "language": (one_of("en", "es"), "en"),
        "loudest": (one_of(*NOISES), "usual"),
        "also_there": (rows(also_there), []),
        "crawling_baby": (yes_no, False),
    }
)
spot = rows(whole)
outline = rows(spot)
door = record({"start": spot, "end": spot, "swing": (one_of("in", "out"), "in")})
furniture = record({"name": text, "polygon": outline, "movable": (yes_no, False)})
room = record(
    {
        "id": text,
        "name": text,
        "length_cm": whole,
        "width_cm": whole,
        "things": (rows(thing), []),
        "corners": (outline, []),
        "doors": (rows(door), []),
        "furniture": (rows(furniture), []),
        "pillars": (rows(outline), []),
        "no_go": (rows(outline), []),
        "adults": (outline, []),
    }
)
site = record({"id": text, "rooms": (rows(room), [])}, extra=True)
membership = record(
    {
        "child": text,
        "place": (place, "room"),
        "starts": (maybe(day), None),
        "ends": (maybe(day), None),
    }
)
group = record(
    {
        "id": text,
        "name": text,
        "weekday": text,
        "start": text,
        "minutes": whole,
        "site": (maybe(text), None),
        "room": (maybe(text), None),
        "adults": (whole, 2),
        "members": (rows(membership), []),
        "floor_of_trials": (maybe(whole), None),
    }
)
trial = record(
    {
        "id": text,
        "session": text,
        "child": text,
        "version": text,
        "step": text,
        "outcome": text,
        "help": (text, "alone"),
        "procedure": (text, "least_help"),
        "count": (whole, 1),
        "source": (text, "tally"),
        "at": (maybe(text), None),
        "measured": (maybe(number), None),
        "corrects": (maybe(text), None),
    }
)
family_answer = record(
    {
        "id": text,
        "session": text,
        "child": text,
        "days_done": (maybe(whole), None),
        "went": (maybe(text), None),
        "hurt_or_scary": (text, ""),
    }
)
session = record({"id": text, "date": (maybe(text), None)}, extra=True)
timing = record(
    {
        "id": text,
        "version": text,
        "seconds": number,
        "units": whole,
        "date": day,
        "child": (maybe(text), None),
    }
)
own_material = record(
    {
        "id": text,
        "may_contain_latex": (one_of(*LATEX), "unknown"),
        "touches": (words, []),
        "substitutes": (words, []),
        "stands_in_for": (words, []),
    },
    extra=True,
)
own_change = record(
    {"activity": text, "field": text, "now": anything, "version": (text, "")}, extra=True
)
left_out = record(
    {"activity": text, "child": (maybe(text), None), "home": (maybe(text), None)}, extra=True
)
caseload = record(
    {
        "format": whole,
        "sites": (rows(site), []),
        "groups": (rows(group), []),
        "children": (rows(child), []),
        "homes": (rows(home), []),
        "sessions": (rows(session), []),
        "trials": (rows(trial), []),
        "family_answers": (rows(family_answer), []),
        "timings": (rows(timing), []),
        "own_activities": (rows(by_id(anything)), []),
        "own_versions": (rows(by_id(anything)), []),
        "own_materials": (rows(by_id(anything)), []),
        "own_changes": (rows(own_change), []),
        "left_out": (rows(left_out), []),
    },
    extra=True,
)

row = record(
    {
        "id": text,
        "place": place,
        "version": text,
        "amount": whole,
        "unit": text,
        "new": yes_no,
        "things": words,
        "flags": words,
    },
    extra=True,
)
part = record(
    {
        "part": one_of(*PARTS),
        "activity": text,
        "start_s": whole,
        "seconds": whole,
        "explain_s": whole,
        "setup_s": whole,
        "change_s": whole,
        "rounds": whole,
        "children": rows(row),
    },
    extra=True,
)
lock = record({"activity": text, "part": (maybe(one_of(*PARTS)), None)}, extra=True)
asked = record({"activity": text, "amount": whole, "child": (maybe(text), None)}, extra=True)
wishes = record(
    {
        "locked": (rows(lock), []),
        "left_out": (words, []),
        "amounts": (rows(asked), []),
        "away": (words, []),
        "any_skill": (words, []),
    },
    extra=True,
)
limits = record({"floor_of_trials": whole, "turn_cap": whole, "new_things": whole}, extra=True)
request = record(
    {
        "group": text,
        "date": day,
        "seconds": whole,
        "adults": whole,
        "wishes": wishes,
        "limits": limits,
        "played": (maybe(record({"parts": whole, "seconds": whole})), None),
    },
    extra=True,
)
fingerprints = record(
    {"precautions": text, "goals": text, "home": text, "history": text}, extra=True
)
made_from = record(
    {"library": text, "rules": text, "place": text, "children": by_id(fingerprints)}, extra=True
)
coded = record({"code": text, "values": (by_id(anything), {})}, extra=True)
dropped = record(
    {"child": text, "goal": text, "reason": coded, "back": (maybe(day), None)}, extra=True
)
plan = record(
    {
        "format": whole,
        "made_from": made_from,
        "request": request,
        "parts": rows(part),
        "dropped": (rows(dropped), []),
        "notices": (rows(coded), []),
    },
    extra=True,
)
