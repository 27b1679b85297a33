"""What is to be laid out, with everything settled that a person may leave open."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from notchwork.drawing import Drawing, Group
from notchwork.findings import NotchworkError, listed
from notchwork.pages.arrange import Shape, shape_of
from notchwork.pages.grain import turned, turned_first
from notchwork.pages.joining.frame import Frame
from notchwork.pages.joining.touch import Traces, traces
from notchwork.pages.paper import Join, Layout, Paper, Size, Turning
from notchwork.pages.papers import papers
from notchwork.pages.reading.scale import MOST

MARGIN, OVERLAP = 10.0, 10.0
"""mm, where nothing else is asked for; common practice, no source."""
TILES_UP_TO = 440.0
"""mm: sheets that are taller, or rolls, hold everything on one unless tiles are asked for: home printers end with A3 and
Tabloid (431.8 mm)."""
LEAST = complex(110.0, 130.0)
"""mm that must be left inside the margins, for test squares, marks and words."""
_FURNITURE = ("legend", "test-square")


@dataclass(frozen=True, slots=True, eq=False)
class Order:
    """Pieces, each as a group of its own coordinates, as a shape and as traces; and the paper.

    Shapes and traces are turned ``first``, each by a number of length one, and may be turned further as ``turn`` says.

    ``page`` is the area (mm) that all papers have in common, upright; its height is infinite on a roll. ``strip``: how far
    pages that are joined lie over each other, 0 where they are put edge to edge.
    """

    drawing: Drawing
    groups: tuple[Group, ...]
    shapes: tuple[Shape, ...]
    drawn: tuple[Traces, ...]
    layout: Layout
    sizes: tuple[Size, ...]
    page: complex
    margin: float
    strip: float
    join: Join
    turn: Turning
    first: tuple[complex, ...]

    @property
    def frame(self) -> Frame:
        """The page as one of those that are joined."""
        return Frame(self.page, self.margin, self.strip)

    @property
    def paper(self) -> str:
        """What the paper is called."""
        return listed([size.name for size in self.sizes], "and")


def ordered(drawing: Drawing, paper: Paper) -> Order:
    """What was asked for and what follows from it. Raises NotchworkError for paper on which nothing can be printed so."""
    layout = paper.layout or ("sheet" if _large(paper.sizes) else "tiles")
    default = papers("Letter" if drawing.unit == "in" else "A4") if layout == "tiles" else papers("A0")
    sizes = paper.sizes or (() if layout == "projector" else default)
    page = complex(
        min((_upright(s).wide for s in sizes), default=0.0),
        min((_upright(s).tall for s in sizes), default=0.0),
    )
    margin = paper.margin if paper.margin is not None else 0.0 if layout == "projector" else MARGIN
    strip = 0.0 if paper.join == "butt" else OVERLAP if paper.overlap is None else paper.overlap
    if layout == "tiles" and math.isinf(page.imag):
        raise NotchworkError(
            f"Paper “{listed([size.name for size in sizes])}”",
            "A roll has no pages that could be joined.",
            "Print on one sheet (--layout sheet), or name paper such as A4 for tiles.",
        )
    if layout == "projector" and (paper.join == "butt" or paper.overlap is not None):
        raise NotchworkError(
            "A page for the projector",
            "It is one page, and nothing is joined to it.",
            "Leave out --join and --overlap, or choose --layout tiles.",
        )
    if not math.isinf(page.imag) and page.imag > MOST:
        raise NotchworkError(
            f"Paper “{listed([size.name for size in sizes])}”",
            f"A page of a PDF is at most {MOST:g} mm (200 in) wide and high.",
            "Name a smaller paper, or a roll such as “36 in roll”, which is parted where it must be.",
        )
    if sizes:
        _check(sizes, page, margin, strip)
    groups = tuple(
        replace(group, shift=0j) for group in drawing.groups if group.facts.get("kind") not in _FURNITURE
    )
    first, turn = turned_first(groups, paper.turn or "free")
    return Order(
        drawing,
        groups,
        tuple(turned(shape_of(group), way) for group, way in zip(groups, first, strict=True)),
        tuple(traces(group).moved(way, 0j) for group, way in zip(groups, first, strict=True)),
        layout,
        sizes,
        page,
        margin,
        strip,
        paper.join,
        turn,
        first,
    )


def _large(sizes: Sequence[Size]) -> bool:
    return bool(sizes) and min(_upright(size).tall for size in sizes) > TILES_UP_TO


def _upright(size: Size) -> Size:
    return size if size.wide <= size.tall else Size(size.name, size.tall, size.wide)


def _check(sizes: Sequence[Size], page: complex, margin: float, strip: float) -> None:
    left = page - 2 * complex(margin, margin)
    name = listed([size.name for size in sizes])
    if margin < 0 or strip < 0:
        raise NotchworkError(
            "The paper", "Margin and overlap cannot be less than nothing.", "State them as widths in mm."
        )
    if left.real < LEAST.real or left.imag < LEAST.imag:
        room = (
            f"{max(0.0, left.real):g} × {max(0.0, left.imag):g} mm"
            if math.isfinite(left.imag)
            else f"a width of {max(0.0, left.real):g} mm"
        )
        raise NotchworkError(
            f"Paper “{name}” with a margin of {margin:g} mm",
            f"That leaves {room}, and test squares, marks and words need {LEAST.real:g} × {LEAST.imag:g} mm.",
            "Choose larger paper, or a smaller --margin.",
        )
    most = min(left.real, left.imag) / 2
    if strip > most:
        raise NotchworkError(
            f"An overlap of {strip:g} mm",
            f"Pages of {name} would lie over each other by more than half of what is printed on them.",
            f"Choose an --overlap of at most {math.floor(most):g} mm; 10 mm is usual.",
        )
