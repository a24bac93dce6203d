"""PDF packets from typst templates.

Boundary: turns finished values into paper and decides nothing; the only package that knows typst.
"""
