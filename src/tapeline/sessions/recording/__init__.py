"""What was seen, taken in: a sheet read, refused or stored, corrected, and held against another.

`record` is the front door.
"""
