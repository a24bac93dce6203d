"""The program's own settings, with a data folder that lasts as long as the tests."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

FOLDER = tempfile.mkdtemp(prefix="tapeline-tests-")
os.environ["TAPELINE_HOME"] = FOLDER
atexit.register(shutil.rmtree, FOLDER, ignore_errors=True)

from tapeline.web.settings import *  # noqa: E402, F403

TAPELINE_RAISES = True  # a fault of ours fails the test that meets it

# Tests that open a backup use files; the others need no database of this name.
DATABASES["looked_at"]["TEST"] = {"MIRROR": "default"}  # noqa: F405
