"""A drawing on the paper that was chosen."""

from __future__ import annotations

from dataclasses import replace

from notchwork.drawing import Drawing
from notchwork.pages.arrange import shape_of
from notchwork.pages.frame import Frame
from notchwork.pages.paper import Paper
from notchwork.pages.papers import papers
from notchwork.pages.sheet import Sheets
from notchwork.pages.tiled import tiled

MARGIN, OVERLAP = 10.0, 10.0
"""mm, where nothing else is asked for; common practice, no source."""


def laid_out(drawing: Drawing, paper: Paper | None = None) -> Sheets:
    """The sheets on which a drawing is printed, every piece at its size."""
    paper = paper or Paper()
    groups = tuple(
        replace(g, shift=0j) for g in drawing.groups if g.facts.get("kind") not in ("legend", "test-square")
    )
    shapes = [shape_of(group) for group in groups]
    sizes = paper.sizes or papers("Letter" if drawing.unit == "in" else "A4")
    size = complex(min(s.wide for s in sizes), min(s.tall for s in sizes))
    margin = MARGIN if paper.margin is None else paper.margin
    strip = 0.0 if paper.join == "butt" else OVERLAP if paper.overlap is None else paper.overlap
    frame = Frame(size, margin, strip)
    sheets, _ = tiled(drawing, groups, shapes, sizes, frame, paper.join, paper.turn)
    return Sheets(drawing, groups, sheets, 2.0 if paper.bold else 1.0)
