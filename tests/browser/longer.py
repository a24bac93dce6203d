"""Every text of a page a third longer, as Spanish is, and what no longer fits."""

from __future__ import annotations

from playwright.sync_api import Page

from tests.browser.look import SIDEWAYS

# Each word grows by 0.3 of its letters, rounded up, with the accented letters of Spanish.
LENGTHEN = """
() => {
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const grown = word => word + "áñéóúíáñéóúí".slice(0, Math.ceil(0.3 * word.length));
  while (texts.nextNode()) {
    const parent = texts.currentNode.parentElement;
    if (parent.closest("script, style, svg, .clock, .count, textarea")) continue;
    texts.currentNode.nodeValue =
      texts.currentNode.nodeValue.replace(/\\p{L}{2,}/gu, grown);
  }
}
"""
# Words that leave their button or tag, and words on other words. A bar that stays lies over
# what is scrolled under it, so its words are held against themselves only.
CROWDED = """
() => {
  const faults = [], lines = [];
  const barOf = one => {
    for (let at = one; at; at = at.parentElement)
      if (["fixed", "sticky"].includes(getComputedStyle(at).position)) return at;
    return null;
  };
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const node = texts.currentNode, parent = node.parentElement;
    if (!node.nodeValue.trim() || !parent.checkVisibility()) continue;
    if (parent.closest("svg, script, select, textarea, .skip, .hidden-words, .run-bar .next-name"))
      continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const around = parent.closest("button, .button, .tag, .choice");
    const box = around && around.getBoundingClientRect();
    for (const line of range.getClientRects()) {
      if (line.width < 2) continue;
      const words = node.nodeValue.trim().slice(0, 40);
      if (box && (line.left < box.left - 1 || line.right > box.right + 1
          || line.top < box.top - 2 || line.bottom > box.bottom + 2))
        faults.push(`“${words}” leaves its button`);
      const rim = line.height / 4;
      lines.push({ node, words, bar: barOf(parent), left: line.left + 1,
        right: line.right - 1, top: line.top + rim, bottom: line.bottom - rim });
    }
  }
  for (const [at, one] of lines.entries())
    for (const other of lines.slice(at + 1))
      if (one.node !== other.node && one.bar === other.bar && one.left < other.right
          && other.left < one.right && one.top < other.bottom && other.top < one.bottom)
        faults.push(`“${one.words}” lies on “${other.words}”`);
  return [...new Set(faults)];
}
"""


def lengthened(page: Page) -> list[str]:
    """What does not fit once every text of the page is a third longer."""
    page.evaluate(LENGTHEN)
    return crowded(page)


def crowded(page: Page) -> list[str]:
    """Words outside their button, words on words, and a page that scrolls sideways."""
    over = page.evaluate(SIDEWAYS)
    return [*page.evaluate(CROWDED), *([f"{over} px too wide"] if over > 0 else [])]
