"""Checks of the run of sizes."""
