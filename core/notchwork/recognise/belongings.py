"""What lies on which piece: strokes, points and texts in it, else beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from notchwork.drawing import Dot, Text
from notchwork.geometry import to_chords
from notchwork.recognise.areas import Area
from notchwork.recognise.placed import Line, boxes_apart
from notchwork.recognise.shape import Complexes
from notchwork.recognise.widths import samples

BESIDE = 5.0
"""So many heights of type, or NEAR mm if that is more, words stand from the piece they belong to at most."""
NEAR = 40.0
TOUCHING = 6.0
"""mm that a stroke outside a piece may lie from its outline to belong to it: a notch cut into the allowance."""


@dataclass(slots=True, eq=False)
class Belongings:
    """What belongs to one piece."""

    lines: list[Line] = field(default_factory=list)
    dots: list[Dot] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)


@dataclass(frozen=True, eq=False)
class Shared:
    """What belongs to each piece, in their order, and what to none."""

    each: tuple[Belongings, ...]
    lines: tuple[Line, ...]
    texts: tuple[Text, ...]
    dots: tuple[Dot, ...]


def share_out(
    pieces: Sequence[Area], lines: Sequence[Line], dots: Sequence[Dot], texts: Sequence[Text]
) -> Shared:
    """Give everything to the smallest piece that it is in, else to the nearest one if that is near."""
    each = tuple(Belongings() for _ in pieces)
    free_lines, free_dots, free_texts = [], [], []
    for line in lines:
        k = _of_line(pieces, line)
        each[k].lines.append(line) if k is not None else free_lines.append(line)
    for dot in dots:
        k = _around(pieces, np.array([dot.at]), TOUCHING)
        each[k].dots.append(dot) if k is not None else free_dots.append(dot)
    for text in texts:
        corners = np.array(text.box)
        middle = np.array([corners.mean()])
        k = _inside(pieces, middle)
        if k is None:
            k = _nearest(pieces, np.append(corners, middle), max(BESIDE * text.height, NEAR))
        each[k].texts.append(text) if k is not None else free_texts.append(text)
    return Shared(each, tuple(free_lines), tuple(free_texts), tuple(free_dots))


def _of_line(pieces: Sequence[Area], line: Line) -> int | None:
    z = np.concatenate([samples(line.cubics), [line.start, line.end]])
    return _around(pieces, z, TOUCHING)


def _around(pieces: Sequence[Area], z: Complexes, reach: float) -> int | None:
    inside = _inside(pieces, z)
    return inside if inside is not None else _nearest(pieces, z, reach)


def _inside(pieces: Sequence[Area], z: Complexes) -> int | None:
    """The smallest piece in which at least half of some points lie."""
    box = _box(z)
    best: int | None = None
    for k, piece in enumerate(pieces):
        if best is not None and piece.size >= pieces[best].size:
            continue
        if boxes_apart(piece.box, box) == 0.0 and 2 * int(piece.holds(z).sum()) >= len(z):
            best = k
    return best


def _nearest(pieces: Sequence[Area], z: Complexes, reach: float) -> int | None:
    box = _box(z)
    best: tuple[float, int] | None = None
    for k, piece in enumerate(pieces):
        if boxes_apart(piece.box, box) > reach:
            continue
        ring = piece.polyline
        far = float(to_chords(z, ring, np.roll(ring, -1)).min())
        if far <= reach and (best is None or far < best[0]):
            best = (far, k)
    return None if best is None else best[1]


def _box(z: Complexes) -> tuple[complex, complex]:
    return complex(z.real.min(), z.imag.min()), complex(z.real.max(), z.imag.max())
