"""Re-reads plans and courses from their files and names each fault.

Boundary: imports only errors and units, so that a mistake in the rules cannot hide here too.
"""
