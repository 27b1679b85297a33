"""Checks of openings, casings and notions."""
