"""Rows of the database, and the one place where they become core values (`convert`)."""
