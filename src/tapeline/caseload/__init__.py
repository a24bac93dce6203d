"""Children, homes, rooms, groups, goals and history, and the caseload file.

Boundary: imports activities, errors and units; reads and writes files, never a database.
"""
