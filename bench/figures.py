"""How long a strip takes to draw, how large a page of pictures and a loop are, and a full packet.

python -m bench.figures [--runs 5] [--json]

The baseline is a plain SVG with one disc. A packet of 40 pictures is made first in a fresh
program (cold) and again in the same one (warm); its strips are kept by what they show.
"""

from __future__ import annotations

import gzip
import json
import subprocess
import sys
import time

from bench.report import Measured, arguments, tell, timed

COLD = "cold"
PICTURES = 40
THUMBNAILS = 30


def main() -> None:
    """Print every row beside what is aimed at."""
    if sys.argv[1:2] == [COLD]:
        print(json.dumps(packet_once()))
        return
    asked = arguments(__doc__ or "", runs=5)
    rows = [
        strips(asked.runs),
        thumbnails(asked.runs),
        loops(),
        packets(asked.runs, cold=True),
        packets(asked.runs, cold=False),
    ]
    baseline = Measured(name="one disc", seconds=timed(one_disc, asked.runs))
    tell("Figures", rows, baseline=baseline, as_json=asked.json)


def one_disc() -> str:
    """The least a picture can be."""
    from tapeline.figures.svg import element, picture

    return picture(element("circle", cx=5, cy=5, r=4, fill="#22201c"), width=10, height=10)


def names() -> list[str]:
    """Every move that somebody on foot does."""
    from tapeline.figures.asking import can_draw
    from tapeline.figures.moves import MOVES

    return [name for name in MOVES if can_draw(name)]


def strips(runs: int) -> Measured:
    """Each move's strip once a run, each time another child, so that none is kept."""
    from tapeline.figures.stills import strip_of_three

    seconds = []
    for seed in range(runs + 1):
        for name in names():
            began = time.perf_counter()
            strip_of_three(name, seed=seed)
            seconds.append(time.perf_counter() - began)
    return Measured(
        name="a strip of three",
        seconds=tuple(seconds[len(names()) :]),
        beside=(("aim", "under 20 ms"),),
    )


def thumbnails(runs: int) -> Measured:
    """Thirty thumbnails of one page, compressed together."""
    from tapeline.figures.stills import still_svg

    def page() -> str:
        return "".join(still_svg(name, floor=False) for name in names()[:THUMBNAILS])

    size = len(gzip.compress(page().encode()))
    return Measured(
        name=f"{THUMBNAILS} thumbnails",
        seconds=timed(page, runs),
        beside=(("kB compressed", f"{size / 1000:.0f}"), ("aim", "under 150 kB")),
    )


def loops() -> Measured:
    """Every move's loop, compressed alone; the largest is told."""
    from tapeline.figures.loops import loop_svg

    seconds, sizes = [], {}
    for name in names():
        began = time.perf_counter()
        svg = loop_svg(name)
        seconds.append(time.perf_counter() - began)
        sizes[name] = len(gzip.compress(svg.encode()))
    largest = max(sizes, key=lambda name: sizes[name])
    return Measured(
        name="a loop",
        seconds=tuple(seconds),
        beside=(
            ("largest", f"{largest} {sizes[largest] / 1000:.0f} kB compressed"),
            ("aim", "under 40 kB"),
        ),
    )


def packets(runs: int, *, cold: bool) -> Measured:
    """A PDF of 40 pictures, 14 strips over some pages."""
    if cold:
        seconds = tuple(in_a_fresh_python() for _ in range(runs))
        return Measured(name="40 pictures, cold", seconds=seconds, beside=(("aim", "under 3 s"),))
    packet_once()
    return Measured(
        name="40 pictures, warm",
        seconds=tuple(packet_once() for _ in range(runs)),
        beside=(("aim", "under 1 s"),),
    )


def packet_once() -> float:
    """Seconds of one PDF with 40 pictures or a few more."""
    from tapeline.sessions.contact_sheet import contact_sheet_pdf

    chosen = names()[:: max(len(names()) * 3 // PICTURES, 1)][: -(-PICTURES // 3)]
    began = time.perf_counter()
    contact_sheet_pdf(chosen)
    return time.perf_counter() - began


def in_a_fresh_python() -> float:
    """The same, in a program of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "bench.figures", COLD], check=True, capture_output=True, text=True
    )
    seconds: float = json.loads(done.stdout)
    return seconds


if __name__ == "__main__":
    main()
