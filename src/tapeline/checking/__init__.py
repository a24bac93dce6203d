"""Re-reads plans and courses from their files and names each fault.

Boundary: imports only errors and units, so that a mistake in the rules cannot hide here too.
"""

from tapeline.checking.check import CHECKS, check_files, check_plan
from tapeline.checking.course import (
    COURSE_CHECKS,
    COURSE_KINDS,
    check_course,
    check_course_files,
)
from tapeline.checking.fault import KINDS, Fault

__all__ = [
    "CHECKS",
    "COURSE_CHECKS",
    "COURSE_KINDS",
    "KINDS",
    "Fault",
    "check_course",
    "check_course_files",
    "check_files",
    "check_plan",
]
