"""Rows of one kind in a form: terms, closed days, members, brothers and sisters."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.utils.translation import gettext_lazy as lazy

from tapeline.errors import InputError
from tapeline.web.forms.base import HouseForm, typed_in
from tapeline.web.forms.fields import Tick

MOST_ROWS = 200
Row = dict[str, Any]


class RowForm(HouseForm):
    """One row; a spare row with nothing typed in it is left out."""

    gone = Tick(lazy("Take out"))
    defaults: tuple[str, ...] = ()

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.empty_permitted = True
        self.order_fields([*(name for name in self.fields if name != "gone"), "gone"])

    def value(self) -> Any:
        """The core value of the row, as typed."""
        raise NotImplementedError

    @property
    def is_spare(self) -> bool:
        """Whether nothing that counts was typed."""
        names = [name for name in self.fields if name not in ("gone", *self.defaults)]
        return not any(str(self[name].data or "").strip() for name in names)


class Rows:
    """Row forms under one name, with one spare row to fill in."""

    def __init__(
        self,
        form_class: type[RowForm],
        *,
        name: str,
        data: Mapping[str, Any] | None = None,
        values: Iterable[Row] = (),
        spare: int = 1,
        **options: Any,
    ) -> None:
        self.name = name
        self._class = form_class
        self._options = options
        if data is None:
            rows = [*values, *({} for _ in range(spare))]
            self.forms = [self._form(at, initial=row) for at, row in enumerate(rows)]
        else:
            self.forms = [self._form(at, data=data) for at in range(self._count(data))]

    def _form(self, at: int, **given: Any) -> RowForm:
        return self._class(prefix=f"{self.name}-{at}", **given, **self._options)

    def _count(self, data: Mapping[str, Any]) -> int:
        text = str(data.get(f"{self.name}-count", ""))
        return min(int(text), MOST_ROWS) if text.isdecimal() else 0

    @property
    def count(self) -> int:
        """How many rows stand on the page."""
        return len(self.forms)

    def kept(self) -> list[RowForm]:
        """Rows that were filled in and not taken out."""
        return [form for form in self.forms if not form.is_spare and not form["gone"].data]

    def is_valid(self) -> bool:
        """Whether each kept row is good."""
        return not sum(not form.is_valid() for form in self.kept())

    def made(self) -> tuple[Any, ...]:
        """The core value of each kept row; a fault of the core stands beside its row."""
        found = []
        for form in self.kept():
            try:
                found.append(form.value())
            except InputError as error:
                form.take(error)
        return tuple(found)

    @property
    def faulty(self) -> list[RowForm]:
        """The kept rows that have a fault."""
        return [form for form in self.kept() if form.is_bound and form.errors]

    def with_one_more(self) -> Rows:
        """The same rows as typed, not judged, and a spare one below."""
        return self._again(spare=1)

    def as_typed(self) -> Rows:
        """The same rows as typed, not judged."""
        return self._again(spare=0)

    def _again(self, *, spare: int) -> Rows:
        typed = [typed_in(form) for form in self.forms]
        return Rows(self._class, name=self.name, values=typed, spare=spare, **self._options)
