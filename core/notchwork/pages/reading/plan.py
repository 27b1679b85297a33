"""The plan of assembly: every island small, its pages in their places, and how they are joined."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from notchwork.drawing import Drawing, Group
from notchwork.pages.arrange import Shape
from notchwork.pages.joining.tiles import Plot
from notchwork.pages.paper import Join
from notchwork.pages.reading.islet import NAME, draw_island
from notchwork.pages.setting.columns import paragraph
from notchwork.pages.setting.ink import Pen
from notchwork.pages.setting.labels import name_of
from notchwork.pages.setting.lettering import at_most, shortened, width

PLAN = "Plan of assembly"
_LARGEST, _SMALLEST = 0.25, 9.0
"""At most so many times as large as life; cells are at least so many mm wide, if one page does not hold all otherwise."""
_SMALLER = 0.96
_GAP = 6.0
_LINES = 3
"""Lines of names below an island."""


def plan(
    drawing: Drawing,
    groups: Sequence[Group],
    shapes: Sequence[Shape],
    plots: Sequence[Plot],
    join: Join,
    size: complex,
    margin: float,
) -> tuple[Pen, ...]:
    """The pages of the plan, one pen each: all islands at one scale, the largest at which they find room on one page."""
    low, high = complex(margin, margin), size - complex(margin, margin)
    first = Pen()
    top = _said(first, drawing, plots, join, low, high)
    room = complex((high - low).real, top - low.imag - 1.4 * NAME * _LINES - 2.0)
    most = min(
        _LARGEST,
        *(room.real / plot.size.real for plot in plots),
        *(room.imag / plot.size.imag for plot in plots),
    )
    least = min(most, _SMALLEST / min(plot.step.real for plot in plots))
    scale = most
    while True:
        boxes = [_box(plot, groups, scale, room.real) for plot in plots]
        pages = _shelves(boxes, low, high, top)
        if len(pages) == 1 or scale <= least:
            break
        scale = max(least, _SMALLER * scale)
    pens: list[Pen] = []
    for number, page in enumerate(pages):
        pen = first if number == 0 else Pen()
        if number:
            pen.words(complex(low.real, high.imag - 5), f"{PLAN}, continued", 5.0, bold=True)
        for k, corner in page:
            draw_island(pen, plots[k], drawing, groups, shapes, scale, corner)
            under = corner - 1j * (scale * plots[k].size.imag + 1.0)
            for line, words in enumerate(boxes[k].names, 1):
                pen.words(under - 1j * (1.4 * NAME * line - 0.4 * NAME), words, NAME)
        pens.append(pen)
    return tuple(pens)


def _said(
    pen: Pen, drawing: Drawing, plots: Sequence[Plot], join: Join, low: complex, high: complex
) -> float:
    """The words above the islands; gives how far down they reach."""
    pen.words(complex(low.real, high.imag - 6.5), PLAN, 7.0, bold=True)
    title = shortened(drawing.title, 3.3, (high - low).real - width(PLAN, 7.0, True) - 8)
    pen.words(complex(high.real, high.imag - 6.5), title, 3.3, anchor="end")
    joined = [plot for plot in plots if not plot.alone]
    alone = len(plots) - len(joined)
    steps = list(_steps(joined, alone, join))
    y = high.imag - 12.0
    wide = (high - low).real
    for k, words in enumerate(steps, 1):
        item = paragraph(words, 3.2, indent=5.5, sign=f"{k}" if len(steps) > 1 else "")
        block = item(wide)
        block.draw(pen, complex(low.real, y))
        y -= block.tall + 0.9
    return y - 3.0


def _steps(joined: Sequence[Plot], alone: int, join: Join) -> Iterator[str]:
    if joined:
        yield (
            "Lay the pages out as they are drawn here: each has its name large on it, and each line of joining names both its pages."
        )
        if join == "butt":
            yield (
                "Cut pages off along the line wherever a line says so, and put them edge to edge: in every mark two black triangles "
                "meet tip to tip. Tape them on the back too."
            )
        else:
            yield (
                "Where a page says “cut here” (left and above), cut it off along that line and lay it on its neighbour’s line: every "
                "mark is then one whole hourglass on the line. Glue or tape it."
            )
        several = any(len(plot.placed) > 1 for plot in joined)
        sooner = " A piece can be cut out as soon as its own pages are joined." if several else ""
        yield f"Join the pages of a row first, then row to row. Check long straight lines with a ruler.{sooner}"
    if alone:
        kind = "The other pages hold" if joined else "These pages hold"
        yield f"{kind} whole pieces: nothing is joined to them."


@dataclass(frozen=True, slots=True)
class _Box:
    size: complex
    names: tuple[str, ...]


def _box(plot: Plot, groups: Sequence[Group], scale: float, most: float) -> _Box:
    size = scale * plot.size
    names = ", ".join(dict.fromkeys(name_of(groups[p.group]) for p in plot.placed))
    wide = min(most, max(size.real, 24.0))
    lines = at_most(_LINES, names, NAME, wide)
    return _Box(complex(max(size.real, wide), size.imag + 1.4 * NAME * len(lines) + 1.5), lines)


def _shelves(
    boxes: Sequence[_Box], low: complex, high: complex, top: float
) -> list[list[tuple[int, complex]]]:
    """Boxes in rows from the top left, page by page: the number of each and its upper left corner."""
    pages: list[list[tuple[int, complex]]] = [[]]
    x, y, row = low.real, top, 0.0
    for k, box in enumerate(boxes):
        if x > low.real and x + box.size.real > high.real + 1e-9:
            x, y, row = low.real, y - row - _GAP, 0.0
        if y - box.size.imag < low.imag and (pages[-1] or len(pages) == 1):
            pages.append([])
            x, y, row = low.real, high.imag - 12.0, 0.0
        pages[-1].append((k, complex(x, y)))
        x += box.size.real + _GAP
        row = max(row, box.size.imag)
    return pages
