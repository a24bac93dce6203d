"""The session: request, rules, wishes, model, plan and reasons.

Boundary: imports caseload and what lies below it; with `courses.packing` the only place that knows OR-Tools.
Ability reaches it as a plain table of usefulness, never as an import.
"""
