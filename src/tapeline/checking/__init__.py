"""Re-reads plans and courses from their files and names each fault.

Boundary: imports only errors and units, so that a mistake in the rules cannot hide here too.
"""

from tapeline.checking.check import CHECKS, check_files, check_plan
from tapeline.checking.fault import KINDS, Fault

__all__ = ["CHECKS", "KINDS", "Fault", "check_files", "check_plan"]
