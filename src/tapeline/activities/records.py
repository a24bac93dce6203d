"""From what a file holds to checked values: every fault is kept, with file and id."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError

from tapeline.activities.library_files import LibraryFile, content_of
from tapeline.errors import InputError, ManyFaults

T = TypeVar("T")
_ADAPTERS: dict[type[Any], TypeAdapter[Any]] = {}


@dataclass
class Faults:
    """Every fault met so far, in file order."""

    found: list[InputError] = field(default_factory=list)

    def add(self, where: str, what: str, *, name: str = "", hint: str = "") -> None:
        """Keep one fault; `where` is the file and the id."""
        self.found.append(InputError(f"{where}: {what}", field=name or where, hint=hint))

    def content(self, file: LibraryFile) -> Any:
        """What a file holds; an unreadable one is a fault and counts as empty."""
        try:
            return content_of(file)
        except InputError as error:
            self.found.append(error)
            return {}

    def refuse(self, where: str) -> None:
        """Raise `ManyFaults` when there is any fault."""
        if self.found:
            raise ManyFaults(self.found, where=where)

    def block(self, found: object, where: str) -> dict[str, Any]:
        """A block of named values; anything else is a fault and counts as empty."""
        if isinstance(found, Mapping):
            return dict(found)
        self.add(where, f"a block of named values was expected, found {_shown(found)}.")
        return {}

    def rows(self, found: object, where: str) -> list[Any]:
        """A list; nothing counts as an empty one, anything else is a fault."""
        if found is None:
            return []
        if isinstance(found, (list, tuple)):
            return list(found)
        self.add(where, f"a list was expected, found {_shown(found)}.")
        return []

    def record(self, shape: type[T], found: Mapping[str, Any], where: str) -> T | None:
        """A checked value, or None with its faults kept."""
        names = frozenset(known_field.name for known_field in fields(shape))  # type: ignore[arg-type]
        unknown = [name for name in found if name not in names]
        for name in unknown:
            self.add(
                where,
                f"nothing is called {name!r} here.",
                name=str(name),
                hint=f"Use one of {', '.join(sorted(names))}.",
            )
        known = {name: value for name, value in found.items() if name not in unknown}
        try:
            return _adapter(shape).validate_python(known)
        except ValidationError as error:
            for fault in error.errors(include_url=False):
                self.add(where, _in_words(fault), name=".".join(str(at) for at in fault["loc"]))
        return None

    def same_id(self, ids: Iterable[tuple[str, str]], what: str) -> None:
        """Keep a fault for each id that stands twice; pairs of id and where it stands."""
        first: dict[str, str] = {}
        for name, where in ids:
            if name in first:
                self.add(where, f"the {what} {name} stands already in {first[name]}.", name=name)
            first.setdefault(name, where)


def _adapter(shape: type[T]) -> TypeAdapter[T]:
    if shape not in _ADAPTERS:
        _ADAPTERS[shape] = TypeAdapter(shape)
    return _ADAPTERS[shape]


def _in_words(fault: Mapping[str, Any]) -> str:
    at = ".".join(str(part) for part in fault["loc"])
    if fault["type"] == "missing":
        return f"{at} is missing."
    own = fault.get("ctx", {}).get("error")
    if isinstance(own, InputError):
        return str(own)
    message = str(fault["msg"])
    return f"{at} is {_shown(fault['input'])}. {message[:1].upper()}{message[1:]}."


def _shown(found: object) -> str:
    text = repr(found)
    return text if len(text) <= 60 else f"{text[:57]}..."
