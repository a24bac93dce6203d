"""Fields of the house: each says in one sentence what was typed and what to type instead."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.months import birth_month
from tapeline.errors import InputError
from tapeline.units import CM_AN_INCH, INCHES_A_FOOT, length_in_words
from tapeline.web.today import today
from tapeline.web.words import Words

MOST_LETTERS = 200
MOST_LETTERS_OF_TEXT = 2000
MOST = 9999
LONGEST_CM = 10_000  # a typing slip, not a hall
FIRST_YEAR, LAST_YEAR = 2000, 2100
CM = re.compile(r"^(\d+(?:[.,]\d+)?)\s*(?:cm)?$", re.IGNORECASE)
METRES = re.compile(r"^(\d+(?:[.,]\d+)?)\s*m$", re.IGNORECASE)
FEET = re.compile(
    r"^(?:(\d+(?:\.\d+)?)\s*(?:ft|feet|foot|['’′]))?\s*(?:(\d+(?:\.\d+)?)\s*(?:in|inch|inches|[\"”″]))?$",
    re.IGNORECASE,
)


class Text(forms.CharField):
    """Words; `missing` is the sentence for an empty field, without it the field is optional."""

    kind = "text"

    def __init__(
        self,
        label: Any,
        *,
        missing: Any = "",
        hint: Any = "",
        most: int = MOST_LETTERS,
        lines: int = 0,
        **attrs: str,
    ) -> None:
        widget = forms.Textarea({"rows": lines}) if lines else forms.TextInput(attrs)
        super().__init__(
            label=label,
            help_text=hint,
            required=bool(missing),
            max_length=MOST_LETTERS_OF_TEXT if lines and most == MOST_LETTERS else most,
            widget=widget,
            error_messages={
                "required": missing,
                "max_length": lazy("This has %(show_value)d letters. Keep it to %(limit_value)d."),
            },
        )


class WholeNumber(forms.Field):
    """A whole number from `least` to `most`; None where an optional field is empty."""

    kind = "text"

    def __init__(
        self,
        label: Any,
        *,
        missing: Any = "",
        hint: Any = "",
        least: int = 0,
        most: int = MOST,
    ) -> None:
        self.least, self.most = least, most
        super().__init__(
            label=label,
            help_text=hint,
            required=bool(missing),
            widget=forms.TextInput({"inputmode": "numeric", "class": "short", "maxlength": "12"}),
            error_messages={"required": missing},
        )

    def to_python(self, value: Any) -> int | None:
        """The number, or the sentence that says what was typed."""
        text = str(value or "").strip()
        if not text:
            return None
        if not re.fullmatch(r"-?\d{1,12}", text):
            raise ValidationError(
                _("“%(typed)s” is no whole number. Type digits only."), params={"typed": text}
            )
        number = int(text)
        if not self.least <= number <= self.most:
            raise ValidationError(
                _("This is %(number)d. Type %(least)d to %(most)d."),
                params={"number": number, "least": self.least, "most": self.most},
            )
        return number


class Length(forms.Field):
    """A length: centimetres, or written as ``3.5 m`` or ``11 ft 6 in``; whole centimetres."""

    kind = "text"

    def __init__(
        self,
        label: Any,
        *,
        missing: Any = "",
        hint: Any = "",
        least: int = 0,
        most: int = LONGEST_CM,
    ) -> None:
        self.least, self.most = least, most
        super().__init__(
            label=label,
            help_text=hint or lazy("In cm; or write 3.5 m, or 11 ft 6 in."),
            required=bool(missing),
            widget=forms.TextInput({"class": "short", "maxlength": "20"}),
            error_messages={"required": missing},
        )

    def to_python(self, value: Any) -> int | None:
        """Whole centimetres."""
        text = str(value or "").strip()
        if not text:
            return None
        length = centimetres(text)
        if length is None:
            raise ValidationError(
                _("“%(typed)s” is no length. Type centimetres, such as 350."),
                params={"typed": text},
            )
        if not self.least <= length <= self.most:
            raise ValidationError(
                _("This is %(length)s. Type %(least)d to %(most)d cm."),
                params={
                    "length": length_in_words(length),
                    "least": self.least,
                    "most": self.most,
                },
            )
        return length


def centimetres(text: str) -> int | None:
    """Whole centimetres of a length as people write it; None when it cannot be read.

    ``350``, ``350 cm``, ``3.5 m`` and ``11 ft 6 in`` are read; halves are rounded up.
    """
    if found := CM.match(text):
        return _whole(Decimal(found[1].replace(",", ".")))
    if found := METRES.match(text):
        return _whole(Decimal(found[1].replace(",", ".")) * 100)
    found = FEET.match(text)
    if found and (found[1] or found[2]):
        inches = Decimal(found[1] or 0) * INCHES_A_FOOT + Decimal(found[2] or 0)
        return _whole(inches * CM_AN_INCH)
    return None


def _whole(length: Decimal) -> int:
    return int(length.quantize(Decimal(1), ROUND_HALF_UP))


class Day(forms.DateField):
    """A date; the year must be one of this century."""

    kind = "text"

    def __init__(self, label: Any, *, missing: Any = "", hint: Any = "") -> None:
        super().__init__(
            label=label,
            help_text=hint,
            required=bool(missing),
            input_formats=["%Y-%m-%d"],
            widget=forms.DateInput({"type": "date", "class": "day"}, format="%Y-%m-%d"),
            error_messages={"required": missing},
        )

    def to_python(self, value: Any) -> dt.date | None:
        """The date."""
        try:
            day = super().to_python(value)
        except ValidationError:
            raise ValidationError(
                _("“%(typed)s” is no date. Type year, month and day, such as 2026-11-25."),
                params={"typed": value},
            ) from None
        if day is not None and not FIRST_YEAR <= day.year <= LAST_YEAR:
            raise ValidationError(
                _("The year %(year)d cannot be right. Type one from %(first)d to %(last)d."),
                params={"year": day.year, "first": FIRST_YEAR, "last": LAST_YEAR},
            )
        return day


class Clock(Text):
    """A time of day, as hours and minutes."""

    def __init__(self, label: Any, *, missing: Any, hint: Any = "") -> None:
        super().__init__(label, missing=missing, hint=hint, most=8, type="time")
        self.widget.input_type = "time"
        self.widget.attrs = {"class": "short", "maxlength": "8"}

    def clean(self, value: Any) -> str:
        """HH:MM; seconds, which some browsers add, are left out."""
        text = super().clean(value)
        return text[:5] if re.fullmatch(r"\d\d:\d\d:\d\d", text) else text


class BirthMonth(Text):
    """A birth month, as people write it; `whose` begins the sentence of a fault."""

    def __init__(self, label: Any, *, whose: Any, required: bool = True) -> None:
        hint = lazy("Year and month, such as 2021-04 or April 2021.")
        super().__init__(label, hint=hint, most=40)
        self.whose = whose
        self.is_needed = required
        self.widget.attrs = {"class": "day", "maxlength": "40"}

    def clean(self, value: Any) -> str:
        """The month as ``YYYY-MM``."""
        text = super().clean(value).strip()
        if not text and not self.is_needed:
            return ""
        try:
            return birth_month(text, today=today())
        except InputError as error:
            if not text:
                missing = f"{self.whose} has no birth month. Type one such as 2021-04."
                raise ValidationError(missing) from None
            said = str(error)
            raise ValidationError(f"{self.whose}: {said[0].lower()}{said[1:]}") from None


class Choice(forms.ChoiceField):
    """One of a few; `as_radios` shows them all at once."""

    def __init__(
        self,
        label: Any,
        words: Words | Iterable[tuple[Any, Any]],
        *,
        hint: Any = "",
        missing: Any = "",
        as_radios: bool = False,
        may_be_empty: bool = False,
    ) -> None:
        self.kind = "radios" if as_radios else "select"
        choices = list(words.items()) if hasattr(words, "items") else list(words)
        not_there = lazy("“%(value)s” is not among the choices. Choose one that is.")
        super().__init__(
            label=label,
            help_text=hint,
            choices=choices,
            required=not may_be_empty,
            widget=forms.RadioSelect if as_radios else forms.Select,
            error_messages={
                "required": missing or lazy("Nothing is chosen. Choose one."),
                "invalid_choice": not_there,
            },
        )


class Ticks(forms.MultipleChoiceField):
    """Any of several."""

    kind = "ticks"

    def __init__(self, label: Any, words: Words | Iterable[Any] = (), *, hint: Any = "") -> None:
        super().__init__(
            label=label,
            help_text=hint,
            choices=list(words.items()) if hasattr(words, "items") else list(words),
            required=False,
            widget=forms.CheckboxSelectMultiple,
            error_messages={
                "invalid_choice": lazy("“%(value)s” is not among the choices. Tick others.")
            },
        )


class Tick(forms.BooleanField):
    """Yes or no."""

    kind = "tick"

    def __init__(self, label: Any, *, hint: Any = "") -> None:
        super().__init__(label=label, help_text=hint, required=False)
