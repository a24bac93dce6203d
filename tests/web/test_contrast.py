"""Contrast measured from the style sheets' own tokens, in each scheme they can show.

The least figures are those of the look: text 7 : 1 (WCAG 2.2, 1.4.6), shapes 3 : 1 (1.4.11).
The measure is coloraide's, a second implementation of WCAG's relative luminance.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from coloraide import Color

import tapeline.web
from tapeline.figures import tokens
from tapeline.figures.tokens import TAPES

CSS = Path(tapeline.web.__file__).parent / "static" / "css"
DOCUMENT = Path(__file__).parents[2] / "docs" / "accessibility.md"
LIGHT, MORE = "light", "more contrast"
DARK, DARK_MORE = "dark (run page)", "dark, more contrast (run page)"
SCHEMES = (LIGHT, MORE, DARK, DARK_MORE)
TEXT, SHAPE = 7.0, 3.0
PAIRS = tuple(
    (front, back, least)
    for front, least in (("ink", TEXT), ("soft", TEXT), ("edge", SHAPE), ("focus", SHAPE))
    for back in ("page", "sheet")
)
BLOCK = re.compile(r":root \{([^{}]*)\}")
TOKEN = re.compile(r"--([a-z]+): (#[0-9a-f]{6})")


def sheet(name: str, media: str = "") -> dict[str, str]:
    """The colours that a style sheet sets for the whole page under a media query."""
    text = (CSS / name).read_text(encoding="utf-8")
    if media:
        at = text.index(f"@media {media} {{")
        found = BLOCK.search(text, at)
    else:
        found = BLOCK.search(text)
    assert found is not None
    return dict(TOKEN.findall(found[1]))


def scheme(name: str) -> dict[str, str]:
    """Every colour of one scheme, as the cascade leaves it."""
    found = sheet("tapeline.css")
    found["plate"] = found["page"]
    more = sheet("tapeline.css", "(prefers-contrast: more)")
    dark = sheet("run.css", "screen and (prefers-color-scheme: dark)")
    dark_more = sheet(
        "run.css", "screen and (prefers-color-scheme: dark) and (prefers-contrast: more)"
    )
    for layer in {LIGHT: (), MORE: (more,), DARK: (dark,), DARK_MORE: (more, dark, dark_more)}[
        name
    ]:
        found |= layer
    return found


def contrast(one: str, other: str) -> float:
    return Color(one).contrast(other, method="wcag21")


def test_the_light_sheet_is_the_colours_of_the_look() -> None:
    light = sheet("tapeline.css")
    for name in ("page", "sheet", "ink", "soft", "edge", "line", "focus"):
        assert light[name] == getattr(tokens, name.upper())


@pytest.mark.parametrize("name", SCHEMES)
@pytest.mark.parametrize(("front", "back", "least"), PAIRS)
def test_text_and_shapes_keep_their_contrast(
    name: str, front: str, back: str, least: float
) -> None:
    colours = scheme(name)
    assert contrast(colours[front], colours[back]) >= least


@pytest.mark.parametrize("name", [DARK, DARK_MORE])
@pytest.mark.parametrize("kind", TAPES)
def test_tape_marks_and_figures_tell_in_a_dim_hall(name: str, kind: str) -> None:
    colours = scheme(name)
    assert contrast(TAPES[kind].tint, colours["page"]) >= SHAPE
    assert contrast(TAPES[kind].mark, colours["plate"]) >= SHAPE
    assert contrast(tokens.INK, colours["plate"]) >= TEXT
    assert contrast(colours["plate"], colours["page"]) >= SHAPE


@pytest.mark.parametrize("kind", TAPES)
def test_the_mark_of_a_child_who_is_away_still_shows(kind: str) -> None:
    colours, text = scheme(LIGHT), (CSS / "run.css").read_text(encoding="utf-8")
    found = re.search(r"\[data-absent\].*opacity: (\.\d+)", text)
    assert found is not None
    faded = Color(colours["page"]).mix(TAPES[kind].mark, float(found[1]), space="srgb")
    assert faded.contrast(colours["page"], method="wcag21") >= SHAPE


@pytest.mark.parametrize("name", SCHEMES)
def test_the_document_prints_what_is_measured(name: str) -> None:
    colours = scheme(name)
    figures = " | ".join(f"{contrast(colours[f], colours[b]):.1f}" for f, b, _least in PAIRS)
    assert f"| {name} | {figures} |" in DOCUMENT.read_text(encoding="utf-8")
