"""Drawings and words for templates."""
