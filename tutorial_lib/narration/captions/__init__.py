"""Captions and scripts as files, read into a talk: cues with their words, times and places."""
