"""The pattern at a glance as a picture for each size, in parts that no end of a sheet of paper cuts: row by row, then the keys."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from notchwork.checks import Verdict
from notchwork.findings import listed
from notchwork.pictures import ink
from notchwork.pictures.glance.glance import Glance, Row, glances
from notchwork.pictures.glance.key import FRAME_SIDE, Marks, key_marks, legend_marks
from notchwork.pictures.glance.rows import DOWN, ROOM
from notchwork.pictures.glance.says import says
from notchwork.pictures.lettering import lines, short
from notchwork.pictures.picture import Part, Picture
from notchwork.pictures.tokens import token
from notchwork.sewing import Nest

LEADING = 15.0
"""px from one line of the introduction to the next."""


def glance_pictures(nest: Nest, verdict: Verdict) -> Mapping[str | None, Picture]:
    """The pattern at a glance, one picture for every size; by None where the pattern has one size only."""
    return {nest.sizes[laid.size]: _picture(nest, laid) for laid in glances(nest, verdict)}


def _picture(nest: Nest, laid: Glance) -> Picture:
    size = nest.sizes[laid.size]
    title = "The pattern at a glance" + (f", size {short(size)}" if size is not None else "")
    pieces = [made for made, _ in laid.pieces]
    return Picture(
        f"glance-{laid.size}",
        ROOM + 2 * FRAME_SIDE,
        list(_parts(nest, laid)),
        title,
        says(nest, laid.size, laid.look, pieces),
    )


def _parts(nest: Nest, laid: Glance) -> Iterator[Part]:
    """The introduction with the first row, the other rows, what lines mean, and the letters."""
    head, y = _head(nest, laid)
    first, *further = [_row(laid, row) for row in laid.rows] or [([], 0.0)]
    yield Part(y + first[1] + DOWN / 2, "".join(head) + ink.moved(first[0], FRAME_SIDE, y))
    keys = [legend_marks(nest, laid.look, [made for made, _ in laid.pieces]), *key_marks(laid.look)]
    for marks, tall in (*further, *keys):
        if tall:
            # Half a gap above too: marks that reach beyond their box would else be seen at the foot of the sheet before.
            yield Part(tall + DOWN, ink.moved(marks, FRAME_SIDE, DOWN / 2))


def _head(nest: Nest, laid: Glance) -> Marks:
    size = nest.sizes[laid.size]
    marks = [ink.text(FRAME_SIDE, 18, "The pattern at a glance", "head")]
    if size is not None:
        marks.append(ink.text(FRAME_SIDE + ROOM, 18, f"size {short(size)}", "muted end"))
    y = 36.0
    for words in lines(_introduction(nest, laid), ROOM):
        marks.append(ink.text(FRAME_SIDE, y, words))
        y += LEADING
    return marks, y


def _row(laid: Glance, row: Row) -> Marks:
    """The pieces of a row."""
    marks = [
        ink.moved(
            [ink.group(made.marks, data={"piece": token(made.piece)})], place.real, place.imag - row.top
        )
        for made, place in (laid.pieces[number] for number in row.numbers)
    ]
    return marks, row.bottom - row.top


def _introduction(nest: Nest, laid: Glance) -> str:
    strips = sum(nest.pieces[made.piece].is_strip for made, _ in laid.pieces)
    counted = [_counted(len(laid.pieces) - strips, "piece"), _counted(strips, "strip")]
    shown = " and ".join(words for words in counted if words) or "No piece has a shape"
    said = f"{shown}, drawn 1 : {laid.drawn:g}." if laid.pieces else f"{shown}."
    if nest.pattern.seams:
        said += " Same letter = sewn together. Filled letter = does not fit."
    absent = [piece for piece in nest.pieces.values() if piece.has_shape and not piece.present[laid.size]]
    for words, told in (
        ("Known by lengths only and not drawn", [p for p in nest.pieces.values() if not p.has_shape]),
        ("Not in this size", absent),
    ):
        if told:
            said += f" {words}: {listed(short(piece.name) for piece in told)}."
    return said


def _counted(number: int, word: str) -> str:
    return "" if not number else f"1 {word}" if number == 1 else f"{number} {word}s"
