"""All pieces of a pattern at one scale, laid out in every size; every piece keeps its place from size to size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.checks import Names, Verdict
from notchwork.pictures.glance.drawn import Drawn, Look
from notchwork.pictures.glance.frame import Frame, px_a_mm, upright
from notchwork.pictures.glance.off import by_piece, filled, off_parts
from notchwork.pictures.glance.piece import drawn_piece
from notchwork.pictures.glance.rings import stretches_by_piece
from notchwork.pictures.glance.rows import ACROSS, DOWN, rows, scale_for
from notchwork.pictures.glance.tear import Extent, extent_of
from notchwork.pictures.glance.told import told_by_piece
from notchwork.sewing import Nest
from notchwork.sewing.letters import letters
from notchwork.sewing.shapes.cutlines import cut_lines

TEXTURES = ("", "upright", "dots", "crossed")
"""Of the allowance, by material in the pattern's order; further ones have none, and their names."""


@dataclass(frozen=True, slots=True)
class Row:
    """Pieces that stand side by side: their numbers, and from where to where (px, downward) the row reaches."""

    numbers: Sequence[int]
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Glance:
    """A pattern in one size as it is drawn: the pieces with their places (px), what they are drawn with, and the scale 1 : N."""

    size: int
    drawn: float
    look: Look
    pieces: Sequence[tuple[Drawn, complex]]
    rows: Sequence[Row]

    @property
    def height(self) -> float:
        """How far down (px) the last row reaches."""
        return self.rows[-1].bottom if self.rows else 0.0


def glances(nest: Nest, verdict: Verdict) -> Iterator[Glance]:
    """The pattern laid out in every size."""
    shown = [piece for piece in nest.pieces.values() if piece.has_shape]
    turns = {piece.id: upright(nest, piece) for piece in shown}
    extents = {
        piece.id: {
            size: extent_of(nest, piece, size, turns[piece.id])
            for size in np.flatnonzero(piece.present).tolist()
        }
        for piece in shown
    }
    drawn = scale_for(lambda drawn: [_largest(found.values(), drawn) for found in extents.values()])
    scale = px_a_mm(drawn)
    cuts = cut_lines(nest, [piece.id for piece in shown])
    textures = dict(zip(nest.pattern.materials, TEXTURES, strict=False))
    names, sewn = Names(nest.pattern), stretches_by_piece(nest)
    lettered = letters(nest.pattern)
    found: dict[int, tuple[Look, list[Drawn]]] = {}
    for size, name in enumerate(nest.sizes):
        off = by_piece(off_parts(nest, verdict, size))
        told = told_by_piece(verdict, names, name, off)
        look = Look(names, lettered, filled(verdict, name), off, textures, sewn, told)
        frames = {
            piece.id: Frame(turns[piece.id], scale, extents[piece.id][size].torn(scale))
            for piece in shown
            if piece.present[size]
        }
        pieces = [
            drawn_piece(nest, nest.pieces[ident], size, frame, cuts.get((ident, size)), look)
            for ident, frame in frames.items()
        ]
        found[size] = (look, pieces)
    boxes = _boxes_in_all_sizes(made for _, pieces in found.values() for made in pieces)
    for size, (look, pieces) in found.items():
        places, in_rows = _laid(pieces, boxes)
        yield Glance(size, drawn, look, list(zip(pieces, places, strict=True)), in_rows)


def _largest(extents: Iterable[Extent], drawn: float) -> complex:
    """The width and height (px) that a piece needs in all sizes at a scale 1 : ``drawn``."""
    boxes = [extent.drawn(px_a_mm(drawn)) for extent in extents]
    return complex(max(box.real for box in boxes), max(box.imag for box in boxes))


def _boxes_in_all_sizes(pieces: Iterator[Drawn]) -> Mapping[str, tuple[complex, complex, float]]:
    """The corners of the box about each piece in all sizes, and how far down the piece itself goes."""
    found: dict[str, tuple[complex, complex, float]] = {}
    for made in pieces:
        low, high, foot = found.get(made.piece, (made.low, made.high, made.foot))
        found[made.piece] = (
            complex(min(low.real, made.low.real), min(low.imag, made.low.imag)),
            complex(max(high.real, made.high.real), max(high.imag, made.high.imag)),
            max(foot, made.foot),
        )
    return found


def _laid(
    pieces: Sequence[Drawn], boxes: Mapping[str, tuple[complex, complex, float]]
) -> tuple[list[complex], list[Row]]:
    """The places of the pieces' origins, and the rows, whose pieces stand on a common line."""
    mine = [boxes[made.piece] for made in pieces]
    places: list[complex] = []
    found: list[Row] = []
    y = 0.0
    for row in rows([high - low for low, high, _ in mine]):
        stand, x = y + max(mine[k][2] - mine[k][0].imag for k in row), 0.0
        for k in row:
            low, high, foot = mine[k]
            places.append(complex(x - low.real, stand - foot))
            x += (high - low).real + ACROSS
        bottom = stand + max(mine[k][1].imag - mine[k][2] for k in row)
        found.append(Row(row, y, bottom))
        y = bottom + DOWN
    return places, found
