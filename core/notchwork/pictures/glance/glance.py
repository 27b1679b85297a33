"""All pieces of a pattern at one scale, one picture for each size; every piece keeps its place from size to size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.checks import Names, Verdict
from notchwork.findings import listed
from notchwork.pictures import ink
from notchwork.pictures.glance.drawn import Drawn, Look
from notchwork.pictures.glance.frame import Frame, px_a_mm, upright
from notchwork.pictures.glance.key import FRAME_SIDE, key_marks, legend_marks
from notchwork.pictures.glance.off import by_piece, filled, off_parts
from notchwork.pictures.glance.piece import drawn_piece
from notchwork.pictures.glance.rings import stretches_by_piece
from notchwork.pictures.glance.rows import ACROSS, DOWN, ROOM, rows, scale_for
from notchwork.pictures.glance.says import says
from notchwork.pictures.glance.tear import Extent, extent_of
from notchwork.pictures.glance.told import told_by_piece
from notchwork.pictures.lettering import lines, short
from notchwork.pictures.picture import Picture
from notchwork.pictures.tokens import token
from notchwork.sewing import Nest
from notchwork.sewing.letters import letters
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
        places, height = _laid(pieces, boxes)
        yield Glance(size, drawn, look, list(zip(pieces, places, strict=True)), height)


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
) -> tuple[list[complex], float]:
    """The places of the pieces' origins in rows whose pieces stand on a common line, and the height of all rows."""
    mine = [boxes[made.piece] for made in pieces]
    places: list[complex] = []
    y = 0.0
    for row in rows([high - low for low, high, _ in mine]):
        stand, x = y + max(mine[k][2] - mine[k][0].imag for k in row), 0.0
        for k in row:
            low, high, foot = mine[k]
            places.append(complex(x - low.real, stand - foot))
            x += (high - low).real + ACROSS
        y = stand + max(mine[k][1].imag - mine[k][2] for k in row) + DOWN
    return places, max(y - DOWN, 0.0)


def _picture(nest: Nest, laid: Glance) -> Picture:
    size = nest.sizes[laid.size]
    marks = [ink.text(FRAME_SIDE, 18, "The pattern at a glance", "head")]
    if size is not None:
        marks.append(ink.text(FRAME_SIDE + ROOM, 18, f"size {short(size)}", "muted end"))
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
        key_marks(laid.look),
    ):
        block, tall = part
        marks.append(ink.moved(block, FRAME_SIDE, y))
        y += tall
    title = "The pattern at a glance" + (f", size {short(size)}" if size is not None else "")
    return Picture(
        f"glance-{laid.size}",
        ROOM + 2 * FRAME_SIDE,
        y + 4.0,
        "".join(marks),
        title,
        says(nest, laid.size, laid.look, [made for made, _ in laid.pieces]),
    )


def _introduction(nest: Nest, laid: Glance) -> str:
    strips = sum(nest.pieces[made.piece].is_strip for made, _ in laid.pieces)
    counted = [_counted(len(laid.pieces) - strips, "piece"), _counted(strips, "strip")]
    shown = " and ".join(words for words in counted if words) or "No piece has a shape"
    said = f"{shown}, drawn 1 : {laid.drawn:g}." if laid.pieces else f"{shown}."
    if nest.pattern.seams:
        said += " Same letter = sewn together. Filled letter = does not fit."
    for words, names in (
        ("Known by lengths only and not drawn", [p.name for p in nest.pieces.values() if not p.has_shape]),
        (
            "Not in this size",
            [p.name for p in nest.pieces.values() if p.has_shape and not p.present[laid.size]],
        ),
    ):
        if names:
            said += f" {words}: {listed(map(short, names))}."
    return said


def _counted(number: int, word: str) -> str:
    return "" if not number else f"1 {word}" if number == 1 else f"{number} {word}s"
