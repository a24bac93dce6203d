"""Small pieces of SVG text: numbers, elements and whole pictures.

Attributes only: pages forbid inline styles, so nothing here writes ``style`` or ``<style>``.
"""

from __future__ import annotations

from html import escape

Attribute = str | float | int | None


def number(value: float) -> str:
    """A coordinate with at most two decimals and no needless zeros."""
    words = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words


def points(pairs: list[tuple[float, float]]) -> str:
    """Coordinates as path and polygon attributes write them."""
    return " ".join(f"{number(x)},{number(y)}" for x, y in pairs)


def polyline_path(pairs: list[tuple[float, float]], *, closed: bool = False) -> str:
    """Path data through all points, in order."""
    body = "L".join([f"{x:.2f} {y:.2f}" for x, y in pairs])
    return f"M{body}{'Z' if closed else ''}"


def element(name: str, content: str = "", **attributes: Attribute) -> str:
    """One element; ``stroke_width`` becomes ``stroke-width``, None is left out."""
    written = "".join(
        f' {_attribute_name(key)}="{_attribute_value(value)}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{written}>{content}</{name}>" if content else f"<{name}{written}/>"


def picture(
    content: str,
    *,
    width: float,
    height: float,
    title: str = "",
    view_box: tuple[float, float, float, float] | None = None,
) -> str:
    """A standalone ``<svg>``: named by its title, or hidden from readers without one."""
    box = view_box or (0, 0, width, height)
    name = f"<title>{escape(title)}</title>" if title else ""
    said = {"role": "img"} if title else {"aria_hidden": "true"}
    return element(
        "svg",
        name + content,
        xmlns="http://www.w3.org/2000/svg",
        width=width,
        height=height,
        viewBox=" ".join(number(value) for value in box),
        **said,
    )


def group(content: str, *, transform: str = "", **attributes: Attribute) -> str:
    """A ``<g>``, moved or turned by `transform`."""
    return element("g", content, transform=transform or None, **attributes)


def text_at(
    x: float, y: float, words: str, *, size: float, fill: str, font: str, anchor: str = "middle"
) -> str:
    """A line of text with its baseline at `y`."""
    return element(
        "text",
        escape(words),
        x=x,
        y=y,
        font_family=font,
        font_size=size,
        fill=fill,
        text_anchor=anchor,
    )


def _attribute_name(key: str) -> str:
    return key if key in ("viewBox",) else key.replace("_", "-")


def _attribute_value(value: Attribute) -> str:
    return number(value) if isinstance(value, int | float) else escape(str(value))
