"""A form as a browser sends it: what stands on the page, with some of it typed anew."""

from __future__ import annotations

import html
import re
from html.parser import HTMLParser
from typing import Any

from django.http import HttpResponse
from django.test import Client

Values = dict[str, list[str]]


class _Forms(HTMLParser):
    """Collects the successful controls of each form in the main part of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.forms: list[Values] = []
        self._in_main = False
        self._form: Values | None = None
        self._select: str | None = None
        self._has_chosen = False
        self._area: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = {name: value or "" for name, value in attrs}
        if tag == "main":
            self._in_main = True
        if tag == "form" and self._in_main and found.get("method") == "post":
            self._form = {}
            self.forms.append(self._form)
        if self._form is None or "disabled" in found:
            return
        name = found.get("name", "")
        if tag == "input" and name and found.get("type") != "file":
            is_choice = found.get("type") in ("checkbox", "radio")
            if not is_choice or "checked" in found:
                self._form.setdefault(name, []).append(
                    found.get("value", "on" if is_choice else "")
                )
        if tag == "select":
            self._select, self._has_chosen = name, False
        if tag == "option" and self._select is not None:
            self._option(found)
        if tag == "textarea":
            self._area = name
            self._form[name] = [""]

    def _option(self, found: dict[str, str]) -> None:
        assert self._form is not None
        assert self._select is not None
        if "selected" in found:
            self._form[self._select] = [found["value"]]
            self._has_chosen = True
        elif not self._has_chosen:
            self._form.setdefault(self._select, [found["value"]])

    def handle_data(self, data: str) -> None:
        if self._area is not None and self._form is not None:
            text = self._form[self._area][0] + data
            self._form[self._area] = [text[1:] if text.startswith("\n") else text]

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._form = None
        if tag == "select":
            self._select = None
        if tag == "textarea":
            self._area = None


def form_on(answer: HttpResponse, *, place: int = 0) -> Values:
    """What a form of the page would send, untouched."""
    reader = _Forms()
    reader.feed(answer.content.decode())
    return reader.forms[place]


def send(browser: Client, address: str, **typed: Any) -> HttpResponse:
    """Open a page, type into its form, and send it; None takes a field out.

    Two underscores in a name stand for a hyphen.
    """
    page = browser.get(address)
    assert page.status_code == 200, address
    values: dict[str, Any] = dict(form_on(page))
    for name, value in typed.items():
        field = name.replace("__", "-")
        if value is None:
            values.pop(field, None)
        else:
            values[field] = value
    return browser.post(address, values)


def words_of(answer: HttpResponse) -> str:
    """The words of a page, without its tags."""
    text = re.sub(r"<[^>]*>", " ", answer.content.decode())
    return re.sub(r"\s+", " ", html.unescape(text))


def fault_at(answer: HttpResponse, field: str) -> str:
    """The sentence beside a field; the field points to it for a screen reader."""
    text = answer.content.decode()
    found = re.search(rf'id="id_{field}_error">(.*?)</div>', text, re.DOTALL)
    assert found, f"nothing stands beside {field}: {words_of(answer)}"
    return html.unescape(re.sub(r"<[^>]*>", "", found[1])).strip()
