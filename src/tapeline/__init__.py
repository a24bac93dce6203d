"""Plan, prepare, run, record, review and report motor groups for young children."""

import os

# Our sums are small: one thread is quicker than several that wait for each other, and
# adds up in the same order every time. Set before numpy is first imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

__version__ = "0.1.0"
