"""Read-only tables and the shipped library, each with its source.

Boundary: files only; no code here and no import from here.
Loaders live in the package that uses a table and state its columns, units, edition and licence.
"""
