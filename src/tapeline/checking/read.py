"""The plan file and the caseload file, read and brought into one shape."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tapeline.checking import shapes
from tapeline.errors import InputError

FORMAT = 1
PLAN_AGAIN = "Make the plan again with tapeline plan."
EXPORT_AGAIN = "Give a caseload file that tapeline wrote."


def read_json(path: Path) -> Any:
    """The content of a JSON file.

    Raises
    ------
    InputError
        The file is not there, cannot be read, or is no JSON.
    """
    try:
        return json.loads(path.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        raise InputError(f"There is no file {path}.", hint="Check the name.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise InputError(f"{path.name} cannot be read as text ({error}).") from None
    except json.JSONDecodeError as error:
        raise InputError(
            f"{path.name} is not JSON: {error.msg} at line {error.lineno}.",
            hint="Choose a file that tapeline wrote.",
        ) from None


def shaped_plan(found: Any) -> dict[str, Any]:
    """A plan with every field a rule looks at."""
    return _shaped(found, shapes.plan, "The plan", PLAN_AGAIN)


def shaped_caseload(found: Any) -> dict[str, Any]:
    """A caseload with every field filled that was left out."""
    return _shaped(found, shapes.caseload, "The caseload", EXPORT_AGAIN)


def _shaped(found: Any, shape: Callable[[Any, str], Any], what: str, hint: str) -> dict[str, Any]:
    try:
        shaped: dict[str, Any] = shape(found, what)
    except InputError as error:
        raise InputError(error.message, field=error.field, hint=hint) from None
    if shaped["format"] != FORMAT:
        raise InputError(
            f"{what} is of format {shaped['format']}; this program reads format {FORMAT}.",
            field="format",
            hint=hint,
        )
    return shaped
