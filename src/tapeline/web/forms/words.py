"""Words for the choices of forms and lists."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.utils.translation import gettext_lazy as lazy
from django.utils.translation import ngettext

Words = Mapping[str, Any]

GETS_ABOUT: Words = {
    "on_foot": lazy("On foot"),
    "splints": lazy("On foot, with splints"),
    "walking_frame": lazy("With a walking frame"),
    "wheelchair": lazy("In a wheelchair"),
}
SPACES: Words = {
    "one_square_metre": lazy("One square metre (3 ft × 3 ft)"),
    "two_by_two": lazy("Two metres by two (6 ft 6 in × 6 ft 6 in)"),
    "hallway": lazy("A hallway, 4 m × 1.1 m (13 ft × 3 ft 7 in)"),
    "room": lazy("A room, 4 m × 3 m (13 ft × 9 ft 10 in)"),
    "garden": lazy("A garden or yard, 8 m × 6 m (26 ft × 19 ft 8 in)"),
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
