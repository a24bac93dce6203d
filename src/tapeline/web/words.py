"""Words for the choices of forms and lists."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as lazy
from django.utils.translation import ngettext

from tapeline.caseload.people import SPACES_CM
from tapeline.units import length_in_words

Words = Mapping[str, Any]


def floor_in_words(length_cm: int, width_cm: int) -> str:
    """A floor in metres, and in feet and inches."""
    metres = f"{length_in_words(length_cm)} × {length_in_words(width_cm)}"
    feet = f"{_feet(length_cm)} × {_feet(width_cm)}"
    return f"{metres} ({feet})"


def _feet(length_cm: int) -> str:
    return length_in_words(length_cm, unit="feet")


def _with_size(what: Any, space: str) -> Any:
    return format_lazy("{what}, {size}", what=what, size=floor_in_words(*SPACES_CM[space]))


GETS_ABOUT: Words = {
    "on_foot": lazy("On foot"),
    "splints": lazy("On foot, with splints"),
    "walking_frame": lazy("With a walking frame"),
    "wheelchair": lazy("In a wheelchair"),
}
SPACES: Words = {
    "one_square_metre": _with_size(lazy("One square metre"), "one_square_metre"),
    "two_by_two": _with_size(lazy("Two metres by two"), "two_by_two"),
    "hallway": _with_size(lazy("A hallway"), "hallway"),
    "room": _with_size(lazy("A room"), "room"),
    "garden": _with_size(lazy("A garden or yard"), "garden"),
    "own_size": lazy("Another size"),
}
HANDS: Words = {
    "2": lazy("Two hands"),
    "1": lazy("One hand (a baby on the arm)"),
    "0": lazy("None (can only watch)"),
}
LANGUAGES: Words = {"en": lazy("English"), "es": lazy("Spanish")}
NOISES: Words = {
    "quiet": lazy("Quiet only"),
    "usual": lazy("Talking and playing"),
    "loud": lazy("Loud is fine"),
}
WEEKDAYS: Words = {
    "monday": lazy("Monday"),
    "tuesday": lazy("Tuesday"),
    "wednesday": lazy("Wednesday"),
    "thursday": lazy("Thursday"),
    "friday": lazy("Friday"),
    "saturday": lazy("Saturday"),
    "sunday": lazy("Sunday"),
}
PLACES: Words = {
    "room": lazy("In the room"),
    "home": lazy("At home, live"),
    "home_later": lazy("At home, later"),
}
WEIGHTS: Words = {"1": lazy("1, usual"), "2": lazy("2, more"), "3": lazy("3, most")}
LATEX: Words = {
    "": lazy("Nobody has looked yet"),
    "no": lazy("Yes, it says latex-free"),
    "yes": lazy("No, it is latex"),
}
PAPERS: Words = {"a4": lazy("A4"), "letter": lazy("Letter")}
SPELLINGS: Words = {"us": lazy("American (color)"), "uk": lazy("British (colour)")}
LENGTHS: Words = {"cm": lazy("Centimetres and metres"), "feet": lazy("Feet and inches")}
PARTS: Words = {
    "arrival": lazy("Arrival"),
    "warm_up": lazy("Warm-up"),
    "revisit": lazy("Revisit"),
    "practice": lazy("Practice"),
    "course": lazy("Course"),
    "fine_motor": lazy("Fine motor"),
    "cool_down": lazy("Cool-down"),
    "closing": lazy("Closing"),
}
WHERE: Words = {"room": lazy("In a room"), "home": lazy("At home")}
UNITS: Words = {
    "tries": lazy("tries"),
    "seconds": lazy("seconds"),
    "metres": lazy("metres"),
    "rounds": lazy("rounds"),
}
POSITIONS: Words = {
    "standing": lazy("standing"),
    "moving": lazy("moving"),
    "sitting": lazy("sitting"),
    "kneeling": lazy("kneeling"),
    "lying": lazy("lying"),
    "all_fours": lazy("on all fours"),
}
VARIANTS: Words = {
    "seated": lazy("seated"),
    "small_space": lazy("on a small floor"),
    "quiet": lazy("quiet"),
    "no_things": lazy("with nothing to buy"),
    "wheels": lazy("in a wheelchair"),
    "frame": lazy("with a walking frame"),
    "one_hand": lazy("the adult has one hand"),
    "one_arm": lazy("with one arm"),
}
ADULT_NEEDS: Words = {
    "within_sight": lazy("adult within sight"),
    "beside": lazy("adult beside the child"),
    "hands_on": lazy("adult with hands on"),
}
NOISE_OF_GAME: Words = {"quiet": lazy("quiet"), "usual": lazy("usual noise"), "loud": lazy("loud")}


def age_in_words(months: int) -> str:
    """An age such as "4 years 8 months"."""
    years, rest = divmod(max(months, 0), 12)
    parts = []
    if years:
        parts.append(ngettext("%(n)d year", "%(n)d years", years) % {"n": years})
    if rest or not years:
        parts.append(ngettext("%(n)d month", "%(n)d months", rest) % {"n": rest})
    return " ".join(parts)
