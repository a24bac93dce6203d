"""A move as one moving picture: an SVG file that plays once, for at most five seconds, and stops.

The only drawings with a style element of their own: they are files, shown as images. All
pictures lie side by side and are moved past in steps; what does not change is drawn once.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from html import escape

from tapeline.figures.asking import Asked, ask
from tapeline.figures.film import A_SECOND, film_of
from tapeline.figures.move import Params, Value
from tapeline.figures.stills import MARGIN, PX_A_CM, TAPE_HEIGHT, Shown, add_lens, drawing_of
from tapeline.figures.svg import number
from tapeline.figures.tape import tape_group
from tapeline.figures.view import Drawing
from tapeline.figures.words import words_of

KEPT_LOOPS = 64
SECOND_DECIMAL = re.compile(r"(\.\d)\d\b")


def loop_svg(
    move: str,
    *,
    age_years: float = 5.0,
    params: Params | None = None,
    seed: int = 0,
    ink: bool = False,
    gets_about: str = "on_foot",
    language: str = "en",
) -> str:
    """The move as an SVG file: it plays once and stops, and is still for who wants no motion.

    Parameters and errors are those of `still_svg`.
    """
    chosen = tuple(sorted((params or {}).items()))
    return _kept(move, age_years, chosen, seed, ink, gets_about, language)


@lru_cache(maxsize=KEPT_LOOPS)
def _kept(
    move: str,
    age_years: float,
    params: tuple[tuple[str, Value], ...],
    seed: int,
    ink: bool,
    gets_about: str,
    language: str,
) -> str:
    asked = ask(
        move, params=dict(params), gets_about=gets_about, language=language, age_years=age_years
    )
    moments = film_of(asked)
    shown = Shown(seed=seed, ink=ink, floor=True)
    drawings = [drawing_of(asked, moment.cast, shown, still=False) for moment in moments]
    # The closer view of each picture stands in one place.
    corners = [corner for drawing in drawings for corner in drawing.corners]
    for moment, drawing in zip(moments, drawings, strict=True):
        add_lens(drawing, asked, moment.cast, shown, beside=corners)
    title = " ".join(words_of(asked, asked.cast(frame), frame) for frame in asked.frames)
    return _film(asked, drawings, ink, title)


def _film(asked: Asked, drawings: list[Drawing], ink: bool, title: str) -> str:
    stature = asked.body.stature
    margin = MARGIN * stature
    xs = [x for drawing in drawings for x, _ in drawing.corners]
    ys = [y for drawing in drawings for _, y in drawing.corners]
    left, right = min(xs) - margin, max(xs) + margin
    top, bottom = min(ys) - margin, max(*ys, 0.0) + margin
    width, height = right - left, bottom - top + TAPE_HEIGHT * stature
    floor = tape_group(
        asked.move.family,
        length=width,
        height=TAPE_HEIGHT * stature,
        ink_only=ink,
        x=left,
        y=bottom,
    )
    kept, shots = _once(drawings)
    strip = "".join(
        f'<g transform="translate({number(i * width)} 0)">{shot}</g>' if i else f"<g>{shot}</g>"
        for i, shot in enumerate(shots)
    )
    count = len(shots)
    css = (
        f".f{{animation:f {count / A_SECOND:.2f}s steps({count},jump-none) 1 both}}"
        f"@keyframes f{{to{{transform:translateX({-(count - 1) * width:.2f}px)}}}}"
        "@media (prefers-reduced-motion:reduce){.f{animation:none}}"
    )
    box = f"{left:.2f} {top:.2f} {width:.2f} {height:.2f}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width * PX_A_CM)}"'
        f' height="{number(height * PX_A_CM)}" viewBox="{box}" role="img">'
        f"<title>{escape(title)}</title><style>{css}</style><defs>{kept}</defs>"
        f'{floor}<g class="f">{strip}</g></svg>'
    )


def _once(drawings: list[Drawing]) -> tuple[str, list[str]]:
    """Pieces that come back, drawn once and used again; then each picture."""
    seen = Counter(markup for drawing in drawings for _, _, markup in drawing.pieces)
    names = {
        markup: f"p{i}" for i, markup in enumerate(m for m, times in seen.items() if times > 1)
    }
    kept = "".join(f'<g id="{name}">{_short(markup)}</g>' for markup, name in names.items())
    shots = []
    for drawing in drawings:
        pieces = (markup for _, _, markup in sorted(drawing.pieces))
        shots.append(
            "".join(f'<use href="#{names[m]}"/>' if m in names else _short(m) for m in pieces)
        )
    return kept, shots


def _short(markup: str) -> str:
    """The same with coordinates to a millimetre."""
    return SECOND_DECIMAL.sub(r"\1", markup)
