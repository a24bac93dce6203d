"""How long a packet takes, the first time in a fresh program and again in the same one.

python -m bench.packet [--runs 5] [--json]

From a finished plan to the PDF's bytes, for each invented group. The baseline is a PDF of one
line, typeset the same way.
"""

from __future__ import annotations

import datetime as dt
import json
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

from bench.report import Measured, arguments, tell, timed

TODAY = dt.date(2026, 11, 25)
COLD = "cold"


def main() -> None:
    """Print each group's packet cold (a fresh Python each time) and warm."""
    if sys.argv[1:2] == [COLD]:
        print(json.dumps(time_once(sys.argv[2])))
        return
    asked = arguments(__doc__ or "", runs=5)
    one_line = print_one_line
    one_line()
    baseline = Measured(name="one line, warm", seconds=timed(one_line, asked.runs))
    rows = []
    for group in ("hall", "home", "mixed"):
        cold = tuple(in_a_fresh_python(group) for _ in range(asked.runs))
        rows.append(Measured(name=f"{group}, cold", seconds=cold))
        work = packet_of(group)
        size = len(work())
        rows.append(
            Measured(
                name=f"{group}, warm",
                seconds=timed(work, asked.runs),
                beside=(("kB", str(size // 1000)),),
            )
        )
    tell("Packet", rows, baseline=baseline, as_json=asked.json)


def packet_of(group: str) -> Callable[[], bytes]:
    """What makes the packet of a group's next session, planned beforehand."""
    from tapeline.sessions.demo import demo_caseload, next_meeting
    from tapeline.sessions.packet.whole import packet_pdf
    from tapeline.sessions.prepare import plan_session

    caseload = demo_caseload(TODAY)
    on = next_meeting(caseload.group(group).weekday, TODAY)
    plan = plan_session(caseload, group=group, on=on)
    return lambda: packet_pdf(plan, caseload)


def time_once(group: str) -> float:
    """Seconds of the first packet of this program."""
    work = packet_of(group)
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def in_a_fresh_python(group: str) -> float:
    """The same, in a program of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "bench.packet", COLD, group],
        check=True,
        capture_output=True,
        text=True,
    )
    seconds: float = json.loads(done.stdout)
    return seconds


def print_one_line() -> Any:
    """A tagged PDF of one line."""
    import typst

    source = b'#set document(title: "One line")\n#set text(lang: "en")\nOne line.'
    return typst.compile(source, format="pdf", pdf_standards=["ua-1"])


if __name__ == "__main__":
    main()
