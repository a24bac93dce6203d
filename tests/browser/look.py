"""Looks at every kind of page that links lead to, at each width, and keeps the faults."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from django.urls import resolve
from playwright.sync_api import ConsoleMessage, Page, Request

AXE = Path(__file__).parent / "axe" / "axe.min.js"
NOT_PAGES = (".pdf", ".json", ".zip", ".svg")
SMALLEST_TARGET_PX = 44
ROUNDING_PX = 0.5

# What a finger or a key can set off. A link in running text is as high as its line
# (WCAG 2.2, 2.5.8, lets it be); a box is as large as the label around it.
TARGETS = """
least => [...document.querySelectorAll(
    "button, select, summary, textarea, input:not([type=hidden]), a[href]")]
  .filter(one => one.checkVisibility() && !one.closest(".skip, .hidden-words"))
  .filter(one => one.tagName !== "A" || getComputedStyle(one).display !== "inline"
    || one.parentElement.textContent.trim() === one.textContent.trim())
  .map(one => ["checkbox", "radio"].includes(one.type) ? one.closest("label") || one : one)
  .map(one => [one, one.getBoundingClientRect()])
  .filter(([one, box]) => box.width > 0 && (box.height < least || box.width < 24))
  .map(([one, box]) => `${one.tagName.toLowerCase()} “${
    (one.innerText || one.name || "").trim().slice(0, 40)}” ${
    Math.round(box.width)} × ${Math.round(box.height)} px`)
"""
AXE_RUN = "() => axe.run(document, {resultTypes: ['violations']})"
REFUSED = """
document.addEventListener("securitypolicyviolation", event =>
  console.error(`refused by the policy: ${event.violatedDirective} ${event.blockedURI}`));
"""
SIDEWAYS = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
LINKS = "() => [...document.querySelectorAll('a[href]')].map(link => link.href)"


@dataclass
class Seen:
    """Addresses looked at, by the name of their kind, and faults by the rule they break."""

    addresses: dict[str, str] = field(default_factory=dict)
    console: list[str] = field(default_factory=list)
    foreign: list[str] = field(default_factory=list)
    sideways: list[str] = field(default_factory=list)
    small: list[str] = field(default_factory=list)
    axe: list[str] = field(default_factory=list)
    bad: list[str] = field(default_factory=list)

    def watch(self, page: Page, host: str) -> None:
        """Keep what the page's console says and whom it asks."""
        page.add_init_script(REFUSED)

        def said(message: ConsoleMessage) -> None:
            if message.type in ("error", "warning"):
                where = (message.location or {}).get("url", "")
                self.console.append(f"{page.url}: {message.text} {where}")

        def asked(request: Request) -> None:
            parts = urlsplit(request.url)
            if parts.scheme not in ("data", "blob") and parts.netloc != host:
                self.foreign.append(f"{page.url}: {request.url}")

        page.on("console", said)
        page.on("pageerror", lambda error: self.console.append(f"{page.url}: {error}"))
        page.on("request", asked)


def look_at_all(page: Page, start: list[str], sizes: tuple[dict[str, int], ...]) -> Seen:
    """One address of each kind, found by following links from where it starts."""
    seen = Seen()
    host = urlsplit(page.url).netloc
    seen.watch(page, host)
    waiting, known = list(start), set(start)
    while waiting:
        address = waiting.pop(0)
        if kind_of(address) in seen.addresses:
            continue
        answer = page.goto(address)
        if answer is None or answer.status != 200:
            seen.bad.append(f"{address} answered {answer and answer.status}")
            continue
        seen.addresses |= {kind_of(address): page.url, kind_of(page.url): page.url}
        look_at(page, seen, sizes)
        for link in page.evaluate(LINKS):
            parts = urlsplit(link)
            ours = parts.netloc == host and not parts.path.endswith(NOT_PAGES)
            if ours and parts.path not in known:
                known.add(parts.path)
                waiting.append(parts.path)
    return seen


def look_at(page: Page, seen: Seen, sizes: tuple[dict[str, int], ...]) -> None:
    """Keep what is wrong with the page at each of the sizes."""
    page.evaluate(AXE.read_text(encoding="utf-8"))
    for size in sizes:
        page.set_viewport_size(size)  # type: ignore[arg-type]
        where = f"{urlsplit(page.url).path} at {size['width']} px"
        over = page.evaluate(SIDEWAYS)
        if over > 0:
            seen.sideways.append(f"{where}: {over} px too wide")
        targets = page.evaluate(TARGETS, SMALLEST_TARGET_PX - ROUNDING_PX)
        seen.small += [f"{where}: {target}" for target in targets]
        for found in page.evaluate(AXE_RUN)["violations"]:
            seen.axe.append(f"{where}: {found['id']} ({found['impact']}), {_nodes(found)}")


def kind_of(address: str) -> str:
    """The name of the kind of page at an address."""
    return str(resolve(urlsplit(address).path).url_name)


def _nodes(found: dict[str, Any]) -> str:
    shown = [
        f"{node['html'][:120]} ({node['failureSummary'][:160]})" for node in found["nodes"][:3]
    ]
    return f"{len(found['nodes'])} times: " + " | ".join(shown)
