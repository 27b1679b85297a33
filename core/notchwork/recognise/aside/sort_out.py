"""Everything that is no piece, set aside in the order in which it can be told."""

from __future__ import annotations

from notchwork.recognise.aside.dimensions import set_dimensions_aside
from notchwork.recognise.aside.frames import set_frames_aside
from notchwork.recognise.aside.helping import set_helping_lines_aside
from notchwork.recognise.aside.legend import set_legend_aside
from notchwork.recognise.aside.sheet import Sheet
from notchwork.recognise.aside.solids import set_solids_aside
from notchwork.recognise.aside.squares import set_squares_aside
from notchwork.recognise.aside.strokes import set_leaders_aside, set_stitching_aside
from notchwork.recognise.placed import Line
from notchwork.recognise.scale import Gauge


def measured(sheet: Sheet) -> list[Gauge]:
    """Set aside test squares and dimensions; what they say of the drawing's size."""
    return [*set_squares_aside(sheet), *set_dimensions_aside(sheet)]


def sort_out(sheet: Sheet) -> tuple[dict[str, str], list[Line]]:
    """Set aside what is no piece; what the fillings of a legend stand for, in its words, and the frames.

    Squares and dimensions went before, since they say how large the drawing is.
    """
    set_helping_lines_aside(sheet)
    colours = set_legend_aside(sheet)
    set_solids_aside(sheet)
    set_stitching_aside(sheet)
    set_leaders_aside(sheet)
    return colours, set_frames_aside(sheet)
