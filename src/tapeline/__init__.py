"""Plan, prepare, run, record, review and report motor groups for young children."""

__version__ = "0.1.0"
