"""Pieces as stamps on a raster, and where a stamp cannot lie beside another: sets of cells as whole numbers.

Cell (x, y) is bit ``y * stride + x``. Moving a set of cells is then one shift, and joining two sets one "or", whatever their
number: the places that a lying piece forbids to another, worked out once, are only shifted from then on.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from notchwork.geometry.cubics import Bools
from notchwork.pages.arrange.cells import SLIVER, count, covered
from notchwork.pages.arrange.kinds import Kind, Piece

CELLS = 60_000
"""Cells of the raster that the boxes about all pieces take up, about; more are finer and slower."""
FINEST = 0.5
"""mm: no cell is smaller."""
FEW = 15
"""Kinds of pieces; with more the raster is coarser, for each pair is work."""
MANY = 200
"""Kinds of pieces; above it each takes up its whole box, for there are as many pairs as its square."""


class Raster:
    """A page of ``wide`` x ``tall`` mm (tall may be infinite) in cells of ``cell`` mm; ``gap`` is the space between pieces.

    The page's lower left corner lies gap / 2 inside the raster, for every stamp has half the gap round it.
    """

    def __init__(self, wide: float, tall: float, gap: float, cell: complex) -> None:
        self.wide, self.tall, self.gap, self.cell = wide, tall, gap, cell
        self.stride = count(wide + gap, cell.real) + 2
        self.work = 0
        self._forbidden: dict[tuple[int, int], int] = {}
        self._boxes: dict[tuple[int, int], int] = {}
        self._made = 0

    @classmethod
    def for_pieces(cls, pieces: Sequence[Piece], wide: float, tall: float, gap: float) -> Raster:
        """A raster fine enough for the pieces, and no finer than their number allows.

        Cells are 1, 2, 4 ... mm wide, or halves, so that pieces that measure whole mm fit beside each other as they should.
        """
        boxes = sum((piece.kind.wide + gap) * (piece.kind.tall + gap) for piece in pieces)
        kinds = len({piece.kind for piece in pieces})
        shared = 1.0 if kinds > MANY else max(1.0, kinds / FEW)
        side = math.sqrt(max(1.0, min(boxes, wide * tall) * shared) / CELLS)
        side = max(FINEST, 2.0 ** round(math.log2(side)))
        return cls(wide, tall, gap, complex(side, side))

    def corner(self, at: int) -> complex:
        """Where on the page (mm) the lower left corner of a cell is."""
        row, column = divmod(at, self.stride)
        return complex(column * self.cell.real, row * self.cell.imag) - complex(self.gap, self.gap) / 2

    def stamp(self, kind: Kind, turn: complex, *, boxed: bool = False) -> Stamp:
        """A piece at one turn; ``boxed``: all the box about it is taken as covered, which takes far less work."""
        z = turn * kind.shape.points
        around = complex(self.gap, self.gap) / 2
        low = complex(z.real.min(), z.imag.min()) - around
        size = complex(z.real.max(), z.imag.max()) + around - low
        grid = covered([turn * ring for ring in kind.solid.rings], low, size, self.cell)
        return self.stamp_of(grid if not boxed else np.ones_like(grid), turn, low, size)

    def stamp_of(self, grid: Bools, turn: complex, low: complex, size: complex) -> Stamp:
        """Cells as a stamp: ``low`` (mm) is the lower left corner of the first cell when what it stands for is turned."""
        self._made += 2
        return Stamp(self, self._made, turn, low, size, grid)

    def forbidden(self, lying: Stamp, other: Stamp) -> int:
        """Where the other's origin cannot be, ``other.corner`` cells down and left of the lying one's origin."""
        if lying.full and other.full:
            return self.ones(lying.rows + other.rows - 1, lying.columns + other.columns - 1)
        # Both turned by half a turn is the other way round.
        one, two = (other.turned, lying.turned) if lying.ident & other.ident & 1 else (lying, other)
        key = (one.ident, two.ident)
        found = self._forbidden.get(key)
        if found is None:
            found = self._forbidden[key] = two.swept_over(one)
        return found

    def ones(self, rows: int, columns: int) -> int:
        """A box of cells at the origin."""
        found = self._boxes.get((rows, columns))
        if found is None:
            found, have = (1 << columns) - 1, 1
            while have < rows:
                more = min(have, rows - have)
                found |= found << (more * self.stride)
                have += more
            self._boxes[rows, columns] = found
        return found


class Stamps:
    """The stamps of every kind on one raster, made when they are asked for."""

    def __init__(self, raster: Raster, ways: Mapping[Kind, Sequence[complex]]) -> None:
        self.raster, self._ways = raster, ways
        self._made: dict[Kind, tuple[Stamp, ...]] = {}

    def __getitem__(self, kind: Kind) -> tuple[Stamp, ...]:
        found = self._made.get(kind)
        if found is None:
            found = self._made[kind] = tuple(self._stamps(kind))
        return found

    def _stamps(self, kind: Kind) -> list[Stamp]:
        stamps: list[Stamp] = []
        boxed = len(self._ways) > MANY
        for way in self._ways[kind]:
            opposite = next((each for each in stamps if abs(each.turn + way) < 1e-9), None)
            if opposite is not None and boxed:
                continue
            if opposite is not None and opposite.turned.across > 0 and opposite.turned.most_rows > 0:
                stamps.append(opposite.turned)
            elif opposite is None:
                stamps.append(self.raster.stamp(kind, way, boxed=boxed))
        return stamps


class Stamp:
    """A piece at one turn, as cells: ``low`` (mm) is the lower left corner of what it covers when turned by ``turn``, with half
    the gap round it, ``size`` how much that is."""

    def __init__(
        self, raster: Raster, ident: int, turn: complex, low: complex, size: complex, grid: Bools
    ) -> None:
        self.raster, self.ident, self.turn, self.low, self.size = raster, ident, turn, low, size
        self.rows, self.columns = grid.shape
        self.grid = grid
        self.full = bool(grid.all())
        stride = raster.stride
        self.corner = (self.rows - 1) * stride + self.columns - 1
        self.across = math.floor((raster.wide + raster.gap - size.real) / raster.cell.real + 4 * SLIVER) + 1
        wide = np.zeros((self.rows, stride), dtype=bool)
        wide[:, : self.columns] = grid
        self.bits = int.from_bytes(np.packbits(wide.ravel(), bitorder="little").tobytes(), "little")
        self._grown = {(0, 0): self.bits}
        self._turned: Stamp | None = None
        self._boxes: list[tuple[int, int, int, int]] | None = None
        self._within: dict[int, int] = {}

    @property
    def turned(self) -> Stamp:
        """The same turned by half a turn, cell by cell; its cells may reach a little further down and left than it does."""
        if self._turned is None:
            whole = complex(self.columns * self.raster.cell.real, self.rows * self.raster.cell.imag)
            low, grid = -(self.low + whole), self.grid[::-1, ::-1]
            self._turned = Stamp(self.raster, self.ident ^ 1, -self.turn, low, whole, grid)
            self._turned._turned = self
        return self._turned

    @property
    def most_rows(self) -> int:
        """How many rows its origin can lie in on the page; 0 if it does not fit."""
        room = self.raster.tall + self.raster.gap - self.size.imag
        if math.isinf(room):
            return 1 << 62
        return max(0, math.floor(room / self.raster.cell.imag + 4 * SLIVER) + 1)

    def within(self, rows: int) -> int:
        """The places of its origin in the first rows, from which it does not reach beyond the page's sides."""
        found = self._within.get(rows)
        if found is None:
            found = self._within[rows] = self.raster.ones(rows, max(0, self.across))
        return found

    def swept_over(self, lying: Stamp) -> int:
        """The places of this one's origin from which it covers a cell of the lying one, moved up by its own corner."""
        stride, swept = self.raster.stride, 0
        for row, rows, left, columns in self.boxes:
            part = lying.grown(columns, rows)
            swept |= part << (self.corner - (row + rows - 1) * stride - left - columns + 1)
        self.raster.work += len(self.boxes) * (self.rows + lying.rows) * stride
        return swept

    def grown(self, columns: int, rows: int) -> int:
        """Its cells swept over a box of columns x rows."""
        wide, tall = columns.bit_length() - 1, rows.bit_length() - 1
        part = self._doubled(wide, tall)
        part |= part << (columns - (1 << wide))
        return part | part << (self.raster.stride * (rows - (1 << tall)))

    def _doubled(self, wide: int, tall: int) -> int:
        """Its cells swept over a box of 2 ** wide x 2 ** tall."""
        found = self._grown.get((wide, tall))
        if found is None:
            if tall:
                half = self._doubled(wide, tall - 1)
                found = half | half << (self.raster.stride << (tall - 1))
            else:
                half = self._doubled(wide - 1, 0)
                found = half | half << (1 << (wide - 1))
            self._grown[wide, tall] = found
        return found

    @property
    def boxes(self) -> list[tuple[int, int, int, int]]:
        """Boxes of cells (first row, rows, first column, columns) that cover its cells, and no other."""
        if self._boxes is None:
            self._boxes = _boxes(self.grid)
        return self._boxes


def _boxes(grid: Bools) -> list[tuple[int, int, int, int]]:
    edge = np.diff(np.pad(grid.astype(np.int8), ((0, 0), (1, 1))), axis=1)
    row, first = np.nonzero(edge == 1)
    last = np.nonzero(edge == -1)[1]
    found, open_runs = [], dict[tuple[int, int], int]()
    runs: list[set[tuple[int, int]]] = [set() for _ in range(len(grid) + 1)]
    for k, a, b in zip(row.tolist(), first.tolist(), last.tolist(), strict=True):
        runs[k].add((a, b))
    for k, here in enumerate(runs):
        for run in [run for run in open_runs if run not in here]:
            start = open_runs.pop(run)
            found.append((start, k - start, run[0], run[1] - run[0]))
        for run in here:
            open_runs.setdefault(run, k)
    return sorted(found)
