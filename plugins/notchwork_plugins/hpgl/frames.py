"""Sheets or stretches of a roll, each within what the device reaches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.drawing import Text
from notchwork.pages import Turn
from notchwork.pages.arrange import Island, Placed, Shape, fits, islands
from notchwork_plugins.hpgl.clip import clipped
from notchwork_plugins.hpgl.ink import Ink, moved
from notchwork_plugins.hpgl.letters import strokes

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

    It holds part ``part`` of ``parts`` of what is called ``name``, or whole pieces.
    """

    inks: tuple[Ink, ...]
    name: str = ""
    part: int = 1
    parts: int = 1


def framed(
    groups: Sequence[tuple[str, tuple[Ink, ...], Shape]],
    across: float,
    along: float,
    turn: Turn,
    lettered: bool,
) -> Iterator[Frame]:
    """Groups (what each is called, its inks, what it covers) in frames of at most ``across`` by ``along`` mm.

    Pieces that fit a frame are whole in one. Others are cut apart along the lines between the match marks at the corners of
    their parts, of which each has a label if ``lettered``.
    """
    shapes = [shape for _, _, shape in groups]
    small = [k for k, shape in enumerate(shapes) if fits(shape, across, along, turn)]
    large = [k for k, shape in enumerate(shapes) if shape.rings and k not in set(small)]
    for island in islands([shapes[k] for k in small], across, along, GAP, turn):
        placed = [_placed(groups[small[at.group]][1], at) for at in island.placed]
        yield Frame(tuple(ink for inks in placed for ink in inks))
    wide, tall = across - 2.0 * BORDER, along - 2.0 * BORDER
    for island in islands([shapes[k] for k in large], wide, tall, GAP, turn):
        names = ", ".join(groups[large[at.group]][0] for at in island.placed)
        inks = [ink for at in island.placed for ink in _placed(groups[large[at.group]][1], at)]
        yield from _cells(island, names, inks, wide, tall, lettered)


def _placed(inks: Sequence[Ink], at: Placed) -> list[Ink]:
    return [moved(ink, at.turn, at.shift) for ink in inks]


def _cells(
    island: Island, name: str, inks: Sequence[Ink], wide: float, tall: float, lettered: bool
) -> Iterator[Frame]:
    held = []
    for column, row in sorted(island.cells, key=lambda cell: (cell[1], cell[0])):
        low = complex(column * wide, row * tall)
        high = low + complex(wide, tall)
        if parts := [part for ink in inks for part in _within(ink, low, high)]:
            held.append((column, row, low, high, parts))
    for count, (column, row, low, high, parts) in enumerate(held, 1):
        label = f"{name}, part {count} of {len(held)}"
        if island.columns > 1 and island.rows > 1:
            label += f" (row {row + 1} from below, column {column + 1})"
        here = [*parts, *_marks(low, high, label if lettered else "")]
        shift = complex(BORDER, BORDER) - low
        yield Frame(tuple(moved(ink, 1 + 0j, shift) for ink in here), name, count, len(held))


def _within(ink: Ink, low: complex, high: complex) -> Iterator[Ink]:
    if ink.text is not None:
        at = ink.text.at
        if low.real <= at.real < high.real and low.imag <= at.imag < high.imag:
            yield ink
        return
    lines = [part for line in ink.lines for part in clipped(line, low, high)]
    whole = len(lines) == len(ink.lines) and all(a is b for a, b in zip(lines, ink.lines, strict=True))
    if whole:
        yield ink
    elif lines:
        yield Ink(tuple(lines), ink.tool, ink.rank)


def _marks(low: complex, high: complex, label: str) -> Iterator[Ink]:
    """A cross at each corner: crosses of neighbours are laid on one another."""
    for corner in (low, complex(high.real, low.imag), high, complex(low.real, high.imag)):
        lines = tuple(corner + np.array([-ARM, ARM]) * way for way in (1, 1j))
        yield Ink(lines, "draw")
    if label:
        text = Text(low + complex(ARM + 2.0, -BORDER + 1.0), label, LETTERS)
        yield Ink(strokes(text), "draw")
