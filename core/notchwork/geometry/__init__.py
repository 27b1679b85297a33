"""Curves and what can be computed of them: pure functions on arrays of complex numbers, in mm, y upward."""

from notchwork.geometry.arclength import lengths
from notchwork.geometry.arctable import ArcTable, parameters_at
from notchwork.geometry.crossings import Crossing, first_crossings, intersections, self_intersections
from notchwork.geometry.cubics import (
    as_cubics,
    curvatures,
    derivatives,
    is_straight,
    part,
    parts,
    points,
    reverse,
    second_derivatives,
    split,
    tangents,
)
from notchwork.geometry.fit import (
    end_tangent_by_fit,
    end_tangents_by_fit,
    start_tangent_by_fit,
    start_tangents_by_fit,
)
from notchwork.geometry.fitting import Fitted, fitted
from notchwork.geometry.grid import TooManyPairs, near_boxes
from notchwork.geometry.groups import groups
from notchwork.geometry.inset import inset
from notchwork.geometry.inside import inside, windings
from notchwork.geometry.measures import Flat, area, areas, bounds, flatten, row_bounds
from notchwork.geometry.meetings import Meeting, Meetings
from notchwork.geometry.moves import mirror, turn_and_scale
from notchwork.geometry.nearest import Nearest, nearest, to_chords
from notchwork.geometry.net import Arc, Face, Gap, Net, faces, net, united
from notchwork.geometry.offset import Corner, Offset, offset_outline, offset_outlines
from notchwork.geometry.parallel import parallel
from notchwork.geometry.shapes import circle, lines

__all__ = [
    "Arc",
    "ArcTable",
    "Corner",
    "Crossing",
    "Face",
    "Fitted",
    "Flat",
    "Gap",
    "Meeting",
    "Meetings",
    "Nearest",
    "Net",
    "Offset",
    "TooManyPairs",
    "area",
    "areas",
    "as_cubics",
    "bounds",
    "circle",
    "curvatures",
    "derivatives",
    "end_tangent_by_fit",
    "end_tangents_by_fit",
    "faces",
    "first_crossings",
    "fitted",
    "flatten",
    "groups",
    "inset",
    "inside",
    "intersections",
    "is_straight",
    "lengths",
    "lines",
    "mirror",
    "near_boxes",
    "nearest",
    "net",
    "offset_outline",
    "offset_outlines",
    "parallel",
    "parameters_at",
    "part",
    "parts",
    "points",
    "reverse",
    "row_bounds",
    "second_derivatives",
    "self_intersections",
    "split",
    "start_tangent_by_fit",
    "start_tangents_by_fit",
    "tangents",
    "to_chords",
    "turn_and_scale",
    "united",
    "windings",
]
