"""All sizes of a piece laid one on another, with what grows from one to the next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from notchwork.findings import listed
from notchwork.geometry import flatten
from notchwork.model import Unit
from notchwork.pictures import ink
from notchwork.pictures.glance.cloth import EXACT, Complexes
from notchwork.pictures.glance.frame import Frame, px_a_mm, upright
from notchwork.pictures.glance.growth import growth
from notchwork.pictures.glance.key import FRAME_SIDE
from notchwork.pictures.glance.rows import ROOM
from notchwork.pictures.glance.words import NAMED
from notchwork.pictures.lettering import lines, short, width
from notchwork.pictures.picture import Part, Picture
from notchwork.pictures.tokens import token
from notchwork.pictures.trail import trail
from notchwork.sewing import GradedPiece, Nest

NARROW, TALLEST = 150.0, 230.0
"""px: the width and height of a piece with words beside it."""
BESIDE = NARROW + 14.0
"""px from the left to those words."""
FEW = 5
"""Of more sizes only the first, the drafted and the last are told apart."""
SAMPLE = 34.0
"""px: the length of a sample."""
LYING = 1.6
"""A piece so many times as wide as tall has its words below."""
BARS: Mapping[Unit, tuple[tuple[float, str], ...]] = {
    "mm": ((10.0, "10 mm"), (50.0, "50 mm"), (100.0, "100 mm"), (500.0, "500 mm")),
    "cm": ((10.0, "1 cm"), (50.0, "5 cm"), (100.0, "10 cm"), (500.0, "50 cm")),
    "in": ((25.4, "1 in"), (101.6, "4 in"), (508.0, "20 in")),
}
"""Lengths in mm and in words."""


def nest_pictures(nest: Nest) -> Sequence[Picture]:
    """One picture for every piece with a shape, in the pattern's order; none where the pattern has one size only."""
    if len(nest.sizes) < 2:
        return ()
    return [_picture(nest, piece) for piece in nest.pieces.values() if piece.has_shape]


def _picture(nest: Nest, graded: GradedPiece) -> Picture:
    sizes = np.flatnonzero(graded.present).tolist()
    moves = growth(nest, graded)
    frame = Frame(upright(nest, graded), 1.0)
    outlines = {size: frame.of(_outline(nest, graded, size)) for size in sizes}
    every = np.concatenate(list(outlines.values()))
    low = complex(every.real.min(), every.imag.min())
    extent = complex(every.real.max(), every.imag.max()) - low
    lying = extent.real > LYING * extent.imag
    scale = min((ROOM if lying else NARROW) / extent.real, TALLEST / extent.imag, px_a_mm(1.0))
    drawn = [
        ink.group(
            [ink.path(trail((outlines[size] - low) * scale, closed=True), _kind(nest, size, sizes))],
            data={"size": token(str(nest.sizes[size]))},
        )
        for size in sorted(sizes, key=lambda size: size == nest.base)[0 if moves else -1 :]
    ]
    wide, tall = extent.real * scale, extent.imag * scale
    heading = lines(short(graded.name), ROOM, 14.0, bold=True)
    marks = [ink.text(FRAME_SIDE, 18.0 * (k + 1), words, "head") for k, words in enumerate(heading)]
    top = 18.0 * len(heading) + 16.0
    marks.append(ink.moved(drawn, FRAME_SIDE + (0.0 if lying else (NARROW - wide) / 2), top))
    x, y = (FRAME_SIDE, top + tall + 20.0) if lying else (FRAME_SIDE + BESIDE, top + 8.0)
    told = _told(nest, moves)
    room = FRAME_SIDE + ROOM - x
    legend, y = _legend(nest, sizes if moves else (), x, y, room)
    text, y = _text(told, x, y, room)
    bar, y = _bar(nest.pattern.unit, scale, x, y, room)
    said = "; ".join(told[1:])
    return Picture(
        f"nest-{token(graded.id)}",
        ROOM + 2 * FRAME_SIDE,
        [Part(max(top + tall, y) + 10.0, "".join([*marks, *legend, *text, *bar]))],
        f"{short(graded.name, NAMED)} in all sizes, laid one on another",
        f"{short(graded.name, NAMED)} in {listed(short(str(nest.sizes[size])) for size in sizes)}. {told[0]}{' ' + said + '.' if said else ''}",
    )


def _outline(nest: Nest, graded: GradedPiece, size: int) -> Complexes:
    return flatten(nest.outline(graded.id, size), 4 * EXACT).points[:-1]


def _told(nest: Nest, moves: Sequence[str]) -> list[str]:
    """What grows: a heading, then each move."""
    if nest.pattern.sizes is not None and not nest.pattern.sizes.ordered:
        return ["Its sizes are not one run."]
    return ["Grows from size to size:", *moves] if moves else ["It is the same in all sizes."]


def _kind(nest: Nest, size: int, sizes: Sequence[int]) -> str:
    """The look of a size by where it stands to the drafted one."""
    if size == nest.base:
        return "size drafted"
    if len(sizes) > FEW and size not in (sizes[0], sizes[-1]):
        return "size between"
    if size < nest.base:
        return "size smaller" if size == nest.base - 1 or len(sizes) > FEW else "size smallest"
    return "size larger" if size == nest.base + 1 or len(sizes) > FEW else "size largest"


def _legend(nest: Nest, sizes: Sequence[int], x: float, y: float, room: float) -> tuple[list[str], float]:
    """The sizes that are told apart, and what the others are, in rows as wide as there is room; and the height below."""
    rows = {
        "the sizes between"
        if (kind := _kind(nest, size, sizes)) == "size between"
        else _named(nest, size): kind
        for size in sizes
    }
    marks: list[str] = []
    across = 0.0
    for words, kind in rows.items():
        far = SAMPLE + 7.0 + width(words, 12.0) + 14.0
        if across and across + far > room:
            across, y = 0.0, y + 17.0
        marks.append(ink.path(f"M{ink.n(x + across)} {ink.n(y)}h{ink.n(SAMPLE)}", kind))
        marks.append(ink.text(x + across + SAMPLE + 7.0, y + 4.0, words))
        across += far
    return marks, y + (25.0 if rows else 0.0)


def _named(nest: Nest, size: int) -> str:
    return short(str(nest.sizes[size])) + (" (drafted)" if size == nest.base else "")


def _text(told: Sequence[str], x: float, y: float, room: float) -> tuple[list[str], float]:
    marks = []
    for part in told:
        for words in lines(part, room):
            marks.append(ink.text(x, y + 4.0, words))
            y += 15.0
        y += 1.0
    return marks, y + 12.0


def _bar(unit: Unit, scale: float, x: float, y: float, room: float) -> tuple[list[str], float]:
    """A length to measure by, round in the person's unit."""
    bars = [(mm, said) for mm, said in BARS[unit] if mm * scale <= min(room, 110.0)]
    if not bars:
        return [], y
    mm, said = bars[-1]
    far = mm * scale
    marks = [
        ink.path(f"M{ink.n(x)} {ink.n(y - 6)}v6h{ink.n(far)}v-6", "tick"),
        ink.text(x + far + 6.0, y + 1.0, said, "muted"),
    ]
    return marks, y
