"""The kit: everything that goes out with a video, as one folder."""
