"""Saves a child over and over, as a service does, in a process that somebody kills.

Asked on standard input: ``go N`` forks a process that saves from number N on and says ``kept
N`` once the service came back; ``wait`` waits for its end. Forking spares a start each time.
"""

from __future__ import annotations

import os
import sys
from dataclasses import replace
from itertools import count

from tapeline.caseload.people import Child, ChildPrecaution, GoAhead, Start


def main() -> None:
    """Do what is asked until the input ends."""
    from tapeline.web.start_up import open_records

    open_records()
    from django.db import connections

    from tapeline.web.selectors.people import child_of
    from tapeline.web.services.people import child_save

    first = child_of("c1")
    child_save(child=first)  # the library is loaded once, before the first fork
    connections.close_all()
    for line in sys.stdin:
        word, *rest = line.split()
        if word == "go":
            pid = os.fork()
            if pid == 0:
                for number in count(int(rest[0])):
                    child_save(child=numbered(first, number))
                    say(f"kept {number}")
            say(f"pid {pid}")
        else:
            os.waitpid(pid, 0)
            say("dead")


def numbered(child: Child, number: int) -> Child:
    """The child with one number everywhere: in six rows of five tables."""
    goals = tuple(
        replace(child.goals[0], id=f"g{turn}", name=f"goal {turn}, save {number}")
        for turn in range(3)
    )
    go_ahead = GoAhead(written_by=f"save {number}", date=child.goals[0].date)
    latex = ChildPrecaution(kind="latex", note=f"save {number}", go_aheads=(go_ahead,))
    starts = (Start(skill="catch2", step="catch2.bounced"),)
    return replace(child, note=f"save {number}", goals=goals, precautions=(latex,), skills=starts)


def say(line: str) -> None:
    """One line at once, in one write."""
    os.write(1, f"{line}\n".encode())


if __name__ == "__main__":
    main()
