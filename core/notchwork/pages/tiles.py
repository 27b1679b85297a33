"""Pages to be joined: each island of pieces has a grid, each cell of it that is needed is a page."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from notchwork.drawing import Group
from notchwork.pages.frame import Cell, Frame
from notchwork.pages.ink import Pen
from notchwork.pages.labels import column_name
from notchwork.pages.marks import Side, draw_joins
from notchwork.pages.sheet import Sheet, Window
from notchwork.values import frozen


@frozen
class Placed:
    group: int
    turn: complex
    shift: complex


@frozen
class Island:
    placed: tuple[Placed, ...]
    columns: int
    rows: int
    cells: frozenset[Cell]


def islands(groups: Sequence[Group], frame: Frame) -> tuple[Island, ...]:
    """A grid of its own for every piece."""
    found = []
    for k, group in enumerate(groups):
        low, high = group.bounds or (0j, 0j)
        wide, tall = (high - low).real, (high - low).imag
        columns = max(1, math.ceil(wide / frame.step.real))
        rows = max(1, math.ceil(tall / frame.step.imag))
        free = complex(columns * frame.step.real - wide, rows * frame.step.imag - tall) / 2
        cells = frozenset((c, r) for c in range(columns) for r in range(rows))
        found.append(Island((Placed(k, 1 + 0j, free - low),), columns, rows, cells))
    return tuple(found)


_STEPS: Mapping[Side, Cell] = {"left": (-1, 0), "right": (1, 0), "below": (0, -1), "above": (0, 1)}


def tile_sheets(groups: Sequence[Group], found: Sequence[Island], frame: Frame) -> Iterator[Sheet]:
    """A page for every cell, row by row from the top, island by island."""
    first = 0
    for island in found:
        labels = _labels(island, first)
        first += island.columns
        names = ", ".join(str(groups[p.group].facts.get("name", groups[p.group].name)) for p in island.placed)
        for cell in sorted(island.cells, key=lambda c: (-c[1], c[0])):
            yield _tile(island, cell, labels, frame, names)


def _labels(island: Island, first: int) -> dict[Cell, str]:
    alone = len(island.cells) == 1
    return {
        (column, row): column_name(first + column) + ("" if alone else str(island.rows - row))
        for column, row in island.cells
    }


def _tile(island: Island, cell: Cell, labels: Mapping[Cell, str], frame: Frame, names: str) -> Sheet:
    pen = Pen()
    own = labels[cell]
    neighbours = {
        side: labels[beside]
        for side, (across, up) in _STEPS.items()
        if (beside := (cell[0] + across, cell[1] + up)) in labels
    }
    draw_joins(pen, frame, own, neighbours)
    pen.words(frame.low + 5 + 5j, own, 10.0, bold=True)
    pen.words(frame.low + 5 + 1j, names, 3.0)
    shift = frame.shift(cell)
    windows = tuple(Window(p.group, p.turn, p.shift + shift, frame.low, frame.high) for p in island.placed)
    return Sheet(frame.size, windows, pen.group(), own, names)
