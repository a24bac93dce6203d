"""tapeline as a therapist starts it: a process of its own, a data folder of its own."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

TODAY = "2026-11-25"
PATIENCE_S = 60
SRC = Path(__file__).resolve().parents[2] / "src"


@contextmanager
def served(home: Path, port: int | None = None) -> Iterator[str]:
    """Its address, from when it answers until it is stopped; on a free port if none is given."""
    environment = os.environ | {
        "TAPELINE_HOME": str(home),
        "TAPELINE_TODAY": TODAY,
        "DJANGO_SETTINGS_MODULE": "tapeline.web.settings",
        "PYTHONPATH": str(SRC),
    }
    port = port or free_port()
    words = [sys.executable, "-m", "tapeline", "serve", "--no-browser", "--port", str(port)]
    with (home.parent / "serve.txt").open("w") as printed:
        process = subprocess.Popen(words, env=environment, stdout=printed, stderr=printed)
        try:
            _wait_for(f"http://127.0.0.1:{port}/alive/", process)
            yield f"http://127.0.0.1:{port}"
        finally:
            process.terminate()
            process.wait(timeout=PATIENCE_S)


def free_port() -> int:
    """A port that nobody listens on now."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port: int = found.getsockname()[1]
        return port


def _wait_for(address: str, process: subprocess.Popen[bytes]) -> None:
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        if process.poll() is not None:
            raise AssertionError(f"tapeline ended with code {process.returncode}.")
        try:
            urllib.request.urlopen(address, timeout=PATIENCE_S).close()
            return
        except OSError:
            time.sleep(0.05)
    raise AssertionError(f"{address} did not answer within {PATIENCE_S} s.")
