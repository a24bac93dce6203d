"""The form for children from a spreadsheet: pasted, or as a CSV file."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Text
from tapeline.web.services.paste import text_of_upload

MOST_LETTERS = 20_000
LARGEST_FILE = 200_000


class PasteForm(HouseForm):
    """A pasted table, or a file in its place."""

    text = Text(
        lazy("Table"),
        lines=8,
        most=MOST_LETTERS,
        hint=lazy("One line per child: name or code, birth month, group."),
    )
    file = forms.FileField(
        label=lazy("Or a CSV file"),
        required=False,
        widget=forms.FileInput({"accept": ".csv,.txt,.tsv,text/csv,text/plain"}),
    )

    def clean(self) -> dict[str, Any]:
        """The text of the file, where one was chosen, takes the place of the pasted one."""
        found = super().clean() or self.cleaned_data
        file = found.get("file")
        if file is not None and file.size > LARGEST_FILE:
            self.add_error(
                "file",
                _("The file %(name)s is too large for a table of children. Choose another.")
                % {"name": file.name},
            )
        elif file is not None:
            found["text"] = text_of_upload(file.read())
        elif not found.get("text", "").strip() and "text" not in self.errors:
            self.add_error("text", _("There is no table. Paste one, or choose a file."))
        return found
