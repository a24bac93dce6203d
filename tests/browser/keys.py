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


MOST_STOPS = 900
SAME_STOP = 8  # a date has three fields of its own, and a slow page may answer late
JUMP_UP_PX = 150
# One stop of a walk with Tab: its place in the document, where it stands, what is wrong with it.
STOP = """
() => {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const shown = one.matches("input[type=radio], input[type=checkbox]")
    && getComputedStyle(one).outlineStyle === "none" ? one.closest("label") || one : one;
  const look = getComputedStyle(shown);
  const box = shown.getBoundingClientRect();
  const x = Math.min(Math.max(box.left + box.width / 2, 0), innerWidth - 1);
  const y = Math.min(Math.max(box.top + Math.min(box.height, 40) / 2, 0), innerHeight - 1);
  const hit = document.elementFromPoint(x, y);
  const above = [...document.querySelectorAll("*")];
  let fixed = false;
  for (let at = one; at; at = at.parentElement)
    fixed ||= ["fixed", "sticky"].includes(getComputedStyle(at).position);
  return {
    at: above.indexOf(one),
    words: `${one.tagName.toLowerCase()} “${(one.innerText || one.name || "").trim().slice(0, 40)}”`,
    top: box.top + scrollY,
    fixed: fixed || Boolean(one.closest(".skip")),
    shows: look.outlineStyle !== "none" && parseFloat(look.outlineWidth) >= 2,
    seen: Boolean(hit) && (shown.contains(hit) || hit.contains(shown)),
    jumps: one.tabIndex > 0,
  };
}
"""


def tab_through(page: Page) -> list[str]:
    """What is wrong with a walk with Tab from the top of a page until it is round."""
    faults: list[str] = []
    met: list[dict[str, Any]] = []
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        found = page.evaluate(STOP)
        if found is None or (met and found["at"] == met[0]["at"] != met[-1]["at"]):
            return faults if met else ["Nothing takes the focus."]
        if len(met) >= SAME_STOP and all(one["at"] == found["at"] for one in met[-SAME_STOP:]):
            return [*faults, f"{found['words']} holds the focus"]
        faults += _faults_of(found, met[-1] if met else None)
        met.append(found)
    return [*faults, f"the focus is not round after {MOST_STOPS} stops"]


def _faults_of(found: dict[str, Any], before: dict[str, Any] | None) -> list[str]:
    said = []
    if not found["shows"]:
        said.append(f"the focus does not show on {found['words']}")
    if not found["seen"]:
        said.append(f"{found['words']} has the focus and is covered")
    if found["jumps"]:
        said.append(f"{found['words']} has a place of its own in the order")
    if before and not (found["fixed"] or before["fixed"]):
        up = before["top"] - found["top"]
        if up > JUMP_UP_PX:
            said.append(f"the focus jumps {up:.0f} px up to {found['words']}")
    return said
