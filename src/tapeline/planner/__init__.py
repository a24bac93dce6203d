"""The session: request, rules, wishes, model, plan and reasons.

Boundary: imports caseload and what lies below it; the only package that knows OR-Tools.
Ability reaches it as a plain table of usefulness, never as an import.
"""
