"""What a child can probably do now, from the trials recorded so far.

Boundary: imports caseload and what lies below it; arrays in, beliefs out; no files, no clock.
"""
