"""What a drawn child looks like: skin, hair or head cover, clothes, drawn by lot from a seed.

In ink, tones follow what a thing is, not its true luminance, so that dark skin and dark
trousers never run into one blot.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from random import Random

SKINS = ("#f4d5bb", "#e8ba94", "#cf9a6d", "#a06a45", "#704630")
HAIRS = ("#2b221e", "#4b3425", "#7b4f2d", "#b9873f", "#93401f")
TOPS = ("#e9bb4c", "#86a8c6", "#6f9f88", "#dd7e5b", "#cbd6e2", "#f2e5ca", "#aab4de", "#d9a4b4")
BOTTOMS = ("#46586e", "#b24f39", "#5d5547", "#5a4a7d", "#3f5249", "#7d6449")
SHOES = ("#f8f4ec", "#d9d3c6", "#f8f4ec", "#3d3934")
CLOTHS = ("#5f73a8", "#c98f3a", "#7d5f8f", "#4d8079")
STYLES = ("crop", "bob", "puffs", "tail", "curls", "scarf")
LEGWEAR = ("trousers", "shorts", "trousers")
SLEEVES = ("short", "short", "long")


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """Colours and shapes of one drawn child."""

    skin: str
    hair: str
    top: str
    bottom: str
    shoe: str
    cloth: str
    style: str
    legwear: str
    sleeve: str
    glasses: bool
    splint: str
    splints: bool = False


def look_of(seed: int, *, ink: bool = False, splints: bool = False) -> Look:
    """The look that belongs to a seed; in ink the same child in greys."""
    lot = Random(f"look {seed}")
    style = lot.choice(STYLES)
    skin = lot.randrange(len(SKINS))
    hair = lot.randrange((5, 5, 3, 2, 1)[skin])
    tops = [i for i in range(len(TOPS)) if not (skin < 2 and i in (0, 5))]
    top, bottom, shoe, cloth = (
        lot.choice(tops),
        lot.randrange(len(BOTTOMS)),
        lot.randrange(len(SHOES)),
        lot.randrange(len(CLOTHS)),
    )
    legwear, glasses = lot.choice(LEGWEAR), lot.random() < 0.2
    sleeve = "long" if style == "scarf" else lot.choice(SLEEVES)
    legwear = "trousers" if style == "scarf" else legwear
    return Look(
        skin=_tone(0.94 - 0.07 * skin) if ink else SKINS[skin],
        hair=_tone(0.24 + 0.05 * hair) if ink else HAIRS[hair],
        top=_tone(1.0 if skin > 1 else 0.8) if ink else TOPS[top],
        bottom=_tone(0.48 + 0.02 * bottom) if ink else BOTTOMS[bottom],
        shoe="#ffffff" if ink else SHOES[shoe],
        cloth=_tone(0.46) if ink else CLOTHS[cloth],
        style=style,
        legwear=legwear,
        sleeve=sleeve,
        glasses=glasses,
        splint="#ffffff" if ink else "#9fc0d8",
        splints=splints,
    )


def grown_up(seed: int, *, ink: bool = False, who: str = "adult") -> Look:
    """The look of the other person in a child's picture: never the child's own."""
    own = look_of(seed, ink=ink)
    found = next(
        look
        for number in range(1, 60)
        if (look := look_of(seed * 7 + number, ink=ink)).style != own.style
        and (ink or look.top != own.top)
        and (who == "child" or look.style != "puffs")
    )
    if who == "child":
        return found
    return replace(found, legwear="trousers", glasses=False)


def _tone(level: float) -> str:
    """A grey of a level from 0 (black) to 1 (white)."""
    value = round(255 * min(level, 1.0))
    return f"#{value:02x}{value:02x}{value:02x}"
