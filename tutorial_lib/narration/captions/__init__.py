"""Caption files, transcripts and scripts read into a talk."""
