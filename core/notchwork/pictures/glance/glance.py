"""All pieces of a pattern at one scale, one picture for each size; every piece keeps its place from size to size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.checks import Names, Verdict
from notchwork.pictures import ink
from notchwork.pictures.glance.drawn import Drawn, Look
from notchwork.pictures.glance.frame import Frame, px_a_mm, upright
from notchwork.pictures.glance.key import FRAME_SIDE, key_marks, legend_marks
from notchwork.pictures.glance.off import by_piece, filled, off_parts
from notchwork.pictures.glance.piece import drawn_piece
from notchwork.pictures.glance.rings import stretches_by_piece
from notchwork.pictures.glance.rows import ACROSS, DOWN, ROOM, rows, scale_for
from notchwork.pictures.glance.says import says
from notchwork.pictures.glance.tear import torn
from notchwork.pictures.lettering import lines
from notchwork.pictures.letters import letters
from notchwork.pictures.picture import Picture
from notchwork.pictures.tokens import token
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.shapes.cutlines import cut_lines

TEXTURES = ("", "upright", "dots", "crossed")
"""Of the allowance, by material in the pattern's order; further ones have none, and their names."""


@dataclass(frozen=True, slots=True)
class Glance:
    """A pattern in one size as it is drawn: the pieces with their places (px), what they are drawn with, and the scale 1 : N."""

    size: int
    drawn: float
    look: Look
    pieces: Sequence[tuple[Drawn, complex]]
    height: float


def glance_pictures(nest: Nest, verdict: Verdict) -> Mapping[str | None, Picture]:
    """The pattern at a glance, one picture for every size; by None where the pattern has one size only."""
    return {nest.sizes[laid.size]: _picture(nest, laid) for laid in glances(nest, verdict)}


def glances(nest: Nest, verdict: Verdict) -> Iterator[Glance]:
    """The pattern laid out in every size."""
    shown = [piece for piece in nest.pieces.values() if piece.has_shape]
    drawn = scale_for(lambda drawn: _boxes(nest, shown, drawn))
    cuts = cut_lines(nest, [piece.id for piece in shown])
    textures = dict(zip(nest.pattern.materials, TEXTURES, strict=False))
    names, sewn = Names(nest.pattern), stretches_by_piece(nest)
    found: dict[int, tuple[Look, list[Drawn]]] = {}
    for size, name in enumerate(nest.sizes):
        off = by_piece(off_parts(nest, verdict, size))
        look = Look(names, letters(nest.pattern), filled(verdict, name), off, textures, sewn)
        there = [(piece, _frame(nest, piece, size, drawn)) for piece in shown if piece.present[size]]
        pieces = [
            drawn_piece(nest, piece, size, frame, cuts.get((piece.id, size)), look) for piece, frame in there
        ]
        found[size] = (look, pieces)
    low, high = _reach(made for _, pieces in found.values() for made in pieces)
    for size, (look, pieces) in found.items():
        places, height = _laid(pieces, low, high)
        yield Glance(size, drawn, look, list(zip(pieces, places, strict=True)), height)


def _boxes(nest: Nest, pieces: Sequence[GradedPiece], drawn: float) -> list[complex]:
    """The extents (px) of pieces at a scale 1 : ``drawn``, the largest of all sizes."""
    found = []
    for piece in pieces:
        wide = tall = 0.0
        for size in np.flatnonzero(piece.present).tolist():
            frame = _frame(nest, piece, size, drawn)
            at = frame.of(nest.outline(piece.id, size))
            wide, tall = max(wide, float(np.ptp(at.real))), max(tall, float(np.ptp(at.imag)))
        found.append(complex(wide, tall))
    return found


def _frame(nest: Nest, piece: GradedPiece, size: int, drawn: float) -> Frame:
    turn, scale = upright(nest, piece), px_a_mm(drawn)
    return Frame(turn, scale, torn(nest, piece, size, turn, scale))


def _reach(pieces: Iterator[Drawn]) -> tuple[Mapping[str, complex], Mapping[str, complex]]:
    """The corners of the box about each piece in all sizes."""
    low: dict[str, complex] = {}
    high: dict[str, complex] = {}
    for made in pieces:
        a, b = low.get(made.piece, made.low), high.get(made.piece, made.high)
        low[made.piece] = complex(min(a.real, made.low.real), min(a.imag, made.low.imag))
        high[made.piece] = complex(max(b.real, made.high.real), max(b.imag, made.high.imag))
    return low, high


def _laid(
    pieces: Sequence[Drawn], low: Mapping[str, complex], high: Mapping[str, complex]
) -> tuple[list[complex], float]:
    """The places of the pieces' origins in rows that stand on a common line, and the height of all rows."""
    boxes = [high[made.piece] - low[made.piece] for made in pieces]
    places: list[complex] = []
    y = 0.0
    for row in rows(boxes):
        foot, x = y + max(boxes[k].imag for k in row), 0.0
        for k in row:
            places.append(complex(x, foot) - complex(low[pieces[k].piece].real, high[pieces[k].piece].imag))
            x += boxes[k].real + ACROSS
        y = foot + DOWN
    return places, max(y - DOWN, 0.0)


def _picture(nest: Nest, laid: Glance) -> Picture:
    size = nest.sizes[laid.size]
    marks = [ink.text(FRAME_SIDE, 18, "The pattern at a glance", "head")]
    if size is not None:
        marks.append(ink.text(FRAME_SIDE + ROOM, 18, f"size {size}", "muted end"))
    y = 36.0
    for words in lines(_introduction(nest, laid), ROOM):
        marks.append(ink.text(FRAME_SIDE, y, words))
        y += 15.0
    for made, place in laid.pieces:
        marks.append(
            ink.moved(
                [ink.group(made.marks, data={"piece": token(made.piece)})],
                FRAME_SIDE + place.real,
                y + place.imag,
            )
        )
    y += laid.height + 20.0
    for part in (
        legend_marks(nest, laid.look, [made for made, _ in laid.pieces]),
        key_marks(nest, laid.look),
    ):
        block, tall = part
        marks.append(ink.moved(block, FRAME_SIDE, y))
        y += tall
    title = "The pattern at a glance" + (f", size {size}" if size is not None else "")
    return Picture(
        f"glance-{laid.size}",
        ROOM + 2 * FRAME_SIDE,
        y + 4.0,
        "".join(marks),
        title,
        says(nest, laid.size, laid.look),
    )


def _introduction(nest: Nest, laid: Glance) -> str:
    strips = sum(nest.pieces[made.piece].is_strip for made, _ in laid.pieces)
    counted = [_counted(len(laid.pieces) - strips, "piece"), _counted(strips, "strip")]
    shown = " and ".join(words for words in counted if words) or "No piece has a shape"
    said = f"{shown}, drawn 1 : {laid.drawn:g}." if laid.pieces else f"{shown}."
    if nest.pattern.seams:
        said += " Same letter = sewn together. Filled letter = does not fit."
    return said


def _counted(number: int, word: str) -> str:
    return "" if not number else f"1 {word}" if number == 1 else f"{number} {word}s"
