"""Baseline, trend, comparisons, a goal's wording, and charts as data.

Boundary: imports caseload and what lies below it; arrays in, figures out; draws nothing.
"""
