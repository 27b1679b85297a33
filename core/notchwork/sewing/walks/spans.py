"""Spans laid out: the part of a line that a seam walks, its direction, and the corners where it begins and ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from notchwork.model import Place, Span
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.lines import SAME_SPOT, Floats, Line
from notchwork.sewing.pieces.places import try_position

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest


class Spot(NamedTuple):
    """One place on one copy of a piece, comparable: a corner by name, any other place by line and tenth of a mm.

    ``mirrored`` tells the mirrored copy (or half, on a fold) from the other.
    """

    piece: str
    line: str
    tenth: int | None
    mirrored: bool

    def turned(self) -> Spot:
        """The same place on the copy of the other hand."""
        return self._replace(mirrored=not self.mirrored)


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """One span as it is walked once: arc positions (mm, sizes) where it starts and stops, and its sewn length.

    ``forward``: in the line's own order. ``copy`` counts the walks of a span with ``times``. ``cloth`` says where the
    piece's cloth lies for the walker: +1 left, -1 right, 0 on both sides or not known. The spots are those of its ends.
    """

    span: Span
    graded: GradedPiece
    line: Line
    start: Floats
    stop: Floats
    forward: bool
    copy: int
    cloth: int
    start_spot: Spot
    stop_spot: Spot

    @property
    def length(self) -> Floats:
        return self.sewn_from_start(self.stop, at_stop=True)

    def sewn_from_start(self, position: Floats, at_stop: bool = False) -> Floats:
        """The sewn distance (mm, sizes) walked from the start to an arc position on the line."""
        line = self.line
        first, last = (self.start, position) if self.forward else (position, self.start)
        walked = line.sewn(last) - line.sewn(first)
        if not line.closed:
            return walked
        whole = line.sewn_length
        wraps = walked <= SAME_SPOT if at_stop else walked < -SAME_SPOT
        return np.where(wraps, walked + whole, walked)

    def arc_at(self, walked: float, size: int) -> float:
        """The arc position (mm) on the line after a sewn distance from the start, in one size."""
        line = self.line
        length = float(line.length[size])
        knots = np.array(
            sorted({0.0, length, *(float(end[size]) for i in line.intakes for end in (i.low, i.high))})
        )
        sewn = np.array([float(line.sewn(np.full_like(line.length, knot))[size]) for knot in knots])
        start = float(line.sewn(self.start)[size])
        along = start + walked if self.forward else start - walked
        if line.closed:
            along %= float(line.sewn_length[size])
        return float(np.interp(along, sewn, knots))

    def covers(self, position: Floats) -> bool:
        """Whether an arc position lies on the stretch (ends included) in every size where it exists."""
        walked = self.sewn_from_start(position)
        inside = (walked > -SAME_SPOT) & (walked < self.length + SAME_SPOT)
        known = np.isfinite(walked)
        return bool(np.any(known)) and bool(np.all(inside[known]))

    def spot(self, position: Floats) -> Spot:
        """The place on this copy at an arc position."""
        return spot_on(self.line, position, self.span.mirrored)


def stretches_of(nest: Nest, span: Span) -> Iterator[Stretch]:
    """A span as walked, ``times`` over. Raises NoSuchPlace where it names a place that is not on its line."""
    graded = nest.pieces[span.piece]
    line = graded.lines[span.line]
    start, stop, forward = _ends(nest, graded, line, span)
    cloth = _cloth(nest, graded, line) * (1 if forward else -1)
    ends = (spot_on(line, start, span.mirrored), spot_on(line, stop, span.mirrored))
    for copy in range(span.times):
        yield Stretch(span, graded, line, start, stop, forward, copy, cloth, *ends)


def spot_on(line: Line, position: Floats, mirrored: bool) -> Spot:
    """The place at an arc position of a line, on the copy as drawn or the mirrored one."""
    corner = line.corner_at(position)
    if corner is not None:
        return Spot(line.piece, corner, None, mirrored)
    finite = position[np.isfinite(position)]
    tenth = round(float(finite[0]) * 10 + 1e-3) if len(finite) else 0
    return Spot(line.piece, line.name, tenth, mirrored)


def _ends(nest: Nest, graded: GradedPiece, line: Line, span: Span) -> tuple[Floats, Floats, bool]:
    zero = np.where(np.isfinite(line.length), 0.0, np.nan)
    if span.start is None:
        start = zero
        stop = _at(nest, graded, line, span.stop) if span.stop is not None else line.length
        return start, stop, span.way != "back"
    start = _at(nest, graded, line, span.start)
    if line.closed:
        stop = _at(nest, graded, line, span.stop) if span.stop is not None else start
        return start, stop, span.way != "back"
    if span.stop is not None:
        stop = _at(nest, graded, line, span.stop)
    else:
        stop = line.length if bool(np.nansum(start) <= np.nansum(line.length - start)) else zero
    return start, stop, bool(np.nansum(stop - start) >= 0)


def _at(nest: Nest, graded: GradedPiece, line: Line, place: Place) -> Floats:
    return try_position(graded, line, place, nest.misplaced)


def _cloth(nest: Nest, graded: GradedPiece, line: Line) -> int:
    """+1 where the cloth lies left of someone who walks the line in its own order."""
    if line.kind == "edge":
        return graded.sense
    if line.kind == "cutout":
        return -nest.sense_of(line)
    return 0
