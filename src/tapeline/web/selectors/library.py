"""The library as it is for her: the shipped one with her own activities on top."""

from __future__ import annotations

import json
from functools import lru_cache

from tapeline.activities.loader import load_library
from tapeline.activities.models import Library
from tapeline.web.records.models import OwnActivity


def library_now() -> Library:
    """The library, read once for each state of her own activities."""
    own = list(OwnActivity.objects.values_list("body", flat=True))
    return _library_with(json.dumps(own, sort_keys=True)) if own else load_library()


@lru_cache(maxsize=4)
def _library_with(own: str) -> Library:
    return load_library(json.loads(own))
