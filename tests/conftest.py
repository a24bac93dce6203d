"""What every test may use."""

from __future__ import annotations

import os
import shutil

import pytest


@pytest.fixture(scope="session")
def chromium() -> str:
    """Path of the system's Chromium, to hand to Playwright as `executable_path`.

    A computer without one skips; where `TAPELINE_NEEDS_BROWSER` is set, as in CI, it fails.
    """
    named = os.environ.get("TAPELINE_CHROMIUM", "")
    found = named or shutil.which("chromium") or shutil.which("google-chrome")
    if found:
        return found
    if os.environ.get("TAPELINE_NEEDS_BROWSER"):
        pytest.fail("No Chromium was found, and TAPELINE_NEEDS_BROWSER asks for one.")
    pytest.skip("No Chromium was found. Install it, or name it in TAPELINE_CHROMIUM.")
