"""What passes from finding shapes (``find_shapes(drawing, options) -> Seen``) to reading what is written on them.

One Shape stands for each piece and size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Dot, Facts, Look, Stroke, Text
from notchwork.findings import Finding

Complexes = NDArray[np.complex128]
Ints = NDArray[np.intp]

LineKind = Literal["stitch", "cut"]
InnerKind = Literal["seam", "fold", "casing", "placement", "topstitch", "slash"]


@dataclass(frozen=True, slots=True, eq=False)
class Contour:
    """One edge-by-edge closed line: cubics (k, 4) in mm that follow each other, the last one ending where the first starts.

    ``corners`` are the rows at which an edge begins, in order; row 0 is one of them, also on a line without any corner.
    ``sources`` (k,) names for each row the stroke of the drawing it came from, counted over all groups in their order; -1 for
    a row that was made (a gap mended, an offset).
    """

    cubics: Complexes
    corners: tuple[int, ...]
    sources: Ints

    def edge(self, number: int) -> Complexes:
        """The cubics of one edge, in the line's order."""
        return self.cubics[self.rows(number)]

    def rows(self, number: int) -> slice:
        """Where the cubics of one edge stand."""
        ends = (*self.corners[1:], len(self.cubics))
        return slice(self.corners[number], ends[number])


@dataclass(frozen=True, slots=True, eq=False)
class Inner:
    """A line drawn on a shape: the common stretch of two shapes that abut, or one that the drawing gives a meaning to."""

    cubics: Complexes
    closed: bool = False
    use: InnerKind | None = None
    facts: Facts = field(default_factory=dict)


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """One piece in one size, as seen in a drawing. All of it is in mm in one frame: the drawing's, less ``shift``.

    ``outline`` is the stitch line where ``kind`` is "stitch", the cut line where it is "cut" (known to be, its allowance not
    known), and the only line there is, not known to be either, where it is None. ``allowances`` has the width (mm) outside
    each edge of ``outline``, None where it is not known; ``cut`` is the cut line as drawn, where one is drawn beside it.

    ``ident`` is unique among the shapes of one size and the same in all sizes; ``named`` tells whether the drawing gave it
    (a group, a path's id, a fact), or it was made up. ``edges`` are names by edge, where the drawing itself has them as facts.

    ``strokes`` are those that lie in, on or across the outline and are no part of it: notches, grain, darts, marks, whatever
    is to be made of them; ``inner`` what is settled already. ``texts`` and ``dots`` lie in or beside it, each with the shape
    that it is in, else the one it is nearest to. ``folds`` are the edges that the drawing's meanings say are folds.
    ``facts`` are those of its groups; ``groups`` the names of what holds it, the outermost first.
    """

    ident: str
    named: bool
    outline: Contour
    kind: LineKind | None
    size: str | None = None
    allowances: tuple[float | None, ...] = ()
    cut: Complexes | None = None
    edges: tuple[str | None, ...] = ()
    folds: frozenset[int] = frozenset()
    inner: tuple[Inner, ...] = ()
    cutouts: tuple[Inner, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    dots: tuple[Dot, ...] = ()
    texts: tuple[Text, ...] = ()
    look: Look | None = None
    facts: Facts = field(default_factory=dict)
    groups: tuple[str, ...] = ()
    shift: complex = 0j


@dataclass(frozen=True, slots=True)
class Aside:
    """What was taken for no piece, and why: plain words such as "dimension", "title frame", "leader", "test square".

    ``strokes`` are numbers as in ``Contour.sources``; ``words`` what is written there; ``at`` is in mm of the drawing.
    """

    what: str
    at: complex
    strokes: tuple[int, ...] = ()
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """A drawing as shapes: every piece in every size, what was set aside, and every inference as a finding.

    ``sizes`` and ``base`` are the drawing's; ``scale`` what lengths were multiplied by; ``texts`` those that are near no shape.
    """

    shapes: tuple[Shape, ...]
    aside: tuple[Aside, ...] = ()
    findings: tuple[Finding, ...] = ()
    texts: tuple[Text, ...] = ()
    title: str = ""
    sizes: tuple[str, ...] = ()
    base: str | None = None
    scale: float = 1.0
    rules: Mapping[str, Mapping[str, complex]] = field(default_factory=dict)
