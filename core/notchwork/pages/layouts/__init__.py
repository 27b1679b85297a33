"""Tiles, large sheets, and a page of light."""
