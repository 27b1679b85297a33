"""From a drawing to a pattern, with every inference as a finding."""

from __future__ import annotations

from dataclasses import dataclass, replace

from notchwork.drawing import Drawing
from notchwork.findings import Finding
from notchwork.model import Pattern
from notchwork.recognise.find import find_shapes
from notchwork.recognise.labels import seams_of
from notchwork.recognise.options import Options
from notchwork.recognise.shape import Aside
from notchwork.recognise.words import read_words


@dataclass(frozen=True, slots=True)
class Recognised:
    """A pattern that was made out of a drawing, what was set aside, and what is to be said of both."""

    pattern: Pattern
    findings: tuple[Finding, ...] = ()
    aside: tuple[Aside, ...] = ()


def recognise(drawing: Drawing, options: Options | None = None) -> Recognised:
    """Make out the pieces of a drawing: shapes first, then what is written on them, then the seams that labels state.

    What a drawing of this program's own says by meanings and facts is taken at its word: outlines come back within
    0.001 mm. Everything else is inferred, and every inference is told.
    """
    seen = find_shapes(drawing, options)
    strokes = [stroke for group in drawing.groups for stroke in group.strokes]
    read = read_words(seen, strokes)
    seams, told = seams_of(read.pattern, read.pieces)
    pattern = replace(read.pattern, seams=seams)
    return Recognised(pattern, (*seen.findings, *read.findings, *told), seen.aside)
