"""One page of light: the pieces on a grid, between rulers, with squares by which the beam is set."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from notchwork.drawing import Group, Look, Stroke
from notchwork.findings import Count, Finding, Length, Place
from notchwork.geometry import lines
from notchwork.pages.arrange import Placed, arranged, fits
from notchwork.pages.joining.furnish import furnished
from notchwork.pages.joining.placing import Laid, renamed
from notchwork.pages.joining.tiles import tiles
from notchwork.pages.layouts.split import split
from notchwork.pages.order import Order
from notchwork.pages.papers import INCH
from notchwork.pages.reading.scale import MOST, draw_square, squares
from notchwork.pages.rules import SPLIT_SHEET
from notchwork.pages.setting.columns import Area, Item, flow, paragraph
from notchwork.pages.setting.ink import Pen
from notchwork.pages.setting.labels import name_of
from notchwork.pages.setting.lettering import shortened
from notchwork.pages.sheet import Sheet, Window

RIM = 14.0
"""mm along every edge, for the rulers."""
GAP = 15.0
"""mm between pieces: room to see and to cut."""
INSET = 12.0
"""mm between pieces and the lines of the rulers: an edge on such a line cannot be told from it, nor well on one of the grid."""
PROPORTION = 1.6
"""A page is about so many times as wide as it is high, as a beam is; common practice, no source."""
LOOSE = 1.35
"""About how much more room pieces take than they cover."""
LEAST = 900.0
"""mm: a page is at least as wide, for squares and words."""
FOOT = 4 * INCH + 24.0
"""mm at the foot, for squares and words."""
_GRID = ((10.0, 0.1, "#dddddd"), (50.0, 0.15, "#bbbbbb"), (100.0, 0.3, "#999999"))
"""Every so many mm a line of such a width and colour: those of 100 mm lie on top."""
_TYPE, _FIGURES = 7.5, 4.0
_SAID = (
    "Show this page at 100 % (full size), straight down on the table, and set the projector until both squares have their size.",
    "Measure squares of the grid near every corner of the picture too: if one is not square, the beam slants.",
    "Measure again whenever the table or the projector was touched. Do not look into the beam.",
)


def projected(order: Order) -> tuple[tuple[Sheet, ...], tuple[Finding, ...]]:
    """One page with all pieces, or as few as there must be; and what is to be said of them."""
    rim = RIM + order.margin
    wide, tall = _beam(order, rim)
    there = [k for k, shape in enumerate(order.shapes) if shape.rings]
    small = [k for k in there if fits(order.shapes[k], wide, tall, order.turn)]
    pages = [
        renamed(page, small)
        for page in arranged([order.shapes[k] for k in small], wide, tall, GAP, order.turn)
    ] or [()]
    beam = complex(wide + 2 * INSET, tall + 2 * INSET)
    column, cut = 0, []
    for k in there:
        if k not in small:
            each = split(order, k, beam + complex(2 * rim, 2 * rim), is_roll=True)
            made, _ = tiles(order.shapes, order.drawn, Laid((each.island,), (), 0), each.frame, column)
            column += each.island.columns
            cut += [(tile, each.frame) for tile in made]
    total = len(pages) + len(cut)
    sheets = [_page(order, page, beam.real, rim, k, total) for k, page in enumerate(pages, 1)]
    sheets += (
        furnished(tile, order.groups, order.drawn, frame, order.join, order.drawing.title, k, total)
        for k, (tile, frame) in enumerate(cut, len(pages) + 1)
    )
    return tuple(sheets), (_more(total),) if total > 1 and not order.sizes else ()


def _beam(order: Order, rim: float) -> tuple[float, float]:
    """Width and height (mm) that pieces may take: those asked for, or a width that suits them and any height there can be."""
    if order.sizes:
        sides = sorted((order.page.real, order.page.imag))
        wide, tall = min(sides[1], MOST), min(sides[0], MOST)
        return wide - 2 * (rim + INSET), tall - 2 * (rim + INSET) - FOOT
    most = MOST - 2 * (rim + INSET)
    taken = 0.0
    least = LEAST
    for shape in order.shapes:
        if shape.rings:
            z = shape.points
            size = complex(z.real.max() - z.real.min(), z.imag.max() - z.imag.min())
            taken += size.real * size.imag
            least = max(least, size.real if order.turn == "drawn" else min(size.real, size.imag))
    return min(most, max(least + 1.0, math.sqrt(PROPORTION * LOOSE * taken))), most - FOOT


def _page(order: Order, placed: Sequence[Placed], wide: float, rim: float, number: int, total: int) -> Sheet:
    low = complex(rim, rim)
    if order.sizes:
        tall = _beam(order, rim)[1] + 2 * INSET + FOOT
    else:
        reach = (float((p.turn * order.shapes[p.group].points + p.shift).imag.max()) for p in placed)
        tall = max(reach, default=0.0) + 2 * INSET + FOOT
    high = low + complex(wide, tall)
    floor = low + 1j * FOOT
    corner = floor + complex(INSET, INSET)
    pen = Pen()
    _rulers(pen, low, high)
    _squares(pen, order, low, wide, f"page {number} of {total}" if total > 1 else "")
    windows = tuple(Window(p.group, p.turn, p.shift + corner, floor, high) for p in placed)
    names = ", ".join(dict.fromkeys(name_of(order.groups[p.group]) for p in placed))
    return Sheet(high + low, windows, pen.group(), f"{number}", names, _grid(low, high))


def _grid(low: complex, high: complex) -> Group:
    """Lines across the page, counted from its lower left corner."""
    strokes = []
    for step, width, colour in _GRID:
        across = low.real + np.arange(0.0, (high - low).real + 1e-9, step)
        up = low.imag + np.arange(0.0, (high - low).imag + 1e-9, step)
        runs = [lines([complex(x, low.imag), complex(x, high.imag)]) for x in across]
        runs += [lines([complex(low.real, y), complex(high.real, y)]) for y in up]
        strokes += [Stroke(run, "legend", look=Look(colour, None, width)) for run in runs]
    return Group("ground", tuple(strokes))


def _rulers(pen: Pen, low: complex, high: complex) -> None:
    """cm below and on the left, inches above and on the right, all from the lower left corner."""
    pen.box(low, high, width=0.4)
    wide, tall = (high - low).real, (high - low).imag
    top, right = complex(low.real, high.imag), complex(high.real, low.imag)
    for start, along, outward, long, unit, parts, every in (
        (low, 1 + 0j, -1j, wide, 10.0, 2, 10),
        (low, 1j, -1 + 0j, tall, 10.0, 2, 10),
        (top, 1 + 0j, 1j, wide, INCH, 4, 1),
        (right, 1j, 1 + 0j, tall, INCH, 4, 1),
    ):
        name = "cm" if unit == 10.0 else "in"
        for k in range(int((long + 1e-9) * parts / unit) + 1):
            at = start + along * k * unit / parts
            whole, rest = divmod(k, parts)
            figure = not rest and whole % every == 0
            deep = 6.0 if figure else 4.5 if not rest and whole % 5 == 0 else 3.0 if not rest else 1.8
            pen.line(at, at + outward * deep, width=0.4 if figure else 0.2)
            if figure and whole and k * unit / parts < long - 12.0:
                _figure(pen, at + outward * 7.0, outward, f"{whole} {name}" if whole == every else f"{whole}")


def _figure(pen: Pen, at: complex, outward: complex, words: str) -> None:
    upright = outward.real != 0.0
    # Read from below along level rulers, from the right along upright ones.
    up = -1 + 0j if upright else 1j
    base = at if outward == up else at + outward * 0.75 * _FIGURES
    pen.words(base, words, _FIGURES, bold=True, anchor="middle", angle=90.0 if upright else 0.0)


def _squares(pen: Pen, order: Order, low: complex, wide: float, page: str) -> None:
    """Both squares at the foot, and what to do with them."""
    at = low + 10 + 10j
    for square in squares(order.drawing.unit):
        inner = at + complex(square.side, square.side) / 2
        pen.filled(
            at,
            at + square.side,
            at + complex(square.side, square.side),
            at + 1j * square.side,
            colour="#ffffff",
        )
        draw_square(pen, at, square.side, width=0.5)
        pen.words(inner - 4j, square.words, 12.0, bold=True, anchor="middle")
        at += square.side + 15
    left = at.real
    room = Area(
        pen, complex(left, low.imag + FOOT - 14.0), min(900.0, low.real + wide - left - 10), FOOT - 20.0
    )
    title = " · ".join(part for part in (order.drawing.title or "Pattern", page) if part)
    items: list[Item] = [paragraph(shortened(title, 12.0, room.wide, True), 12.0, bold=True)]
    items += (paragraph(words, _TYPE, before=3.0) for words in _SAID)
    flow(items, [room])


def _more(total: int) -> Finding:
    return Finding(
        SPLIT_SHEET,
        Place(),
        "All pieces do not fit on a page of {most}, the most that a page of a PDF can be: there are {count} pages.",
        "Show one after the other.",
        {"most": Length(MOST), "count": Count(total)},
    )
