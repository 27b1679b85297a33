"""Checks of darts."""
