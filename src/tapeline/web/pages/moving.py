"""A move as a moving picture: an SVG file that a page shows as an image when asked to."""

from __future__ import annotations

import re
from urllib.parse import urlencode

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils import translation
from django.views.decorators.http import require_GET

from tapeline.errors import InputError
from tapeline.web.selectors.drawn import Drawn

AN_HOUR = "private, max-age=3600"
WAY = "way"
AGAIN = "again"
NUMBER = re.compile("[0-9]{1,6}")


@require_GET
def move_loop(request: HttpRequest, move: str) -> HttpResponse:
    """The move with the parameters of the address, played once."""
    from tapeline.figures.loops import loop_svg

    asked = {name: value for name, value in request.GET.items() if name not in (WAY, AGAIN)}
    parameters = {name: int(v) if NUMBER.fullmatch(v) else v for name, v in asked.items()}
    language = "es" if translation.get_language() == "es" else "en"
    try:
        svg = loop_svg(
            move,
            params=parameters,
            gets_about=request.GET.get(WAY, "on_foot"),
            language=language,
        )
    except InputError as error:
        raise Http404(error.message) from error
    return HttpResponse(svg, content_type="image/svg+xml", headers={"Cache-Control": AN_HOUR})


def loop_address(drawn: Drawn) -> str:
    """Where the moving picture of a move is found."""
    move, parameters, way = drawn
    return f"{reverse('move_loop', args=[move])}?{urlencode([*parameters, (WAY, way)])}"
