"""What is written on a piece, and where it finds room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.places import inner_base, place_on, places_on, reading_angle
from notchwork.draw.plate import BEADS, Plate, beads_of
from notchwork.draw.words import shortened
from notchwork.drawing import ADVANCE, Facts, Stroke, Text
from notchwork.findings import plain_name
from notchwork.geometry import bounds
from notchwork.sewing import GradedPiece, Line, Nest
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.shapes.inside import winding

Complexes = NDArray[np.complex128]

NAME, NOTE, EDGE, SIZE = 9.0, 5.5, 4.0, 5.0
"""Heights of type in mm."""
ABOVE = 4.0
"""mm above all lines at which words stand that found no room inside."""
SHARES = (0.5, 1 / 3, 2 / 3, 0.25, 0.75, 0.15, 0.85)
"""Where along an edge its name may stand, the best first."""
LEVEL = 10.0
"""mm to either side that a line of words is laid level with."""
LEADING = 1.35
MIDDLE = np.array([0.125, 0.375, 0.375, 0.125])
"""What each control point adds to the point halfway along a cubic's parameter."""
GRID = 15
"""Places tried across a piece either way."""
SCALES = (1.0, 0.75, 0.5)


def piece_texts(
    nest: Nest,
    graded: GradedPiece,
    sizes: Sequence[int],
    strokes: Sequence[Stroke],
    said: Sequence[tuple[str, Facts]],
    plate: Plate,
) -> tuple[Text, ...]:
    """The name of a piece and what is ``said`` below it: where there is most room between strokes and other words, else above it.

    Room is sought inside the stitch line of the first of the sizes.
    """
    said = [(shortened(words), facts) for words, facts in ((graded.name, {}), *said)]
    outline = nest.outline(graded.id, sizes[0])
    # Cut lines lie outside the stitch line, but for those of cut-outs.
    inside = [s.cubics for s in strokes if s.meaning != "cut" or "kind" in s.facts]
    room = _Room(outline, np.concatenate([beads_of(np.concatenate([outline, *inside])), plate.written]))
    for scale in SCALES:
        heights = [scale * NAME, *[scale * NOTE] * (len(said) - 1)]
        at = room.middle_of(*_extent(said, heights))
        if at is not None:
            return _block(said, heights, at, middle=True)
    low, high = bounds(np.concatenate([s.cubics for s in strokes]))
    heights = [0.75 * NAME, *[0.75 * NOTE] * (len(said) - 1)]
    _, tall = _extent(said, heights)
    return _block(said, heights, complex(low.real, high.imag + ABOVE + tall / 2), middle=False)


def edge_texts(nest: Nest, graded: GradedPiece, size: int, plate: Plate) -> Iterator[Text]:
    """The name of every edge along it, inside the piece, where the edge is long enough; clear of what the plate holds."""
    for edge in graded.edges:
        line = graded.lines[edge]
        words, length = plain_name(edge), float(line.length[size])
        if edge not in graded.folds and ADVANCE * EDGE * len(words) <= 0.7 * length:
            yield plate.best(_along(nest, graded, line, words, size))


def _along(nest: Nest, graded: GradedPiece, line: Line, words: str, size: int) -> Iterator[Text]:
    arcs = [share * float(line.length[size]) for share in SHARES]
    for at, outward in zip(*places_on(nest, graded, line, arcs, size, LEVEL), strict=True):
        base = inner_base(complex(at), complex(outward), EDGE, 1.2)
        yield Text(base, words, EDGE, "edge-name", "middle", reading_angle(outward), {"edge": line.name})


def size_texts(nest: Nest, graded: GradedPiece, sizes: Sequence[int]) -> Iterator[Text]:
    """The name of each size on its own cut line, along the edge where the sizes lie furthest apart."""
    if len(sizes) < 2:
        return

    def middle(edge: str, size: int) -> complex:
        drawn = nest.cubics_of(graded.lines[edge], size)
        return complex(drawn[len(drawn) // 2] @ MIDDLE)

    spread = {
        edge: abs(middle(edge, sizes[0]) - middle(edge, sizes[-1]))
        for edge in graded.edges
        if edge not in graded.folds
    }
    if not spread or max(spread.values()) < 0.5:
        return
    edge = max(spread, key=lambda name: spread[name])
    line = graded.lines[edge]
    for k, size in enumerate(sizes):
        share = 0.45 + 0.4 * (k + 0.5) / len(sizes)
        at, outward = place_on(nest, graded, line, share * float(line.length[size]), size, LEVEL)
        at += float(allowance(graded, edge)[size]) * outward
        angle = reading_angle(outward)
        down = -0.35 * SIZE * 1j * np.exp(1j * np.radians(angle))
        name = str(nest.sizes[size])
        words = shortened(name)
        yield Text(
            complex(at + down), words, SIZE, "size-name", "middle", angle, {"edge": edge, "size": name}
        )


def _extent(said: Sequence[tuple[str, Facts]], heights: Sequence[float]) -> tuple[float, float]:
    wide = max(ADVANCE * h * len(words) for (words, _), h in zip(said, heights, strict=True))
    return wide, sum(LEADING * h for h in heights)


class _Room:
    """Places over a piece, those on its cloth, and how far each is from what is drawn."""

    def __init__(self, outline: Complexes, taken: Complexes) -> None:
        low, high = bounds(outline)
        x = np.linspace(low.real, high.real, GRID + 2)[1:-1]
        y = np.linspace(low.imag, high.imag, GRID + 2)[1:-1]
        middle = (x[None, :] + 1j * y[:, None]).ravel()
        self._middle = middle[winding([outline], middle) > 0.5]
        self._across = np.abs(taken.real - self._middle.real[:, None])
        self._up = np.abs(taken.imag - self._middle.imag[:, None])

    def middle_of(self, wide: float, tall: float) -> complex | None:
        """The middle of the place for a box that is furthest from what is drawn; None if there is none."""
        if not len(self._middle):
            return None
        free = np.maximum(self._across - wide / 2, self._up - tall / 2).min(axis=1)
        best = int(np.argmax(free))
        return complex(self._middle[best]) if free[best] > BEADS / 2 else None


def _block(
    said: Sequence[tuple[str, Facts]], heights: Sequence[float], at: complex, middle: bool
) -> tuple[Text, ...]:
    wide, tall = _extent(said, heights)
    left = at.real - wide / 2 if middle else at.real
    base, texts = at.imag + tall / 2, []
    for k, ((words, facts), height) in enumerate(zip(said, heights, strict=True)):
        base -= LEADING * height
        where = complex(left, base + 0.3 * height)
        texts.append(Text(where, words, height, "name" if k == 0 else "note", facts=facts))
    return tuple(texts)
