"""Everything on one large sheet, or on as few as there must be."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from notchwork.findings import Finding
from notchwork.pages.joining.frame import Frame
from notchwork.pages.joining.furnish import furnished
from notchwork.pages.joining.tiles import Plot, Tile, pages_of, tiles
from notchwork.pages.layouts.allot import Allotted, Whole, allotted, length
from notchwork.pages.layouts.told import on_roll, told
from notchwork.pages.order import Order
from notchwork.pages.reading.front import FIRST, Room, front, sheet_front
from notchwork.pages.reading.matter import Matter
from notchwork.pages.reading.plan import PLAN, plan
from notchwork.pages.reading.scale import MOST
from notchwork.pages.setting.ink import Pen
from notchwork.pages.setting.labels import listed_pages, name_of
from notchwork.pages.setting.lettering import shortened
from notchwork.pages.sheet import Sheet, Window

APART = 6.0
"""mm between words and pieces."""
_HEAD, _HIGHER = 112.0, 15.0
"""mm kept free at the top of the first sheet, at least, and by how much more where that does not suffice."""
_MOST_HEAD = 0.4
"""Where the first page would take more of the sheet than that, it has pages of its own."""
A4 = complex(210.0, 297.0)


def on_sheets(order: Order) -> tuple[tuple[Sheet, ...], tuple[Finding, ...]]:
    """The sheets, the first with title and test squares at its top; and what is to be said of them."""
    page = complex(min(order.page.real, MOST), min(order.page.imag, MOST))
    head = _higher(order, page, _HEAD, Matter(order.drawing, order.sizes, is_sheet=True))
    while True:
        laid = allotted(order, page, head)
        pages, plots = _gridded(order, laid)
        sheets = _furnished(order, laid, page, pages, plots)
        if sheets is not None:
            count = {k: len(pages_of(k, [tile for tile, _ in pages])) for k in laid.large}
            return sheets, (*told(order, laid, page, count), *on_roll(order, sheets))
        head = _higher(
            order, page, (head or _HEAD) + _HIGHER, Matter(order.drawing, order.sizes, is_sheet=True)
        )


def _higher(order: Order, page: complex, head: float, matter: Matter) -> float | None:
    """The least height from ``head`` on at which the first page finds room; None if it would take too much of the sheet."""
    wide = page.real - 2 * order.margin
    while head <= _MOST_HEAD * page.imag:
        if sheet_front(Pen(), matter, Room(0j, complex(wide, head - APART))):
            return head
        head += _HIGHER
    return None


def _gridded(order: Order, laid: Allotted) -> tuple[list[tuple[Tile, Frame]], list[Plot]]:
    """The sheets that are joined, with their frames, and what the plan shows of them."""
    pages: list[tuple[Tile, Frame]] = []
    plots: list[Plot] = []
    column = 0
    for grid, frame in laid.grids:
        made, shown = tiles(order.shapes, order.drawn, grid, frame, column)
        column += sum(plot.columns for plot in shown)
        pages += ((tile, frame) for tile in made)
        plots += shown
    return pages, plots


def _furnished(
    order: Order, laid: Allotted, page: complex, pages: Sequence[tuple[Tile, Frame]], plots: Sequence[Plot]
) -> tuple[Sheet, ...] | None:
    """All sheets with their words; None if what is to be said finds no room on the first."""
    small = complex(min(A4.real, page.real), min(A4.imag, page.imag))
    margin = order.margin
    plans = plan(order.drawing, order.groups, order.shapes, plots, order.join, small, margin) if plots else ()
    fronts: tuple[Pen, ...] = ()
    # How many first pages there are stands on the first page.
    for _ in range(2 if laid.head is None else 1):
        before = len(fronts)
        total = before + len(laid.wholes) + len(plans) + len(pages)
        matter = Matter(
            order.drawing,
            order.sizes,
            _found(order, laid, pages, before),
            _counted(laid),
            is_sheet=laid.head is not None,
        )
        if laid.head is None:
            fronts = front(matter, small, margin)
    sheets = [_read(pen, small, FIRST, k) for k, pen in enumerate(fronts)]
    for k, whole in enumerate(laid.wholes):
        own = matter if k == 0 and laid.head is not None else None
        sheet = _whole_sheet(order, whole, page, before + k + 1, total, own)
        if sheet is None:
            return None
        sheets.append(sheet)
    sheets += (_read(pen, small, PLAN, k) for k, pen in enumerate(plans))
    start = len(sheets)
    sheets += (
        furnished(tile, order.groups, order.drawn, frame, order.join, order.drawing.title, start + k, total)
        for k, (tile, frame) in enumerate(pages, 1)
    )
    return tuple(sheets)


def _read(pen: Pen, size: complex, title: str, k: int) -> Sheet:
    return Sheet(size, marks=pen.group(), title=f"{title}, continued" if k else title)


def _whole_sheet(
    order: Order, whole: Whole, page: complex, number: int, total: int, matter: Matter | None
) -> Sheet | None:
    """A sheet of whole pieces, a roll cut off where it ends; None if ``matter`` finds no room at its top."""
    low = complex(order.margin, order.margin)
    tall = page.imag
    if math.isinf(order.page.imag):
        tall = min(tall, length(order, whole.placed) + whole.head + 2 * order.margin)
    size = complex(page.real, tall)
    high = size - low
    pen = Pen()
    if matter is None:
        title = order.drawing.title or "Pattern"
        words = f"{title} · sheet {number} of {total} · print at 100 %. Nothing is joined to this sheet."
        words = shortened(words, 4.0, (high - low).real, bold=True)
        pen.words(complex(low.real, high.imag - 5.0), words, 4.0, bold=True)
    elif not sheet_front(pen, matter, Room(complex(low.real, high.imag - whole.head + APART), high)):
        return None
    top = high - 1j * (whole.head - APART)
    windows = tuple(Window(p.group, p.turn, p.shift + low, low, top) for p in whole.placed)
    names = ", ".join(name_of(order.groups[p.group]) for p in whole.placed)
    return Sheet(size, windows, pen.group(), f"{number}", names)


def _found(
    order: Order, laid: Allotted, pages: Sequence[tuple[Tile, Frame]], before: int
) -> Mapping[str, str]:
    """By a group's name where it is, in words; nothing where one sheet holds everything."""
    is_one = len(laid.wholes) == 1 and not pages
    found = {
        order.groups[p.group].name: "" if is_one else f"on sheet {before + k}"
        for k, whole in enumerate(laid.wholes, 1)
        for p in whole.placed
    }
    made = [tile for tile, _ in pages]
    for k, group in enumerate(order.groups):
        if on := pages_of(k, made):
            words = f"on {listed_pages([made[page].label for page in on])}"
            found[group.name] = words + (", to be joined" if len(on) > 1 else "")
    return found


def _counted(laid: Allotted) -> tuple[str, ...]:
    if len(laid.wholes) == 1 and not laid.grids:
        return ("This sheet holds all pieces.",)
    joined = sum(len(island.cells) for grid, _ in laid.grids for island in grid.joined)
    wholes = len(laid.wholes) + sum(len(grid.alone) for grid, _ in laid.grids)
    said = [f"{wholes} {'sheet holds' if wholes == 1 else 'sheets hold'} whole pieces."] if wholes else []
    if joined:
        said.append(f"{joined} sheets are joined along printed lines: the plan of assembly shows how.")
    return tuple(said)
