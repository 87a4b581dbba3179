"""Drawings: a Scene is data; svg and mpl write the same Scene."""
