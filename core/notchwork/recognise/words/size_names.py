"""Sizes that are called by letters."""

from __future__ import annotations

LETTERS = ("XXXS", "XXS", "XS", "S", "M", "L", "XL", "XXL", "XXXL", "XXXXL")
"""From the smallest to the largest."""
SIZE_NAMES = frozenset({*LETTERS, "3XS", "2XS", "2XL", "3XL", "4XL"})
"""And what else they are written as."""
