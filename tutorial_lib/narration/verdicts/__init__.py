"""Verdicts on linked numbers: told, asked, remembered."""
