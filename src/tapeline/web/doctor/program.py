"""Is the program whole: library, pages, paper, fonts?"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from importlib.resources import files
from pathlib import Path

from tapeline.errors import TapelineError
from tapeline.web.doctor.finding import About, Finding

AGAIN = "Get this version of tapeline again; your records stay where they are."
FONT_FILE = re.compile(r'url\("\.\./(fonts/[^"]+)"\)')
TRUETYPE, WOFF2 = b"\x00\x01\x00\x00", b"wOF2"
PAPER_FONTS = 3


def library_findings() -> Iterator[Finding]:
    """What the library's own check finds."""
    from tapeline.activities.check import check_library
    from tapeline.activities.loader import load_library, load_rule_book

    try:
        for fault in check_library(load_library(), load_rule_book()):
            yield _finding("library", fault)
    except TapelineError as error:
        yield _finding("library", error.message)


def template_findings() -> Iterator[Finding]:
    """Pages that do not come out, and paper that is not printed."""
    yield from _pages()
    for what, make in _paper().items():
        try:
            is_printed = make().startswith(b"%PDF")
        except Exception as error:
            yield _finding("templates", f"{what} cannot be printed ({type(error).__name__}).")
        else:
            if not is_printed:
                yield _finding("templates", f"{what} came out as something that is no PDF.")


def _pages() -> Iterator[Finding]:
    from django.template import TemplateSyntaxError
    from django.template.loader import get_template
    from django.test import Client
    from django.urls import get_resolver

    from tapeline.web.settings import HERE

    folder = HERE / "templates"
    for path in sorted(folder.rglob("*.html")):
        name = path.relative_to(folder).as_posix()
        try:
            get_template(name)
        except TemplateSyntaxError as error:
            yield _finding("templates", f"The template {name} cannot be read ({error}).")
    browser = Client(raise_request_exception=False, headers={"host": "127.0.0.1"})
    for pattern in get_resolver().url_patterns:
        address = str(pattern.pattern)
        if "<" not in address and browser.get(f"/{address}").status_code >= 500:
            yield _finding("templates", f"The page /{address} does not come out.")


def _paper() -> dict[str, Callable[[], bytes]]:
    """What is printed, each made from the invented caseload."""
    import datetime as dt

    from tapeline.documents.printing import print_packet
    from tapeline.sessions.cover import cover_pdf
    from tapeline.sessions.demo import demo_caseload
    from tapeline.sessions.packet.whole import packet_for
    from tapeline.sessions.prepare import plan_session
    from tapeline.sessions.summary import summary_pdf

    day = dt.date(2026, 11, 25)
    caseload = demo_caseload(day)
    plan = plan_session(caseload, group="mixed", on=day)
    return {
        "The packet": lambda: print_packet(packet_for(plan, caseload)),
        "The cover page": lambda: cover_pdf(plan, caseload),
        "The family summary": lambda: summary_pdf(caseload, caseload.children[0], on=day),
    }


def font_findings() -> Iterator[Finding]:
    """Fonts that are missing, or are no fonts: paper would come out without words."""
    from tapeline.web.settings import HERE

    paper = Path(str(files("tapeline").joinpath("documents", "fonts")))
    found = sorted(paper.glob("*.ttf"))
    if len(found) < PAPER_FONTS:
        yield _finding("fonts", f"Paper needs {PAPER_FONTS} fonts, and {len(found)} are there.")
    yield from _broken(found, TRUETYPE)
    style = (HERE / "static" / "css" / "tapeline.css").read_text(encoding="utf-8")
    screen = [HERE / "static" / name for name in FONT_FILE.findall(style)]
    yield from _broken(screen, WOFF2)


def _broken(paths: list[Path], begins_with: bytes) -> Iterator[Finding]:
    for path in paths:
        try:
            with path.open("rb") as file:
                is_font = file.read(4) == begins_with
        except OSError:
            is_font = False
        if not is_font:
            yield _finding("fonts", f"The font {path.name} is missing or damaged.")


def _finding(about: About, sentence: str) -> Finding:
    return Finding(about=about, sentence=sentence, next_step=AGAIN)
