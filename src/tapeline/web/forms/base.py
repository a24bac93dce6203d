"""What every form of the house can do: take a sentence of the core to its field."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from django import forms

from tapeline.errors import InputError, ManyFaults, TapelineError


class HouseForm(forms.Form):
    """A form whose faults are sentences; `renamed` maps a core field to the form's own."""

    use_required_attribute = False
    renamed: Mapping[str, str] = {}

    def take(self, error: TapelineError) -> None:
        """Show a fault of the core beside its field, or above the form where it has none."""
        if isinstance(error, ManyFaults):
            for fault in error.faults:
                self.take(fault)
            return
        name = getattr(error, "field", "")
        name = self.renamed.get(name, name)
        self.add_error(name if name in self.fields else None, str(error))

    def as_typed(self) -> HouseForm:
        """The same form with what was typed, not judged."""
        return type(self)(initial=typed_in(self), **self.made_with())

    def made_with(self) -> dict[str, Any]:
        """What else the form is made with."""
        return {}


def typed_in(form: forms.Form) -> dict[str, Any]:
    """What was typed into each field, as it came."""
    return {name: form[name].data for name in form.fields}


def saved(form: HouseForm, save: Callable[[dict[str, Any]], object]) -> bool:
    """Whether the form was good and saving it went well; faults are in the form then."""
    if not form.is_valid():
        return False
    try:
        save(form.cleaned_data)
    except InputError as error:
        form.take(error)
    except TapelineError as error:
        form.add_error(None, str(error))
    return not form.errors
