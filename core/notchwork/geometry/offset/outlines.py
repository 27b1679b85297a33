"""The cut line: an outline moved outward, each edge by its own allowance.

What this keeps. A point of the cut line that belongs to an edge lies at that edge's allowance from it. Between the two
perpendiculars raised at an outer corner lies the corner's construction, at most three times the larger allowance away.
No point of the cut line is nearer to any edge than the smaller of that edge's and the nearest edge's allowance, but
where a corner is squared off, cut off at its limit or turned up. An edge that owns no point of the cut line is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from notchwork.geometry.cubics import NO_LENGTH, Bools, Complexes, Floats, Ints, as_cubics
from notchwork.geometry.measures import swept
from notchwork.geometry.offset.corners import Corner
from notchwork.geometry.offset.owners import UNKNOWN, Stitches, first_of_equals, measured, owners
from notchwork.geometry.offset.raw import Raw, raw_lines
from notchwork.geometry.offset.samples import Samples, take_samples
from notchwork.geometry.offset.union import outer_line

GRID = 1e-5
"""Crossings of the raw line are found on a grid this fine (mm)."""
BLOCK = 6000
"""Rows worked on at once."""
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
    """Where to stop, so that the rows of the outlines worked on at once stay in the processor's cache."""
    rows = 0
    for number, outline in enumerate(outlines, start=1):
        rows += sum(len(edge) for edge in outline)
        if rows >= BLOCK or number == len(outlines):
            yield number
            rows = 0


def _offset_together(
    outlines: Sequence[Sequence[Complexes]],
    widths: Sequence[ArrayLike],
    corners: Sequence[Sequence[Corner]] | None,
    whose: Sequence[Sequence[int]] | None,
    tol: float,
) -> list[Offset]:
    shape = _gather(outlines, widths, corners, whose)
    result = [_nothing(len(outline)) for outline in outlines]
    if not len(shape.cubics):
        return result
    sag, beyond = SAG_SHARE * tol, BLUNT_SHARE * tol
    samples = take_samples(shape.cubics, shape.edge, shape.widths[shape.edge], sag, beyond)
    edge = shape.edge[samples.row]
    line = shape.outline[edge]
    first = np.flatnonzero(np.append(True, line[1:] != line[:-1])[: len(line)])
    raw = raw_lines(samples, edge, shape.widths[edge], first, shape.corners, shape.after, beyond)
    bare = np.bincount(line, shape.widths[edge], len(outlines))[line[first]] == 0.0
    found = _united(raw, samples.point[first], bare)
    _settle(found, raw.tight, samples, edge, first, shape.widths, tol)
    for number, cut in _handed_on(found, line[first], shape):
        result[number] = cut
    return result


def _nothing(edges: int) -> Offset:
    return Offset(np.zeros(0, dtype=np.complex128), np.zeros(0, dtype=np.intp), tuple(range(edges)))


class _Found(NamedTuple):
    """Cut lines (m,) end to end; edge is UNKNOWN where it must be measured, crossing where raw lines cross."""

    points: Complexes
    edge: Ints
    crossing: Bools
    first: Ints
    size: Ints


def _united(raw: Raw, origins: Complexes, bare: Bools) -> _Found:
    """The outer boundaries of what the raw lines wind about; the bare ones, without allowance, are kept as they are."""
    sizes = np.diff(np.append(raw.first, len(raw.points)))
    grid = raw.points - np.repeat(origins, sizes)
    steps = grid.view(np.float64)
    np.rint(np.multiply(steps, 1.0 / GRID, out=steps), out=steps)
    local = np.empty((len(grid), 3))
    local[:, 0], local[:, 1], local[:, 2] = grid.real, grid.imag, np.arange(len(grid))
    each = [
        _without_repeats(own) if plain else outer_line(own)
        for own, plain in zip(np.split(local, raw.first[1:]), bare.tolist(), strict=True)
    ]
    found, position = (np.concatenate(column) for column in zip(*each, strict=True))
    count = np.array([len(own) for own, _ in each], dtype=np.intp)
    first = np.cumsum(count) - count
    line = np.repeat(np.arange(len(count)), count)
    raw_next = _next_in(raw.first, sizes)
    # Where feet fall together (no allowance), the point is the edge's that begins there, so that every edge has one.
    rank = np.where(raw.edge < 0, 2, np.where(raw.edge == raw.edge[raw_next], 0, 1))
    position = np.where(grid[position] == found, first_of_equals(grid, raw_next, rank)[position], -1)
    crossing = position < 0
    edge = owners(position, raw.edge, raw_next, _next_in(first, count))
    points = raw.points[position]
    points[crossing] = origins[line[crossing]] + found[crossing] * GRID
    return _Found(points, edge, crossing, first, count)


def _next_in(first: Ints, count: Ints) -> Ints:
    """The number of the point after each, in closed lines that begin at first and have count points."""
    following = np.arange(1, int(count.sum()) + 1)
    real = count > 0
    following[(first + count - 1)[real]] = first[real]
    return following


def _without_repeats(raw: Floats) -> tuple[Complexes, Ints]:
    line = raw[:, 0] + 1j * raw[:, 1]
    apart = np.flatnonzero(line != np.roll(line, 1))
    return line[apart], raw[apart, 2].astype(np.intp)


def _settle(
    found: _Found, tight: Ints, samples: Samples, edge: Ints, first: Ints, widths: Floats, tol: float
) -> None:
    """Measure, in place, whose the points are that the raw lines could not tell."""
    doubtful = found.crossing & (found.edge == UNKNOWN)
    if tight.size:
        doubtful |= np.isin(found.edge, tight)
    owned = np.bincount(found.edge[found.edge >= 0], minlength=len(widths)) > 0
    bereft = edge[np.flatnonzero(np.append(True, edge[1:] != edge[:-1]) & ~owned[edge])]
    line = np.repeat(np.arange(len(found.size)), found.size)
    last = np.append(first[1:], len(edge))
    lines_of_bereft = np.searchsorted(first, np.searchsorted(edge, bereft), side="right") - 1
    crossed = np.unique(line[found.crossing])
    for k in np.union1d(line[doubtful], np.intersect1d(lines_of_bereft, crossed)):
        here = slice(found.first[k], found.first[k] + found.size[k])
        begin, end = first[k], last[k] - 1
        start, stop, own = samples.point[begin:end], samples.point[begin + 1 : end + 1], edge[begin:end]
        chord = start != stop
        stitches = Stitches(start[chord], stop[chord], own[chord])
        needed = doubtful[here] | (found.crossing[here] if k in lines_of_bereft else False)
        found.edge[here] = measured(
            found.points[here], found.edge[here], needed, found.crossing[here], stitches, widths, tol
        )


def _handed_on(found: _Found, numbers: Ints, shape: _Shape) -> Iterator[tuple[int, Offset]]:
    """The cut lines, by the numbers of their outlines, with their edges' numbers in the outline, each from the first point of its first edge on."""
    line = np.repeat(np.arange(len(numbers)), found.size)
    edge = np.where(found.edge >= 0, found.edge - shape.first_edge[numbers][line], -1)
    before = np.empty_like(edge)
    before[_next_in(found.first, found.size)] = edge
    starts = np.flatnonzero((edge >= 0) & (edge != before))
    starts = starts[np.lexsort((starts, edge[starts], line[starts]))]
    begins, which = np.unique(line[starts], return_index=True)
    shift = np.zeros(len(numbers), dtype=np.intp)
    shift[begins] = starts[which] - found.first[begins]
    place = np.arange(len(line)) - found.first[line]
    order = found.first[line] + (place + shift[line]) % found.size[line]
    points, edge = found.points[order], edge[order]
    if shape.mirrored.any():
        points = np.where(shape.mirrored[numbers][line], points.conj(), points)
    owned = np.bincount(found.edge[found.edge >= 0], minlength=len(shape.outline)) > 0
    stop = np.append(shape.first_edge[1:], len(shape.outline))
    for k, number in enumerate(numbers.tolist()):
        here = slice(found.first[k], found.first[k] + found.size[k])
        lost = np.flatnonzero(~owned[shape.first_edge[number] : stop[number]])
        yield number, Offset(points[here], edge[here], tuple(lost.tolist()))


@dataclass(frozen=True, slots=True, eq=False)
class _Shape:
    """All outlines in one: rows (n,) with their edge's number; columns by edge and by outline."""

    cubics: Complexes
    edge: Ints
    widths: Floats
    corners: Ints
    after: Bools
    outline: Ints
    first_edge: Ints
    mirrored: Bools
    """The outlines that run clockwise; their rows are mirrored, so that outward is on the right of every walk."""


def _gather(
    outlines: Sequence[Sequence[Complexes]],
    widths: Sequence[ArrayLike],
    corners: Sequence[Sequence[Corner]] | None,
    whose: Sequence[Sequence[int]] | None,
) -> _Shape:
    counts = np.array([len(outline) for outline in outlines], dtype=np.intp)
    first_edge = np.cumsum(counts) - counts
    outline = np.repeat(np.arange(len(outlines)), counts)
    width = np.concatenate([np.asarray(w, dtype=np.float64).ravel() for w in widths])
    if not (np.isfinite(width) & (width >= 0.0)).all():
        raise ValueError("a width is a finite number of mm and not negative")
    every = [edge for edges in outlines for edge in edges]
    edge = np.repeat(np.arange(len(every)), [len(rows) for rows in every])
    cubics = as_cubics(np.concatenate(every))
    closed = np.flatnonzero(np.abs(cubics[:, 3] - cubics[:, 0]) <= NO_LENGTH)
    nothing = closed[np.abs(cubics[closed] - cubics[closed, :1]).max(axis=1, initial=0.0) <= NO_LENGTH]
    if nothing.size:
        cubics, edge = np.delete(cubics, nothing, axis=0), np.delete(edge, nothing)

    line = outline[edge]
    begin = np.flatnonzero(np.append(True, line[1:] != line[:-1])[: len(line)])
    mirrored = np.zeros(len(outlines), dtype=bool)
    mirrored[line[begin]] = np.add.reduceat(swept(cubics), begin) < 0.0 if len(begin) else False
    if mirrored.any():
        turned = mirrored[line]
        cubics[turned] = cubics[turned].conj()

    style = np.zeros(len(every), dtype=np.intp)
    if corners is not None:
        style[:] = [corner for row in corners for corner in row]
    chosen = np.full(len(every), -1, dtype=np.intp)
    if whose is not None:
        chosen[:] = [number for row in whose for number in row]
    here = np.arange(len(every)) - first_edge[outline]
    before = first_edge[outline] + (here - 1) % counts[outline]
    after = np.where(chosen >= 0, chosen == here, width > width[before])
    return _Shape(cubics, edge, width, style, after, outline, first_edge, mirrored)
