"""Baseline, trend and goal forecasts, and their charts as data.

Boundary: imports caseload and what lies below it; arrays in, figures out; draws nothing.
"""
