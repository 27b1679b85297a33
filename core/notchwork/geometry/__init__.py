"""Curves and what can be computed of them: pure functions on arrays of complex numbers, in mm, y upward."""

from notchwork.geometry.arclength import lengths
from notchwork.geometry.arctable import ArcTable, parameters_at
from notchwork.geometry.cubics import (
    as_cubics,
    curvatures,
    derivatives,
    is_straight,
    lines,
    part,
    parts,
    points,
    reverse,
    second_derivatives,
    split,
    tangents,
)

__all__ = [
    "ArcTable",
    "as_cubics",
    "curvatures",
    "derivatives",
    "is_straight",
    "lengths",
    "lines",
    "parameters_at",
    "part",
    "parts",
    "points",
    "reverse",
    "second_derivatives",
    "split",
    "tangents",
]
