"""What importing the package sets up before anything else."""

from __future__ import annotations

import os
import subprocess
import sys


def in_a_fresh_python(code: str, **environment: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", code],
        check=True,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": "src", **environment},
    )
    return done.stdout.strip()


THREADS = "import os, tapeline; print(os.environ['OPENBLAS_NUM_THREADS'])"


def test_sums_run_on_one_thread_so_that_they_come_out_alike():
    unset = "import os; os.environ.pop('OPENBLAS_NUM_THREADS', None); "
    assert in_a_fresh_python(unset + THREADS) == "1"


def test_who_set_another_number_of_threads_keeps_it():
    assert in_a_fresh_python(THREADS, OPENBLAS_NUM_THREADS="2") == "2"
