"""Seconds from a warm `python3 run.py --no-browser` to the first page answering.

python -m bench.start [--runs 7] [--json]

Warm: the packages are installed and the data folder is there. The baseline is the same road
with nothing of tapeline on it: a Python that imports Django and waitress and answers one
plain page.
"""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Sequence
from pathlib import Path

from bench.report import Measured, arguments, tell

ROOT = Path(__file__).resolve().parents[1]
PATIENCE_S = 60
PLAIN = """
import sys
import django
import django.core.handlers.wsgi
from waitress import serve

def plain(environ, start_response):
    start_response("200 OK", [("Content-Type", "text/plain")])
    return [b"here"]

serve(plain, host="127.0.0.1", port=int(sys.argv[1]), _quiet=True)
"""


def main() -> None:
    """Start both, several times in turn, each on a free port of its own."""
    asked = arguments(__doc__ or "", runs=7)
    plain: list[float] = []
    program: list[float] = []
    with tempfile.TemporaryDirectory() as home:
        seconds_to_answer(run_py, home)  # makes the data folder
        for _ in range(asked.runs):
            plain.append(seconds_to_answer(plain_page, home))
            program.append(seconds_to_answer(run_py, home))
    baseline = Measured(name="Django and waitress, one plain page", seconds=tuple(plain))
    row = Measured(name="run.py --no-browser", seconds=tuple(program))
    tell("Start to first page", [row], baseline=baseline, as_json=asked.json)


def run_py(port: int) -> Sequence[str]:
    """The command a therapist's starter runs."""
    return [sys.executable, str(ROOT / "run.py"), "--no-browser", "--port", str(port)]


def plain_page(port: int) -> Sequence[str]:
    """The baseline's command."""
    return [sys.executable, "-c", PLAIN, str(port)]


def seconds_to_answer(command, home: str) -> float:  # type: ignore[no-untyped-def]
    """Start a server, wait for its first page, stop it."""
    port = free_port()
    environment = os.environ | {"TAPELINE_HOME": home}
    began = time.perf_counter()
    process = subprocess.Popen(
        command(port), env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    try:
        wait_for(f"http://127.0.0.1:{port}/", process)
        return time.perf_counter() - began
    finally:
        process.terminate()
        process.wait(timeout=PATIENCE_S)


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port: int = found.getsockname()[1]
        return port


def wait_for(address: str, process: subprocess.Popen[bytes]) -> None:
    """Ask until the page answers."""
    until = time.perf_counter() + PATIENCE_S
    while time.perf_counter() < until:
        try:
            with urllib.request.urlopen(address, timeout=PATIENCE_S) as answer:
                answer.read()
                return
        except (urllib.error.URLError, ConnectionError):
            if process.poll() is not None:
                raise SystemExit(f"The server ended with code {process.returncode}.") from None
            time.sleep(0.01)
    raise SystemExit(f"{address} did not answer within {PATIENCE_S} s.")


if __name__ == "__main__":
    main()
