"""A notch, dart, pleat, seam end or mark lies where the piece has no place for it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from notchwork.checks import check
from notchwork.findings import Finding, Length, Place, Row, Rule, Tolerance, plain_name
from notchwork.model import Span, in_size
from notchwork.sewing import GradedPiece, Misplaced, Nest
from notchwork.sewing.shapes.inside import outside_by
from notchwork.sewing.shapes.unfold import unfolded
from notchwork.sewing.ways.meeting import opening_stretches

OFF = Rule(
    id="pieces/off-its-edge",
    title="A notch, mark or dart lies off its edge",
    rationale="A place given as so far along an edge must lie on it. One that lies beyond the end, in the base size or in a "
    "size that was graded shorter, cannot be marked, and whatever should meet there does not.",
    source="Common practice, no source. Marks in the allowance, outside the stitch line, are usual and are not spoken of.",
    grade=Tolerance(error=0.5),
)

BEYOND = "{thing} lies {off} beyond the end of its {edge} ({asked} along an edge that is {length} long)."
BEYOND_HINT = "Move it on to the {edge}: give a distance of at most {length}, or one for each size."
BEFORE = "{thing} lies {off} off its {edge}, before its corner with the {corner}."
BEFORE_HINT = "From a corner, distances run into the edge: give one that is not below 0."
MOVE_HINT = "Move it on to the {edge}."
MARK = "{thing} lies {off} outside the piece, beyond its allowance."
MARK_HINT = "Move it on to the piece, or on to the piece it belongs to."


@check(OFF)
def off_its_edge(nest: Nest) -> Iterator[Finding]:
    yield from _beyond_edges(nest)
    for graded in nest.pieces.values():
        if graded.has_shape and graded.marks:
            yield from _marks(nest, graded)


def _beyond_edges(nest: Nest) -> Iterator[Finding]:
    _ = nest.notches, nest.walks, list(opening_stretches(nest))  # whatever names a place has been looked up
    told = set()
    for misplaced in nest.misplaced:
        place, thing = _whose(nest, misplaced)
        if (place, thing) in told:
            continue
        told.add((place, thing))
        line = misplaced.line
        rows = tuple(
            Row(
                size,
                float(by),
                float(length + by),
                float(length),
                {"length": Length(float(length)), "asked": Length(float(length + by))},
            )
            for size, by, length in zip(nest.sizes, misplaced.beyond, line.length, strict=True)
            if length == length
        )
        values: dict[str, object] = {"thing": thing, "edge": plain_name(line.name)}
        text, hint = BEYOND, BEYOND_HINT
        if corner := _before(nest, misplaced):
            text, hint = BEFORE, BEFORE_HINT if corner == misplaced.place.name else MOVE_HINT
            values["corner"] = plain_name(corner)
        yield Finding(OFF, place, text, hint, values, rows, (line.piece,))


def _before(nest: Nest, misplaced: Misplaced) -> str | None:
    """The neighbour at whose corner a place lies off its line, because it is reckoned away from the line; else None."""
    line, place = misplaced.line, misplaced.place
    stated = place.offset if place.offset is not None else place.percent
    if stated is None or max(in_size(stated, size) for size in nest.sizes) >= 0:
        return None
    return place.name if place.name in (line.before, line.after) else line.before or None


def _whose(nest: Nest, misplaced: Misplaced) -> tuple[Place, str]:
    """Who named the place, for the finding and in words."""
    line, at = misplaced.line, misplaced.place
    written = nest.pieces[line.piece].written
    for name, notch in written.notches.items():
        if notch is not None and notch.edge == line.name and notch.at == at:
            return Place(piece=line.piece, line=line.name, notch=name), f"The notch “{plain_name(name)}”"
    for name, dart in written.darts.items():
        if dart is not None and dart.edge == line.name and dart.feet is not None and at in dart.feet:
            return Place(
                piece=line.piece, line=line.name, dart=name
            ), f"A foot of the dart “{plain_name(name)}”"
    for name, pleat in written.pleats.items():
        if pleat is not None and pleat.edge == line.name and at in pleat.folds:
            return Place(
                piece=line.piece, line=line.name, pleat=name
            ), f"A fold of the pleat “{plain_name(name)}”"

    def states(span: Span) -> bool:
        return (span.piece, span.line) == line.key and at in (span.start, span.stop)

    for ident, seam in nest.pattern.seams.items():
        if any(states(span) for side in seam.sides for span in side.spans):
            return Place(seam=ident, piece=line.piece, line=line.name), "Its end"
    for ident, opening in nest.pattern.openings.items():
        if any(states(span) for spans in opening.sections or opening.lips or () for span in spans):
            return Place(opening=ident, piece=line.piece, line=line.name), "Its end"
    return Place(piece=line.piece, line=line.name), f"The place “{plain_name(at.name)}”"


def _marks(nest: Nest, graded: GradedPiece) -> Iterator[Finding]:
    names = list(graded.marks)
    off = np.zeros((len(nest.sizes), len(names)))
    for size, name in enumerate(nest.sizes):
        if graded.present[size]:
            whole = unfolded(nest, graded, size).outline()
            at = np.array([graded.marks[mark][size] for mark in names])
            off[size] = outside_by(whole, at) - _widest_allowance(graded, name)
    for k in np.flatnonzero((off > 0).any(axis=0)):
        place = Place(piece=graded.id, mark=names[k], point=complex(graded.marks[names[k]][nest.base]))
        rows = tuple(Row(size, max(float(by), 0.0)) for size, by in zip(nest.sizes, off[:, k], strict=True))
        thing = f"The mark “{plain_name(names[k])}”"
        yield Finding(OFF, place, MARK, MARK_HINT, {"thing": thing}, rows, (graded.id,))


def _widest_allowance(graded: GradedPiece, size: str | None) -> float:
    written = graded.written
    stated = [written.allowance, *(edge.allowance for edge in written.edges.values() if edge is not None)]
    return max((in_size(value, size) for value in stated if value is not None), default=0.0)
