"""The parts of a session as people call them."""

from __future__ import annotations

PART_NAMES = {
    "arrival": "arrival",
    "warm_up": "warm-up",
    "revisit": "revisit",
    "practice": "practice",
    "course": "course",
    "fine_motor": "fine motor",
    "cool_down": "cool-down",
    "closing": "closing",
}
