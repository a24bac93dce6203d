"""The same work from the command line.

Boundary: nothing imports it; it imports ``web`` only inside the commands that touch stored records.
"""

from __future__ import annotations


def main() -> None:
    """Run the command line; a failure she can act on is one line and an exit code."""
    from tapeline.cli.app import run

    run()
