"""The library's report as a page to read: ``docs/library.md``."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tapeline.activities.coverage import CELLS
from tapeline.activities.models import Library
from tapeline.activities.report import LibraryReport
from tapeline.activities.reviews import NOBODY, Review
from tapeline.activities.rules import RuleBook

SHORT = {
    "with nothing bought": "nothing bought",
    "on one square metre": "1 m × 1 m",
    "that is quiet": "quiet",
    "from a chair": "seated or wheelchair",
    "for an adult with one hand free": "one-handed adult",
    "with a part for a brother or sister": "brother or sister",
}
LANGUAGE_NAMES = {"en": "English", "es": "Spanish"}
LONG_WORDS_SHOWN = 40
Row = Sequence[object]


def library_page(report: LibraryReport, library: Library, book: RuleBook) -> str:
    """The page in Markdown; the same report gives the same page."""
    parts = (
        _opening(report),
        _matrix(report, library),
        _by_step(report, library),
        _empty(report, library),
        _homes(report, library),
        _precautions(report, library, book),
        _weakest(report, library),
        _looks(report),
        _times(report),
        _reviews(report.reviews),
    )
    return "\n".join(line for part in parts for line in part).rstrip() + "\n"


def _opening(report: LibraryReport) -> Iterator[str]:
    yield "# The library, and what it lacks"
    yield ""
    yield "This page is made, not written: `tapeline library check --write docs/library.md`."
    yield "How the files are written stands in `library-file.md`."
    yield ""
    yield from _table(("what", "how many"), report.counts.items())
    yield from _table(
        ("part of a session", "activities"),
        ((part.replace("_", " "), count) for part, count in report.uses.items()),
    )
    found = len(report.faults)
    yield "The check finds no fault." if not found else f"The check finds {found} faults:"
    yield ""
    if found:
        yield from (f"- {fault}" for fault in report.faults)
        yield ""


def _matrix(report: LibraryReport, library: Library) -> Iterator[str]:
    yield "## Activities by skill and kind of home or child"
    yield ""
    yield "How many activities have at least one version at home that serves. 0 has its reason below."
    yield ""
    rows = (
        (library.skills[row.skill].name, row.activities, *row.cells.values())
        for row in report.skills
    )
    yield from _table(("skill", "in all", *(SHORT[cell] for cell in CELLS)), rows)


def _by_step(report: LibraryReport, library: Library) -> Iterator[str]:
    yield "## The same by step"
    yield ""
    yield "One number for each step of the progression, easiest first."
    yield ""
    rows = []
    for skill in library.skills.values():
        steps = [row for row in report.steps if row.skill == skill.id]
        cells = (" ".join(str(step.cells[cell]) for step in steps) for cell in CELLS)
        rows.append((skill.name, " ".join(str(step.activities) for step in steps), *cells))
    yield from _table(("skill", "in all", *(SHORT[cell] for cell in CELLS)), rows)


def _empty(report: LibraryReport, library: Library) -> Iterator[str]:
    yield "## Empty cells, and why"
    yield ""
    yield "Limits of the trade, read one by one (`data/library/trade_limits.yaml`)."
    yield "An empty cell without a reason is a fault of the check."
    yield ""
    rows = (
        (
            library.skills[cell.skill].name,
            f"`{cell.step}`" if cell.step else "all",
            cell.cell,
            f"{cell.limit.reason} ({cell.limit.source})" if cell.limit else "**no reason**",
        )
        for cell in report.empty
    )
    yield from _table(("skill", "step", "no version", "because"), rows)


def _homes(report: LibraryReport, library: Library) -> Iterator[str]:
    yield "## The poorest home"
    yield ""
    yield "How many activities each skill keeps in a home that owns what"
    yield "`data/library/poorest_home.yaml` lists and nothing else."
    yield ""
    rows = (
        (skill.name, *(len(home.skills[skill.id]) for home in report.homes))
        for skill in library.skills.values()
    )
    yield from _table(("skill", *(home.name for home in report.homes)), rows)


def _precautions(report: LibraryReport, library: Library, book: RuleBook) -> Iterator[str]:
    yield "## What precautions leave"
    yield ""
    yield "A child on foot in a wide room where everything is at hand, with no written go-ahead."
    left = sum(not one.empty for one in report.precautions)
    yield f"Each of {left} precautions leaves every skill an activity."
    yield "These, alone or two together, do not, until what lifts them is on file:"
    yield ""
    rows = (
        (
            " + ".join(book.precautions[name].name for name in found.precautions),
            library.skills[skill].name,
            ", ".join(f"`{rule}`" for rule in rules),
        )
        for found in (*report.precautions, *report.pairs)
        for skill, rules in found.empty.items()
    )
    yield from _table(("precaution", "skill without an activity", "rules that block"), rows)


def _weakest(report: LibraryReport, library: Library) -> Iterator[str]:
    yield "## The ten weakest activities"
    yield ""
    yield "Points: 2 × the share of the skill's steps it leaves out; 1 for no picture (½ for some);"
    yield "1 for times that are all guesses; ½ each for no source, for a kind of home or child it"
    yield "cannot serve, for a sentence of 12 words, for each sentence that may grade another thing"
    yield "than the progression, and for each text that is nearly another game's; 2 at most for one."
    yield "It says nothing of whether a game is fun."
    yield ""
    rows = (
        (
            f"{library.activities[one.activity].name} (`{one.activity}`)",
            f"{one.points:g}",
            "; ".join(one.reasons),
        )
        for one in report.weakest
    )
    yield from _table(("activity", "points", "why"), rows)


def _looks(report: LibraryReport) -> Iterator[str]:
    yield "## For a person to look at"
    yield ""
    yield "### Too hard, too easy"
    yield ""
    yield "The words of these speak of another change than the progression makes there."
    yield ""
    yield from _table(
        ("version", "line", "says", "should change", "speaks of"),
        (
            (f"`{look.version}`", look.line, look.text, look.expected, ", ".join(look.seen))
            for look in report.grading
        ),
    )
    yield "### Nearly the same text"
    yield ""
    yield "100 is letter for letter. One pair for each two activities."
    yield ""
    yield from _table(
        ("alike", "one", "other"),
        ((f"{pair.alike:g}", f"`{pair.one}`", f"`{pair.other}`") for pair in report.duplicates),
    )
    yield "### Capitals inside a sentence"
    yield ""
    yield from _table(
        ("language", "word", "first in"),
        ((LANGUAGE_NAMES[one.language], one.word, f"`{one.first}`") for one in report.capitals),
    )
    yield "### Long words"
    yield ""
    shown = report.long_words[:LONG_WORDS_SHOWN]
    yield f"The {len(shown)} that stand in most versions, of {len(report.long_words)}."
    yield ""
    yield from _table(
        ("language", "word", "versions"),
        ((LANGUAGE_NAMES[one.language], one.word, one.versions) for one in shown),
    )


def _times(report: LibraryReport) -> Iterator[str]:
    yield "## Where the times are from"
    yield ""
    yield "A default is common practice without a source: five timed repetitions beat it."
    yield ""
    rows = (
        (mark, report.seconds_marks[mark], report.timing_marks[mark])
        for mark in report.seconds_marks
    )
    yield from _table(("mark", "versions", "planning times"), rows)
    on_rows = sum(report.seconds_rows.values())
    yield (
        f"Of the versions, {on_rows} have seconds that lie on a row of the planning times,"
        " which does not better the row's own mark; of the others nobody wrote down where theirs"
        " are from."
    )
    yield ""
    yield from _table(("planning time for", "versions"), report.seconds_rows.items())


def _reviews(found: Iterable[Review]) -> Iterator[str]:
    yield "## Who read what"
    yield ""
    rows = (
        (
            review.family.replace("_", " "),
            LANGUAGE_NAMES[review.language],
            review.by if review.by == NOBODY else f"{review.by}, {review.date}",
        )
        for review in found
    )
    yield from _table(("family", "language", "read by"), rows)


def _table(heads: Sequence[str], rows: Iterable[Row]) -> Iterator[str]:
    """A table, or a word that there is nothing to put into it; then an empty line."""
    written = [f"| {' | '.join(str(cell) for cell in row)} |" for row in rows]
    if written:
        yield f"| {' | '.join(heads)} |"
        yield f"|{'---|' * len(heads)}"
        yield from written
    else:
        yield "None."
    yield ""
