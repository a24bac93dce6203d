"""How many, how long and which things, in words of both languages."""

from __future__ import annotations

from collections.abc import Iterable

from tapeline.activities.models import PARTS_WITH_TRIALS, Library, Unit
from tapeline.planner.plan import ChildPlan, PartPlan
from tapeline.units import length_in_words, whole_minutes

UNIT_WORDS: dict[str, dict[Unit, tuple[str, str]]] = {
    "en": {
        "tries": ("1 time", "{n} times"),
        "seconds": ("1 second", "{n} seconds"),
        "metres": ("{length}", "{length}"),
        "rounds": ("1 round", "{n} rounds"),
    },
    "es": {
        "tries": ("1 vez", "{n} veces"),
        "seconds": ("1 segundo", "{n} segundos"),
        "metres": ("{length}", "{length}"),
        "rounds": ("1 ronda", "{n} rondas"),
    },
}
EACH_ROUND = {"en": "{amount} each round", "es": "{amount} en cada ronda"}
MINUTES: dict[str, tuple[str, str]] = {
    "en": ("1 minute", "{n} minutes"),
    "es": ("1 minuto", "{n} minutos"),
}


def amount_in_words(
    amount: int, unit: Unit, *, lengths: str, language: str = "en", rounds: int = 1
) -> str:
    """An amount, such as 12 times, 20 seconds, 6 m (or 20 ft), or so much each round.

    Parameters
    ----------
    lengths
        ``cm`` or ``feet``, as the therapist wants lengths for families.
    rounds
        Above 1, the amount is said to be for each round.
    """
    one, many = UNIT_WORDS[language][unit]
    length = length_in_words(100 * amount, unit=lengths) if unit == "metres" else ""
    said = (one if amount == 1 else many).format(n=amount, length=length)
    return said if rounds == 1 else EACH_ROUND[language].format(amount=said)


def part_amount(part: PartPlan, row: ChildPlan, *, lengths: str, language: str = "en") -> str:
    """How much of a part: minutes where nothing is counted, else the child's amount."""
    if part.part not in PARTS_WITH_TRIALS:
        minutes = minutes_of(part)
        one, many = MINUTES[language]
        return one if minutes == 1 else many.format(n=minutes)
    return amount_in_words(
        row.amount, row.unit, lengths=lengths, language=language, rounds=part.rounds
    )


def minutes_of(part: PartPlan) -> int:
    """The whole minutes a part takes, so that all parts add up to the session."""
    return whole_minutes(part.start_s + part.seconds) - whole_minutes(part.start_s)


def thing_name(thing: str, library: Library, language: str) -> str:
    """What a material is called."""
    material = library.materials[thing]
    return material.name_es if language == "es" else material.name


def thing_names(things: Iterable[str], library: Library, language: str) -> str:
    """Things with commas, each once."""
    return ", ".join(thing_name(thing, library, language) for thing in dict.fromkeys(things))
