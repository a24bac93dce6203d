"""Server time of each page at sixty children and 36 weeks of history, in this process, on a temporary data folder.

python -m bench.pages [--runs 20] [--json]

Every page that links lead to from the first one, one address of each kind. The baseline is the
page that only says tapeline is alive. The last row is of all pages together: 95 of 100 answers
are to stay under 100 ms.
"""

from __future__ import annotations

import datetime as dt
import os
import tempfile
import threading
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any
from urllib.parse import urljoin, urlsplit

from bench.report import Measured, arguments, tell, timed
from bench.town import grown
from tapeline.web.sweep import sweep_until

TODAY = dt.date(2026, 11, 25)
NOT_PAGES = (".pdf", ".json", ".zip", ".svg")


def main() -> None:
    """Fill a data folder with sixty children, then ask for every page."""
    asked = arguments(__doc__ or "", runs=20)
    with tempfile.TemporaryDirectory() as home:
        os.environ |= {"TAPELINE_HOME": home, "TAPELINE_TODAY": TODAY.isoformat()}
        client = a_client()
        threading.Thread(target=sweep_until, args=(threading.Event(),), daemon=True).start()
        baseline = _measure(client, "alive", "/alive/", asked.runs)
        rows = [
            _measure(client, name, address, asked.runs) for name, address in pages(client).items()
        ]
        every = tuple(second for row in rows for second in row.seconds)
        rows.append(Measured(name="all pages", seconds=every))
        tell(
            "Pages at 60 children and 36 weeks of history",
            rows,
            baseline=baseline,
            as_json=asked.json,
        )


def a_client() -> Any:
    """A client of the pages, warm as served ones are, with the grown caseload and one planned session on file."""
    from tapeline.web.start_up import open_records

    open_records()
    from django.test import Client

    from tapeline.web.records.convert import rows_from_caseload
    from tapeline.web.serve import warm_up
    from tapeline.web.services.sessions import session_propose

    warm_up()

    rows_from_caseload(grown(TODAY))
    session_propose(group_key="mixed", on=TODAY)
    return Client(headers={"host": "127.0.0.1"})


def _measure(client: Any, name: str, address: str, runs: int) -> Measured:
    client.get(address)
    return Measured(name=name, seconds=timed(lambda: client.get(address), runs))


def pages(client: Any) -> dict[str, str]:
    """One address of each kind of page, found by following links; by name of the kind."""
    from django.urls import resolve

    found: dict[str, str] = {}
    waiting = ["/", "/start/", f"/groups/mixed/{TODAY}/"]
    seen = set(waiting)
    while waiting:
        address = waiting.pop(0)
        response = client.get(address)
        if response.status_code in (301, 302):
            links: Iterator[str] = iter([response["Location"]])
        elif response.status_code == 200:
            kind = resolve(urlsplit(address).path).url_name
            if kind in found:
                continue
            found[kind] = address
            links = links_in(response.content.decode(), address)
        else:
            raise SystemExit(f"{address} answered {response.status_code}.")
        for link in links:
            if link not in seen:
                seen.add(link)
                waiting.append(link)
    return found


def links_in(html: str, base: str) -> Iterator[str]:
    """Addresses of pages of ours that a page links to."""
    parser = _Links()
    parser.feed(html)
    for href in parser.hrefs:
        parts = urlsplit(urljoin(f"http://here{base}", href))
        if parts.netloc == "here" and not parts.path.endswith(NOT_PAGES):
            yield f"{parts.path}?{parts.query}" if parts.query else parts.path


class _Links(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.hrefs: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        href = dict(attrs).get("href")
        if tag == "a" and href:
            self.hrefs.append(href)


if __name__ == "__main__":
    main()
