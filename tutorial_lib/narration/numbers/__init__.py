"""Numbers as they are said: the transcript's words, and each number in them with its value and unit."""
