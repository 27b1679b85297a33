"""Checks of set-in sleeves."""
