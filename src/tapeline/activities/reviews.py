"""Who read which family of the library, in which language."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import get_args

from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.models import Family
from tapeline.activities.records import Faults
from tapeline.activities.spanish import Language

REVIEWS = "library/reviews.yaml"
PARTS = "parts"
NOBODY = "nobody"


@dataclass(frozen=True, slots=True, kw_only=True)
class Review:
    """One family (or the parts without a skill) in one language, and who read it all."""

    family: str
    language: Language
    by: str
    date: str = ""


@cache
def reviews() -> tuple[Review, ...]:
    """A row for each family and language, in the order of the families.

    Raises
    ------
    ManyFaults
        A family or a language is missing, or a row cannot be used.
    """
    faults = Faults()
    content = faults.block(content_of(data_file(REVIEWS)), REVIEWS)
    found = []
    for family in (*get_args(Family), PARTS):
        rows = faults.block(content.get(family), f"{REVIEWS}, {family}")
        for language in get_args(Language):
            where = f"{REVIEWS}, {family}, {language}"
            block = faults.block(rows.get(language), where)
            made = faults.record(Review, {**block, "family": family, "language": language}, where)
            if made is not None:
                found.append(made)
    faults.refuse("Who read the library")
    return tuple(found)
