"""Run the command line with ``python -m tapeline``."""

from tapeline.cli import main

if __name__ == "__main__":
    main()
