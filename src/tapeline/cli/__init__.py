"""The same work from the command line.

Boundary: nothing imports it; it imports ``web`` only inside the commands that touch stored records.
"""
