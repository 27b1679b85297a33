"""Checks of hems and of what becomes of them at the seams."""
