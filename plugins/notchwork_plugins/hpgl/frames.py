"""Sheets or stretches of a roll, each within what the device reaches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Text
from notchwork.pages import Turning
from notchwork.pages.arrange import Island, Placed, Shape, fits, islands
from notchwork_plugins.hpgl.clip import clipped
from notchwork_plugins.hpgl.device import Lettering, Tool
from notchwork_plugins.hpgl.ink import DRAWN, INSIDE, Ink, moved
from notchwork_plugins.hpgl.letters import strokes

Complexes = NDArray[np.complex128]

GAP = 6.0
"""mm between two pieces."""
BORDER = 6.0
"""mm left free round a part of a piece, for its marks."""
ARM = 4.0
"""mm: how far a match mark reaches to each side of its corner."""
LETTERS = 4.0


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """What stands on one sheet or stretch: ``inks`` in mm, x across the paper and y along it, no corner below 0.

    It holds part ``part`` of ``parts`` of what is called ``name``, or whole pieces. ``laid`` says which groups it holds, by
    number, and how each was turned.
    """

    inks: tuple[Ink, ...]
    name: str = ""
    part: int = 1
    parts: int = 1
    laid: tuple[tuple[int, complex], ...] = ()


def framed(
    groups: Sequence[tuple[str, tuple[Ink, ...], Shape]],
    across: float,
    along: float,
    turn: Turning,
    lettering: Lettering | None,
) -> Iterator[Frame]:
    """Groups (what each is called, its inks, what it covers) in frames of at most ``across`` by ``along`` mm.

    Pieces that fit a frame are whole in one. Others are cut apart along the lines between the match marks at the corners of
    their parts; each says which it is. ``lettering`` is None where the device has no pen.
    """
    shapes = [shape for _, _, shape in groups]
    small = [k for k, shape in enumerate(shapes) if fits(shape, across, along, turn)]
    large = [k for k, shape in enumerate(shapes) if shape.rings and k not in set(small)]
    for island in islands([shapes[k] for k in small], across, along, GAP, turn):
        placed = [_placed(groups[small[at.group]][1], at) for at in island.placed]
        laid = tuple((small[at.group], at.turn) for at in island.placed)
        yield Frame(tuple(ink for inks in placed for ink in inks), laid=laid)
    wide, tall = across - 2.0 * BORDER, along - 2.0 * BORDER
    for island in islands([shapes[k] for k in large], wide, tall, GAP, turn):
        names = " + ".join(groups[large[at.group]][0] for at in island.placed)
        inks = [ink for at in island.placed for ink in _placed(groups[large[at.group]][1], at)]
        laid = tuple((large[at.group], at.turn) for at in island.placed)
        yield from (replace(cell, laid=laid) for cell in _cells(island, names, inks, wide, tall, lettering))


def _placed(inks: Sequence[Ink], at: Placed) -> list[Ink]:
    return [moved(ink, at.turn, at.shift) for ink in inks]


def _cells(
    island: Island, name: str, inks: Sequence[Ink], wide: float, tall: float, lettering: Lettering | None
) -> Iterator[Frame]:
    held = []
    boxes = [_boxes(ink) for ink in inks]
    for column, row in sorted(island.cells, key=lambda cell: (cell[1], cell[0])):
        low = complex(column * wide, row * tall)
        high = low + complex(wide, tall)
        if parts := [p for ink, box in zip(inks, boxes, strict=True) for p in _within(ink, box, low, high)]:
            held.append((column, row, low, high, parts))
    for count, (column, row, low, high, parts) in enumerate(held, 1):
        label = f"{name}, part {count} of {len(held)}"
        if island.columns > 1 and island.rows > 1:
            label += f" (row {row + 1} from below, column {column + 1})"
        here = [*parts, *_marks(low, high, lettering), *_label(low, wide, label, lettering)]
        shift = complex(BORDER, BORDER) - low
        yield Frame(tuple(moved(ink, 1 + 0j, shift) for ink in here), name, count, len(held))


def _boxes(ink: Ink) -> tuple[Complexes, Complexes]:
    """Lower left and upper right corners of its lines, or where its words stand."""
    if ink.text is not None:
        at = np.array([ink.text.at])
        return at, at
    z, first = np.concatenate(ink.lines), np.cumsum([0, *map(len, ink.lines[:-1])])
    low, high = (f.reduceat(z.real, first) + 1j * f.reduceat(z.imag, first) for f in (np.minimum, np.maximum))
    return low, high


def _within(ink: Ink, boxes: tuple[Complexes, Complexes], low: complex, high: complex) -> Iterator[Ink]:
    """What of an ink lies in a cell. Words the device letters stand in the cell where they begin."""
    least, most = boxes
    inside = (least.real >= low.real) & (least.imag >= low.imag)
    if ink.text is not None:
        if inside[0] and most[0].real < high.real and most[0].imag < high.imag:
            yield ink
        return
    inside &= (most.real <= high.real) & (most.imag <= high.imag)
    if inside.all():
        yield ink
        return
    near = (
        (least.real <= high.real)
        & (least.imag <= high.imag)
        & (most.real >= low.real)
        & (most.imag >= low.imag)
    )
    lines: list[Complexes] = []
    for k in np.flatnonzero(near).tolist():
        lines += [ink.lines[k]] if inside[k] else clipped(ink.lines[k], low, high)
    if lines:
        yield Ink(tuple(lines), ink.tool, ink.rank)


def _marks(low: complex, high: complex, lettering: Lettering | None) -> Iterator[Ink]:
    """A cross at each corner: crosses of neighbours are laid on one another. Without a pen they are cut, small as they are."""
    tool: tuple[Tool, int] = ("cut", INSIDE) if lettering is None else ("draw", DRAWN)
    for corner in (low, complex(high.real, low.imag), high, complex(low.real, high.imag)):
        yield Ink(tuple(corner + np.array([-ARM, ARM]) * way for way in (1, 1j)), *tool)


def _label(low: complex, wide: float, words: str, lettering: Lettering | None) -> Iterator[Ink]:
    """Which part it is, outside it; smaller where it would reach the next mark."""
    start, room = low + complex(ARM + 2.0, 1.0 - BORDER), wide - 2.0 * (ARM + 2.0)
    text = Text(start, words, LETTERS)
    reach = max(text.box[1].real, *(float(line.real.max()) for line in strokes(text))) - start.real
    text = replace(text, height=LETTERS * min(1.0, room / reach))
    if lettering == "labels":
        yield Ink((), "draw", text=text)
    elif lettering is not None:
        yield Ink(strokes(text), "draw")
