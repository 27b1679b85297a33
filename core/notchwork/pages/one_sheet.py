"""Everything on one large sheet, or on as few as there must be."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from notchwork.findings import Count, Finding, Length, Place
from notchwork.pages.arrange import Placed, arranged, fits
from notchwork.pages.frame import Frame
from notchwork.pages.front import FIRST, Room, front, sheet_front
from notchwork.pages.furnish import furnished
from notchwork.pages.ink import Pen
from notchwork.pages.labels import listed_pages, name_of
from notchwork.pages.lettering import shortened
from notchwork.pages.matter import Matter
from notchwork.pages.order import MARGIN, Order
from notchwork.pages.placing import GAP, Laid, renamed
from notchwork.pages.plan import PLAN, plan
from notchwork.pages.rules import MORE_SHEETS, SPLIT_SHEET, WIDER_THAN_PAPER
from notchwork.pages.scale import MOST
from notchwork.pages.sheet import Sheet, Window
from notchwork.pages.split import Split, extent, split
from notchwork.pages.tiles import Plot, Tile, tiles

HEAD, HEADER = 112.0, 14.0
"""mm kept free at the top of the first sheet, at least, and of every other, for words."""
_APART = 6.0
"""mm of that between words and pieces."""
A4 = complex(210.0, 297.0)
_JOIN = "Join them as the plan of assembly shows"
_TOO_WIDE = (
    WIDER_THAN_PAPER,
    (
        "{piece} is at least {across} wide whichever way it is turned, and {paper} leaves {wide} inside its margins: it is printed on {count} "
        "sheets, which are joined along printed lines."
    ),
    _JOIN + ", or take a roll of {roll} or more, or print tiles (--layout tiles).",
)
_TOO_LONG = (
    WIDER_THAN_PAPER,
    (
        "{piece} is {along} long, and {paper} leaves {wide} by {tall} inside its margins: it is printed on {count} sheets, which are joined "
        "along printed lines."
    ),
    _JOIN + ", or take a roll of {roll} or more, or print tiles (--layout tiles).",
)
_TOO_LONG_FOR_PDF = (
    SPLIT_SHEET,
    (
        "{piece} is {along} long, and a page of a PDF is at most {most}: it is printed on {count} sheets, which are joined along printed "
        "lines."
    ),
    _JOIN + ".",
)


@dataclass(frozen=True, slots=True, eq=False)
class _Whole:
    """A sheet of whole pieces: where they lie from its lower left margin, and how much is kept free above them (mm)."""

    placed: tuple[Placed, ...]
    head: float


@dataclass(frozen=True, slots=True, eq=False)
class _Laid:
    """What goes on which sheet. ``head`` is how high the matter of the first page is there, None if it has pages of its own."""

    wholes: tuple[_Whole, ...]
    splits: tuple[Split, ...]
    head: float | None


def on_sheets(order: Order) -> tuple[tuple[Sheet, ...], tuple[Finding, ...]]:
    """The sheets, the first with title and test squares at its top; and what is to be said of them."""
    is_roll = math.isinf(order.page.imag)
    page = complex(min(order.page.real, MOST), min(order.page.imag, MOST))
    head: float | None = HEAD
    while True:
        laid = _laid(order, page, head, is_roll)
        sheets = _furnished(order, laid, page, is_roll)
        if sheets is not None:
            return sheets, tuple(_findings(order, laid, page, is_roll))
        # What is to be said found no room: give it more, or pages of its own.
        head = head + 15.0 if head is not None and head < 0.4 * page.imag else None


def _laid(order: Order, page: complex, head: float | None, is_roll: bool) -> _Laid:
    usable = page - 2 * complex(order.margin, order.margin)
    wide, tall = usable.real, usable.imag
    there = [k for k, shape in enumerate(order.shapes) if shape.rings]
    small = [k for k in there if fits(order.shapes[k], wide, tall - HEADER, order.turn)]
    splits = tuple(split(order, k, page, is_roll) for k in there if k not in small)
    if not small and not is_roll:
        head = None
    kept = HEADER if head is None else head
    if is_roll and small:
        (roll,) = _arranged(order, small, wide, math.inf)
        if kept + _length(order, roll) <= tall:
            return _Laid((_Whole(roll, kept),), splits, head)
    wholes: list[_Whole] = []
    rest = small
    if head is not None:
        fitting = [k for k in small if fits(order.shapes[k], wide, tall - head, order.turn)]
        first = _arranged(order, fitting, wide, tall - head)[0] if fitting else ()
        wholes.append(_Whole(first, head))
        rest = [k for k in small if k not in {each.group for each in first}]
    wholes += (_Whole(placed, HEADER) for placed in _arranged(order, rest, wide, tall - HEADER))
    return _Laid(tuple(wholes), splits, head)


def _arranged(order: Order, which: Sequence[int], wide: float, tall: float) -> list[tuple[Placed, ...]]:
    pages = arranged([order.shapes[k] for k in which], wide, tall, GAP, order.turn)
    return [renamed(page, which) for page in pages]


def _length(order: Order, placed: Sequence[Placed]) -> float:
    """How far up (mm) placed pieces reach."""
    return max(
        (float((p.turn * order.shapes[p.group].points + p.shift).imag.max()) for p in placed), default=0.0
    )


def _furnished(order: Order, laid: _Laid, page: complex, is_roll: bool) -> tuple[Sheet, ...] | None:
    """All sheets with their words; None if what is to be said finds no room on the first."""
    pages: list[tuple[Tile, Frame]] = []
    plots: list[Plot] = []
    column = 0
    for each in laid.splits:
        made, (plot,) = tiles(order.shapes, order.drawn, Laid((each.island,), (), 0), each.frame, column)
        column += each.island.columns
        pages += ((tile, each.frame) for tile in made)
        plots.append(plot)
    plans = plan(order.drawing, order.groups, order.shapes, plots, order.join, A4, MARGIN) if plots else ()
    fronts: tuple[Pen, ...] = ()
    for _ in range(2 if laid.head is None else 1):
        before = len(fronts)
        total = before + len(laid.wholes) + len(plans) + len(pages)
        matter = Matter(
            order.drawing,
            order.sizes,
            _found(order, laid, pages, before, len(plans)),
            _counted(laid, pages, before),
            is_sheet=laid.head is not None,
        )
        if laid.head is None:
            fronts = front(matter, A4, MARGIN)
    sheets = [
        Sheet(A4, marks=pen.group(), title=FIRST if k == 0 else f"{FIRST}, continued")
        for k, pen in enumerate(fronts)
    ]
    for k, whole in enumerate(laid.wholes):
        sheet = _whole_sheet(
            order, whole, page, is_roll, before + k + 1, total, matter if k == 0 and laid.head else None
        )
        if sheet is None:
            return None
        sheets.append(sheet)
    sheets += (Sheet(A4, marks=pen.group(), title=PLAN) for pen in plans)
    start = len(sheets)
    sheets += (
        furnished(tile, order.groups, order.drawn, frame, order.join, order.drawing.title, start + k, total)
        for k, (tile, frame) in enumerate(pages, 1)
    )
    return tuple(sheets)


def _whole_sheet(
    order: Order, whole: _Whole, page: complex, is_roll: bool, number: int, total: int, matter: Matter | None
) -> Sheet | None:
    low = complex(order.margin, order.margin)
    tall = page.imag
    if is_roll:
        tall = min(tall, _length(order, whole.placed) + whole.head + 2 * order.margin)
    size = complex(page.real, tall)
    high = size - low
    pen = Pen()
    if matter is None:
        words = f"{order.drawing.title or 'Pattern'} · sheet {number} of {total} · print at 100 %. Nothing is joined to this sheet."
        pen.words(
            complex(low.real, high.imag - 5.0), shortened(words, 4.0, (high - low).real, True), 4.0, bold=True
        )
    elif not sheet_front(pen, matter, Room(complex(low.real, high.imag - whole.head + _APART), high)):
        return None
    windows = tuple(
        Window(p.group, p.turn, p.shift + low, low, high - 1j * (whole.head - _APART)) for p in whole.placed
    )
    label = f"{number}"
    names = ", ".join(name_of(order.groups[p.group]) for p in whole.placed)
    return Sheet(size, windows, pen.group(), label, names)


def _found(
    order: Order, laid: _Laid, pages: Sequence[tuple[Tile, Frame]], before: int, plans: int
) -> Mapping[str, str]:
    """By a group's name where it is, in words; nothing where one sheet holds everything."""
    if len(laid.wholes) + len(pages) == 1:
        return {order.groups[p.group].name: "" for whole in laid.wholes for p in whole.placed}
    found = {
        order.groups[p.group].name: f"on sheet {before + k}"
        for k, whole in enumerate(laid.wholes, 1)
        for p in whole.placed
    }
    for each in laid.splits:
        group = each.island.placed[0].group
        labels = [tile.label for tile, _ in pages if group in tile.groups]
        found[order.groups[group].name] = f"on {listed_pages(labels)}, to be joined"
    return found


def _counted(laid: _Laid, pages: Sequence[object], before: int) -> tuple[str, ...]:
    wholes = len(laid.wholes)
    if wholes == 1 and not pages:
        return ("This sheet holds all pieces.",)
    said = [f"{wholes} {'sheet holds' if wholes == 1 else 'sheets hold'} whole pieces."] if wholes else []
    if pages:
        said.append(f"{len(pages)} sheets are joined along printed lines: the plan of assembly shows how.")
    return tuple(said)


def _findings(order: Order, laid: _Laid, page: complex, is_roll: bool) -> Iterator[Finding]:
    left = page - 2 * complex(order.margin, order.margin)
    for each in laid.splits:
        group = each.island.placed[0].group
        across, along = extent(order.shapes[group])
        values = {
            "piece": name_of(order.groups[group]),
            "across": Length(across),
            "along": Length(along),
            "wide": Length(left.real),
            "tall": Length(left.imag),
            "paper": order.paper,
            "count": Count(len(each.island.cells)),
            "roll": Length(across + 2 * order.margin),
            "most": Length(MOST),
        }
        too_long = _TOO_LONG_FOR_PDF if is_roll and along > left.imag else _TOO_LONG
        rule, text, hint = _TOO_WIDE if across > min(left.real, left.imag) else too_long
        facts = order.groups[group].facts
        yield Finding(
            rule, Place(piece=str(facts.get("piece", order.groups[group].name))), text, hint, values
        )
    if len(laid.wholes) > 1 and is_roll:
        yield Finding(
            SPLIT_SHEET,
            Place(),
            "All pieces together are longer than {most}, the most that a page of a PDF can be: they are on {count} sheets, each "
            "piece whole.",
            "Print all of them; nothing is joined.",
            {"most": Length(MOST), "count": Count(len(laid.wholes))},
        )
    elif len(laid.wholes) > 1:
        yield Finding(
            MORE_SHEETS,
            Place(),
            "Not all pieces fit on one sheet of {paper}: there are {count}.",
            "Print all of them, or on a roll, which is as long as it needs to be.",
            {"paper": order.paper, "count": Count(len(laid.wholes))},
        )
