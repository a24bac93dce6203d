"""The cover page: one side for somebody who stands in, with marks and no names."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.documents.pictures import mark_words, marks, tapes
from tapeline.documents.sheets import print_sheet


@dataclass(frozen=True, kw_only=True)
class CoverChild:
    """A child by its mark: what to keep in mind, and the stop signs that this child adds."""

    mark: str
    keep: tuple[str, ...]
    stop_signs: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class CoverDoes:
    """Children, by mark, who do the same thing, and how many."""

    marks: tuple[str, ...]
    do: str
    amount: str


@dataclass(frozen=True, kw_only=True)
class CoverGame:
    """A game of the plan with no new step: what you do, what they do, when it ends."""

    tape: str
    name: str
    minutes: int
    lead: str
    things: str
    adult: tuple[str, ...]
    does: tuple[CoverDoes, ...]


@dataclass(frozen=True, kw_only=True)
class Cover:
    """All that is on the page."""

    title: str
    where: str
    group: str
    date: str
    day: str
    paper: str
    therapist: str
    is_invented: bool
    stop_head: str
    stop_signs: tuple[str, ...]
    call: tuple[str, ...]
    rules: tuple[str, ...]
    children: tuple[CoverChild, ...]
    games: tuple[CoverGame, ...]
    count: str
    count_of: int

    def words(self) -> int:
        """Words to read on the page."""
        texts = [
            self.title, self.where, self.stop_head, *self.stop_signs, *self.call, *self.rules, self.count,
        ]  # fmt: skip
        texts += [text for child in self.children for text in (*child.keep, *child.stop_signs)]
        for game in self.games:
            texts += [game.name, game.lead, game.things, *game.adult]
            texts += [f"{one.do} {one.amount}" for one in game.does]
        return sum(len(text.split()) for text in texts)


def print_cover(cover: Cover) -> bytes:
    """The page as one tagged PDF.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    drawings = {f"mark-{name}": svg for name, svg in marks().items()}
    drawings |= {f"tape-{name}": svg for name, svg in tapes().items() if name.endswith("-piece")}
    return print_sheet(
        "cover.typ", cover, drawings, day=cover.day, more={"mark_words": mark_words("en")}
    )
