"""Texts that say nearly the same in two activities: listed for a person to look at.

Compared is what a parent would remember: the sentence to do with its three short ones, and the
lead of the whole game. Versions of one activity are meant to be alike and are not compared.

References
----------
.. [1] RapidFuzz, MIT licence, https://github.com/rapidfuzz/RapidFuzz: the ratio of the
       insertions and deletions that turn one text into the other (0 to 100).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tapeline.activities.models import Activity, Library

ALIKE_FROM = 88.0  # per cent of the letters shared; our rule, seen on the library itself


@dataclass(frozen=True, slots=True, kw_only=True)
class NearDuplicate:
    """Two texts of different activities, and how alike they are (100 = letter for letter)."""

    one: str
    other: str
    alike: float
    text: str


def near_duplicates(
    library: Library, *, of: str | None = None, alike_from: float = ALIKE_FROM
) -> tuple[NearDuplicate, ...]:
    """Pairs of activities with nearly the same text, most alike first, one pair once.

    Parameters
    ----------
    of
        Only pairs with this activity: quick enough after every edit.
    """
    found: dict[tuple[str, str], NearDuplicate] = {}
    for pair in _pairs(library, of, alike_from):
        key = (pair.one.split(".")[0], pair.other.split(".")[0])
        if key not in found or pair.alike > found[key].alike:
            found[key] = pair
    return tuple(sorted(found.values(), key=lambda pair: (-pair.alike, pair.one, pair.other)))


def _pairs(library: Library, of: str | None, alike_from: float) -> Iterator[NearDuplicate]:
    from rapidfuzz.fuzz import ratio
    from rapidfuzz.process import cdist

    names, texts = _texts(library)
    wanted = [place for place, name in enumerate(names) if of in (None, name.split(".")[0])]
    if not wanted:
        return
    scores = cdist([texts[place] for place in wanted], texts, scorer=ratio, score_cutoff=alike_from)
    for row, column in zip(*scores.nonzero(), strict=True):
        first, second = sorted((wanted[int(row)], int(column)))
        if names[first].split(".")[0] != names[second].split(".")[0]:
            yield NearDuplicate(
                one=names[first],
                other=names[second],
                alike=round(float(scores[row, column]), 1),
                text=texts[second],
            )


def _texts(library: Library) -> tuple[list[str], list[str]]:
    names: list[str] = []
    texts: list[str] = []
    for activity in library.activities.values():
        for name, text in _texts_of(activity):
            names.append(name)
            texts.append(text)
    return names, texts


def _texts_of(activity: Activity) -> Iterator[tuple[str, str]]:
    yield activity.id, activity.lead
    for version in activity.versions:
        yield version.id, " ".join((version.do, *version.steps))
