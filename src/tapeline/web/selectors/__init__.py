"""Selectors read: narrowed to what a page shows, in few queries."""
