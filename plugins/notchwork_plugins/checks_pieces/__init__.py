"""Checks of one piece by itself: its outline, marks, grain and fold."""
