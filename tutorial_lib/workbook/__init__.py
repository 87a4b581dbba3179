"""Panels the notebooks show: controls, a drawing, what it comes to, what to mind."""
