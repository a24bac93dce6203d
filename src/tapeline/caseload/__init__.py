"""Children, homes, rooms, groups, goals, history: and the caseload file.

Boundary: core values and their file. Knows the library's ids, no screen, no database.
"""
