"""Stations to scale, clear space, a safe route through a room, and the flow of a group.

Boundary: imports caseload and what lies below it; the only package that knows shapely.
"""
