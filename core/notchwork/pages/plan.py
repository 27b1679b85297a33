"""The plan of assembly: every island small, its pages in their places, and how they are joined."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from notchwork.drawing import Drawing, Group, Stroke
from notchwork.geometry import flatten
from notchwork.pages.arrange import Placed
from notchwork.pages.ink import Pen
from notchwork.pages.labels import name_of
from notchwork.pages.lettering import shortened, width, wrapped
from notchwork.pages.paper import Join
from notchwork.pages.setting import paragraph
from notchwork.pages.tiles import Plot

PLAN = "Plan of assembly"
_SCALES = (0.2, 0.16, 0.14, 0.125, 0.11, 0.1, 0.09, 0.08, 0.07, 0.065, 0.06)
"""How much smaller than life islands are drawn; the first at which all find room on one page, or the last."""
_GAP = 6.0
_NAME = 2.9
_CHORDS = 0.08
"""mm on the plan: how far chords may lie beside curves."""
_GRID, _OUTLINE = 0.15, 0.45
"""mm: widths of the lines round pages and round pieces."""
_HATCH = 2.2
"""mm between the lines where no page is printed."""


def plan(
    drawing: Drawing, groups: Sequence[Group], plots: Sequence[Plot], join: Join, size: complex, margin: float
) -> tuple[Pen, ...]:
    """The pages of the plan: one pen each."""
    low, high = complex(margin, margin), size - complex(margin, margin)
    first = Pen()
    top = _said(first, drawing, plots, join, low, high)
    longest = max(max(p.size.real / (high - low).real, p.size.imag / (top - low.imag - 15.0)) for p in plots)
    for scale in (*(s for s in _SCALES if s * longest <= 1.0), min(_SCALES[-1], 1.0 / longest)):
        boxes = [_box(plot, groups, scale, (high - low).real) for plot in plots]
        pages = _shelves(boxes, low, high, top)
        if len(pages) == 1:
            break
    pens: list[Pen] = []
    for number, page in enumerate(pages):
        pen = first if number == 0 else Pen()
        if number:
            pen.words(complex(low.real, high.imag - 5), f"{PLAN}, continued", 5.0, bold=True)
        for k, corner in page:
            _draw(pen, plots[k], drawing, groups, scale, corner, boxes[k])
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
        yield "Lay the pages out as they are drawn here: each has its name large on it, and each line of joining names both its pages."
        if join == "butt":
            yield "Cut pages off along the line wherever a line says so, and put them edge to edge: two black triangles meet tip to tip in every mark. Tape them on the back too."
        else:
            yield "Where a page says “cut here” (left and above), cut it off along that line, and lay it on its neighbour’s line. Every mark is then one whole hourglass on the line. Glue or tape it."
        yield "Join the pages of a row first, then row to row. Check long straight lines with a ruler, then cut the pieces out."
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
    lines = wrapped(names, _NAME, wide)
    if len(lines) > 3:
        lines = (*lines[:2], shortened(" ".join(lines[2:]), _NAME, wide))
    return _Box(complex(max(size.real, wide), size.imag + 1.4 * _NAME * len(lines) + 1.5), lines)


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


def _draw(
    pen: Pen,
    plot: Plot,
    drawing: Drawing,
    groups: Sequence[Group],
    scale: float,
    corner: complex,
    box: _Box,
) -> None:
    size = scale * plot.size
    origin = corner - 1j * size.imag + scale * complex(plot.reach, plot.reach)
    for column in range(plot.columns):
        for r in range(plot.rows):
            low, high = (origin + scale * z for z in plot.cell(column, r))
            if (column, r) not in plot.labels:
                _hatch(pen, low, high)
            else:
                pen.box(low, high, width=_GRID)
    for placed in plot.placed:
        _outline(pen, drawing, groups[placed.group], placed, scale, origin)
    for (column, r), label in plot.labels.items():
        low, high = (origin + scale * z for z in plot.cell(column, r))
        step = high - low
        height = min(4.0, 0.3 * step.imag, 4.0 * 0.75 * step.real / width(label, 4.0, True))
        room = complex(width(label, height, True) + 0.8, 1.1 * height) / 2
        middle = (low + high) / 2
        pen.filled(*_corners(middle - room, middle + room), colour="#ffffff")
        pen.words(middle - 0.36j * height, label, height, bold=True, anchor="middle")
    for k, line in enumerate(box.names):
        pen.words(corner - 1j * (size.imag + 1.0 + 1.4 * _NAME * k + _NAME), line, _NAME)


def _corners(low: complex, high: complex) -> tuple[complex, ...]:
    return low, complex(high.real, low.imag), high, complex(low.real, high.imag)


def _hatch(pen: Pen, low: complex, high: complex) -> None:
    """Slanting lines over a cell that is not printed."""
    wide, tall = (high - low).real, (high - low).imag
    k = _HATCH
    while k < wide + tall:
        start = low + (complex(k, 0) if k <= wide else complex(wide, k - wide))
        end = low + (complex(0, k) if k <= tall else complex(k - tall, tall))
        pen.line(start, end, width=_GRID)
        k += _HATCH


def _outline(pen: Pen, drawing: Drawing, group: Group, placed: Placed, scale: float, origin: complex) -> None:
    """The line a piece is cut along, of the drafted size, as few chords."""
    for stroke in outline_strokes(drawing, group):
        flat = flatten(stroke.cubics, _CHORDS / scale).points
        z = origin + scale * (placed.turn * flat + placed.shift)
        if len(z) > 1:
            pen.line(*z.tolist(), width=_OUTLINE)
        if stroke.closed and len(z) > 1:
            pen.line(complex(z[-1]), complex(z[0]), width=_OUTLINE)


def outline_strokes(drawing: Drawing, group: Group) -> Sequence[Stroke]:
    """The strokes that show a piece's outline best: cut lines, else stitch lines, else all; of one size."""
    sizes = [drawing.base, *reversed(drawing.sizes)]
    for meanings in (("cut", "fold", "opened"), ("stitch", "fold", "opened"), None):
        fitting = [s for s in group.strokes if meanings is None or s.meaning in meanings]
        if not any(s.meaning in ("cut", "stitch", None) for s in fitting):
            continue
        for size in sizes:
            chosen = [s for s in fitting if s.facts.get("size") in (None, size)]
            if any(s.meaning != "fold" for s in chosen):
                return chosen
        return fitting
    return group.strokes
