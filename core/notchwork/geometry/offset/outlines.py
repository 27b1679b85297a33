"""The cut line: an outline moved outward, each edge by its own allowance.

What this keeps. A point of the cut line that belongs to an edge lies at that edge's allowance from it. Between the two
perpendiculars raised at an outer corner lies the corner's construction, at most three times the larger allowance away.
No point of the cut line is nearer to any edge than the smaller of that edge's and the nearest edge's allowance, but
where a corner is squared off, cut off at its limit or turned up. An edge that owns no point of the cut line is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.cubics import Bools, Complexes, Ints
from notchwork.geometry.offset.corners import Corner
from notchwork.geometry.offset.gathered import Outlines, gather
from notchwork.geometry.offset.owners import settle
from notchwork.geometry.offset.raw import raw_lines
from notchwork.geometry.offset.samples import take_samples
from notchwork.geometry.offset.simple import simple_lines
from notchwork.geometry.offset.snapped import Snapped, snapped
from notchwork.geometry.offset.union import Cut, united

BLOCK = 12000
"""No more rows than about this are worked on at once: the more memory that is held, the more the system must hand out."""
SAG_SHARE = 0.3
"""The share of the tolerance that the chords of curves may use up."""
BLUNT_SHARE = 0.9
"""The share of it that a joint inside an edge may use up when it is drawn as one point."""


@dataclass(frozen=True, slots=True, eq=False)
class Offset:
    """A cut line.

    points (m,) in mm, closed (the last is joined to the first), in the sense of the outline. edges (m,): the edge each
    point belongs to, -1 for a corner's construction. swallowed: the edges that own no point.
    """

    points: Complexes
    edges: Ints
    swallowed: tuple[int, ...]


def offset_outline(
    edges: Sequence[Complexes],
    widths: ArrayLike,
    corners: Sequence[Corner] | None = None,
    whose: Sequence[int] | None = None,
    tol: float = 0.01,
) -> Offset:
    """The cut line of one closed outline, as offset_outlines makes it."""
    styles = None if corners is None else [corners]
    return offset_outlines([edges], [widths], styles, None if whose is None else [whose], tol)[0]


def offset_outlines(
    outlines: Sequence[Sequence[Complexes]],
    widths: Sequence[ArrayLike],
    corners: Sequence[Sequence[Corner]] | None = None,
    whose: Sequence[Sequence[int]] | None = None,
    tol: float = 0.01,
) -> list[Offset]:
    """The cut lines of closed outlines.

    An outline is a list of edges, each an array of cubics (k, 4) in mm, that follow each other either way round. widths
    are the allowances of its edges (mm, 0 for none). corners and whose speak of the corner where each edge begins: how
    it is turned (mitred if not said), and the number of the edge that is squared off or turned up there (-1: the wider
    one of the two). tol (mm): how far a point of the cut line may be from its edge's allowance.

    Raises ValueError if a width is negative or not finite, or if there is not one width for every edge.
    """
    if [len(np.ravel(own)) for own in widths] != [len(outline) for outline in outlines]:
        raise ValueError("every edge needs one width")
    cuts: list[Offset] = []
    begin = 0
    for end in _blocks(outlines):
        here = slice(begin, end)
        styles, chosen = None if corners is None else corners[here], None if whose is None else whose[here]
        cuts += _offset_together(outlines[here], widths[here], styles, chosen, tol)
        begin = end
    return cuts


def _blocks(outlines: Sequence[Sequence[Complexes]]) -> Iterator[int]:
    """Where to stop, so that the outlines are worked on in equal blocks, none of many more rows than BLOCK."""
    sizes = [sum(len(edge) for edge in outline) for outline in outlines]
    whole = sum(sizes)
    share, rows = whole / max(-(-whole // BLOCK), 1), 0
    for number, size in enumerate(sizes, start=1):
        rows += size
        if rows >= share or number == len(outlines):
            yield number
            rows = 0


def _offset_together(
    outlines: Sequence[Sequence[Complexes]],
    widths: Sequence[ArrayLike],
    corners: Sequence[Sequence[Corner]] | None,
    whose: Sequence[Sequence[int]] | None,
    tol: float,
) -> list[Offset]:
    rows, shape = gather(outlines, widths, corners, whose)
    result = [Offset(np.zeros(0, complex), np.zeros(0, np.intp), tuple(range(len(own)))) for own in outlines]
    if not len(rows.start):
        return result
    sag, beyond = SAG_SHARE * tol, BLUNT_SHARE * tol
    samples = take_samples(rows, shape.widths[rows.edge], sag, beyond)
    edge, stitches = rows.edge[samples.row], samples.point
    line = shape.outline[edge]
    first = np.flatnonzero(np.append(True, line[1:] != line[:-1]))
    numbers = line[first]
    # The less memory is held at a time, the less often the system must be asked for more.
    del rows, line
    raw = raw_lines(samples, edge, shape.widths[edge], first, shape.corners, shape.after, beyond)
    del samples
    lines = snapped(raw)
    some = lines.size > 0
    if not some.any():
        return result
    lines, numbers = lines.only(some), numbers[some]
    # An outline without allowance is kept as it is.
    done = np.bincount(shape.outline, shape.widths, len(outlines))[numbers] == 0.0
    done |= simple_lines(lines.places, lines.steps, lines.first, lines.size)
    for number, cut in _handed_on(lines.only(done), numbers[done], shape):
        result[number] = cut
    if not done.all():
        found = united(lines.only(~done))
        settle(found, np.flatnonzero(some)[~done], stitches, edge, first, raw.tight, shape.widths, tol)
        for number, cut in _handed_on(found, numbers[~done], shape):
            result[number] = cut
    return result


def _handed_on(found: Snapped | Cut, numbers: Ints, shape: Outlines) -> Iterator[tuple[int, Offset]]:
    """The cut lines, by the numbers of their outlines, with their edges' numbers in the outline.

    Each begins at the first point of its first edge.
    """
    some = found.size > 0
    points, edge, first, size = found.points, found.edge, found.first[some], found.size[some]
    numbers = numbers[some]
    if not numbers.size:
        return
    begins = np.flatnonzero(_begins(edge, first))
    owner = edge[begins]
    shift = _shifts(begins, owner, first)
    if shift.any():
        line = np.repeat(np.arange(len(numbers)), size)
        order = first[line] + (np.arange(len(line)) - first[line] + shift[line]) % size[line]
        points, edge = points[order], edge[order]
    edge = np.maximum(edge - np.repeat(shape.first_edge[numbers], size), -1)
    mirrored = shape.mirrored[numbers]
    if mirrored.any():
        points = np.where(np.repeat(mirrored, size), points.conj(), points)
    owned = set(owner.tolist())
    stops = np.append(shape.first_edge[1:], len(shape.outline))[numbers]
    columns = (numbers, shape.first_edge[numbers], stops, first, first + size)
    for number, zero, stop, start, end in zip(*(column.tolist() for column in columns), strict=True):
        lost = tuple(k - zero for k in range(zero, stop) if k not in owned)
        yield number, Offset(points[start:end], edge[start:end], lost)


def _begins(edge: Ints, first: Ints) -> Bools:
    """At which points (m,) a line or another edge begins."""
    begins = np.empty(len(edge), dtype=bool)
    np.not_equal(edge[1:], edge[:-1], out=begins[1:])
    begins[first] = True
    return begins


def _shifts(begins: Ints, owner: Ints, first: Ints) -> Ints:
    """How far from its beginning each line (k,) has the first point of its first edge, none for a line of one edge.

    begins (m,) are the points at which a line or another edge begins, owner the edges that do.
    """
    opening = np.searchsorted(begins, first)
    closing = owner[np.append(opening[1:], len(begins)) - 1]
    lowest = np.minimum.reduceat(np.where(owner < 0, owner.max() + 1, owner), opening)
    shift = np.zeros(len(first), dtype=np.intp)
    for k in np.flatnonzero((owner[opening] != lowest) | (closing == lowest)):
        line = slice(opening[k], opening[k + 1] if k + 1 < len(opening) else len(begins))
        own = owner[line] == lowest[k]
        starts = own & ~np.roll(own, 1)
        if starts.any():
            shift[k] = begins[line][starts.argmax()] - first[k]
    return shift
