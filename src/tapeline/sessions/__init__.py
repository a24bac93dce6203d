"""Puts the parts together: one group, one date, everything the therapist needs.

Boundary: carries values between the packages below, which do not import one another.
Knows neither Django nor the command line.
"""
