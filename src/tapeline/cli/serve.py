"""``tapeline serve``."""

from __future__ import annotations

from typing import Annotated

import typer


def serve(
    port: Annotated[
        int | None, typer.Option(min=1, max=65535, help="Where to listen; else 8642.")
    ] = None,
    open_browser: Annotated[
        bool, typer.Option("--open/--no-browser", help="Open the first page in the browser.")
    ] = False,
) -> None:
    """Start tapeline on this computer and say its address.

    Example: tapeline serve --open
    """
    from tapeline.web.serve import serve as serve_pages

    serve_pages(port=port, open_browser=open_browser)
