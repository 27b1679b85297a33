"""Laying the sides of a seam out straight, pinning them at their stations, and saying what is off."""
