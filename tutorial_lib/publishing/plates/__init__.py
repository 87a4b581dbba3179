"""Screen plates: pictures laid over the video, one message each."""
