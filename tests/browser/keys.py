"""A person at the keyboard: Tab goes on, Enter does it, and what has the focus shows."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Page

MOST_TABS = 400
# What has the focus: its words as a screen reader would say them, its id, and whether it shows.
FOCUSED = """
() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const look = getComputedStyle(one);
  const label = one.labels && one.labels[0] ? one.labels[0].innerText : "";
  return {
    words: (one.getAttribute("aria-label") || label || one.innerText || "").trim(),
    tag: one.tagName.toLowerCase(),
    href: one.href || "",
    shows: look.outlineStyle !== "none" && parseFloat(look.outlineWidth) >= 2,
  };
}
"""


def tab_to(page: Page, words: str, *, tag: str = "") -> dict[str, Any]:
    """Press Tab until something with these words has the focus; all on the way must show it."""
    met = []
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        found = page.evaluate(FOCUSED)
        if found is None:
            continue
        assert found["shows"], f"The focus does not show on {found['tag']} “{found['words']}”."
        met.append(found["words"])
        if words in found["words"] and tag in ("", found["tag"]):
            return dict(found)
    raise AssertionError(f"Tab never reached “{words}”. It met: {met[:60]}")


def enter(page: Page) -> None:
    """Press Enter on what has the focus, and wait for the page it leads to."""
    with page.expect_navigation():
        page.keyboard.press("Enter")
