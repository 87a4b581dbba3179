"""Spoken numbers read: words to values with their units."""
