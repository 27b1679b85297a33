"""Drawings in SVG, as people draw them in general vector editors."""
