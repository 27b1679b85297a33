"""One piece in all sizes: its lines, marks, grain and sense, graded from what was written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from notchwork.model import Material, Node, Piece, Strip, in_size
from notchwork.sewing.pieces.grading import Complex, Shifts, cubics_of, grade_line, grade_point
from notchwork.sewing.pieces.lines import Floats, Line

Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class GradedPiece:
    """A piece in every size. Arrays have the sizes as first axis; NaN where the piece does not exist in a size.

    ``sense`` is +1 where the outline as drawn runs counter-clockwise, -1 clockwise, 0 where no shape is known.
    ``written`` is the piece with everything it takes over by ``like``; ``root`` the piece at the end of that chain.
    """

    id: str
    name: str
    root: str
    sizes: tuple[str | None, ...]
    written: Piece
    lines: Mapping[str, Line]
    edges: tuple[str, ...]
    present: Bools
    sense: int
    grainline: Complex | None
    marks: Mapping[str, Complex]
    apexes: Mapping[str, Complex]
    materials: tuple[Material, ...]

    @property
    def has_shape(self) -> bool:
        return self.sense != 0

    @property
    def is_strip(self) -> bool:
        return self.written.strip is not None

    @property
    def folds(self) -> tuple[str, ...]:
        """The edges on which half the piece is mirrored."""
        return tuple(
            name for name in self.edges if (edge := self.written.edges.get(name)) is not None and edge.fold
        )

    @property
    def two_faced(self) -> bool:
        """Whether every cloth it is cut from has no right side, so that one copy serves for either hand."""
        return bool(self.materials) and all(
            m.two_faced if m.two_faced is not None else m.kind == "net" for m in self.materials
        )

    def edge_after(self, name: str) -> Line:
        return self.lines[self.lines[name].after]

    def edge_before(self, name: str) -> Line:
        return self.lines[self.lines[name].before]


@dataclass(frozen=True, slots=True)
class Run:
    """One line on its way into the nest: its cubics (one array (k, 4) a size) or its measured length."""

    name: str
    kind: Literal["edge", "inner", "cutout"]
    closed: bool
    cubics: tuple[Complex, ...] | None
    measured: Floats | None
    named: tuple[Mapping[str, int], ...]
    """By size: each named node and the number of cubics before it."""


def runs_of(piece: Piece, sizes: Sequence[str | None], shifts: Shifts) -> Iterator[Run]:
    """Every edge in the outline's order, then inner lines with nodes of their own, then cut-outs."""
    if piece.strip is not None:
        yield from _edge_runs([_strip_nodes(piece.strip, size) for size in sizes], None, len(sizes))
    elif piece.outlines is not None:
        drawn = [piece.outlines.get(size) if size is not None else None for size in sizes]
        yield from _edge_runs(drawn, None, len(sizes))
    elif piece.outline is not None:
        yield from _edge_runs([piece.outline], shifts, len(sizes))
    else:
        for name, edge in piece.edges.items():
            if edge is not None and edge.length is not None:
                length = np.array([in_size(edge.length, size) for size in sizes])
                yield Run(name, "edge", False, None, length, tuple({} for _ in sizes))
    for name, inner in piece.inner.items():
        if inner is not None and inner.line is not None:
            yield _whole_run(name, "inner", inner.line, inner.closed, shifts, len(sizes))
    for name, cutout in piece.cutouts.items():
        if cutout is not None:
            yield _whole_run(name, "cutout", cutout.line, True, shifts, len(sizes))


def _strip_nodes(strip: Strip, size: str | None) -> tuple[Node, ...]:
    length, width = in_size(strip.length, size), in_size(strip.width, size)
    corners = {
        "lower": 0j,
        "end": complex(length, 0),
        "upper": complex(length, width),
        "start": complex(0, width),
    }
    return tuple(Node(at=at, edge=edge) for edge, at in corners.items())


def _edge_runs(drawn: Sequence[tuple[Node, ...] | None], shifts: Shifts | None, count: int) -> Iterator[Run]:
    """The edges of an outline: one drawing for each size, or one graded by rules."""
    by_size = list(drawn) if shifts is None else [drawn[0]] * count
    first = next((nodes for nodes in by_size if nodes), None)
    if first is None:
        return
    outlines = [_from_first_corner(nodes) if nodes else None for nodes in by_size]
    if shifts is None:
        cubics = [cubics_of(nodes, True) if nodes else np.empty((0, 4), dtype=complex) for nodes in outlines]
    else:
        assert outlines[0] is not None
        cubics = list(grade_line(outlines[0], True, shifts, count))
    starts = [_edge_starts(nodes) if nodes else {} for nodes in outlines]
    for name in _edge_starts(_from_first_corner(first)):
        spans = [begin.get(name, (0, 0)) for begin in starts]
        named = tuple(
            _named_nodes(nodes, lo, hi) if nodes else {}
            for nodes, (lo, hi) in zip(outlines, spans, strict=True)
        )
        parts = tuple(rows[lo:hi] for rows, (lo, hi) in zip(cubics, spans, strict=True))
        yield Run(name, "edge", len(starts) == 1 and len(_edge_starts(first)) == 1, parts, None, named)


def _from_first_corner(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The same ring, begun at its first corner."""
    first = next((k for k, node in enumerate(nodes) if node.edge), 0)
    return nodes[first:] + nodes[:first]


def _edge_starts(nodes: Sequence[Node]) -> dict[str, tuple[int, int]]:
    """Each edge's first and last-but-one cubic in an outline that begins at a corner."""
    corners = [(k, node.edge) for k, node in enumerate(nodes) if node.edge]
    ends = [k for k, _ in corners[1:]] + [len(nodes)]
    return {str(edge): (k, end) for (k, edge), end in zip(corners, ends, strict=True)}


def _named_nodes(nodes: Sequence[Node], lo: int, hi: int) -> dict[str, int]:
    """Named nodes of the edge whose cubics are lo..hi, its two corners included."""
    return {
        str(node.name): k - lo
        for k in reversed(range(lo, hi + 1))
        if (node := nodes[k % len(nodes)]).name is not None
    }


def _whole_run(
    name: str,
    kind: Literal["inner", "cutout"],
    nodes: tuple[Node, ...],
    closed: bool,
    shifts: Shifts,
    count: int,
) -> Run:
    named = {str(node.name): k for k, node in enumerate(nodes) if node.name is not None}
    return Run(name, kind, closed, tuple(grade_line(nodes, closed, shifts, count)), None, (named,) * count)


def points_of(
    piece: Piece, shifts: Shifts, count: int
) -> tuple[Complex | None, dict[str, Complex], dict[str, Complex]]:
    """Grainline (sizes, 2), marks (sizes,) and dart apexes (sizes, 1 or 2), graded."""
    grain = None
    if piece.grainline is not None:
        grain = np.stack([grade_point(p.at, p.grade, shifts, count) for p in piece.grainline], axis=-1)
    marks = {n: grade_point(m.at, m.grade, shifts, count) for n, m in piece.marks.items() if m is not None}
    apexes: dict[str, Complex] = {}
    for name, dart in piece.darts.items():
        if dart is None:
            continue
        if dart.apexes is not None:
            apexes[name] = np.stack([grade_point(p.at, p.grade, shifts, count) for p in dart.apexes], axis=-1)
        elif dart.apex is not None:
            apexes[name] = grade_point(dart.apex, dart.grade, shifts, count)[:, None]
    return grain, marks, apexes
