"""What was measured, for the terminal: every piece with its edges, and every seam with its sides, in every size."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from notchwork.checks import Names
from notchwork.findings import plain_name
from notchwork.report.about_pattern import NOT_THERE, length_text, opening_lines
from notchwork.report.figures import drawn_area, perimeter, unfolded_area
from notchwork.report.grid import Row, grid
from notchwork.report.paper import Paper
from notchwork.sewing import GradedPiece, Nest
from notchwork.sewing.names import side_names

_INDENT = 2
_SQUARE = {"mm": (100.0, "cm²"), "cm": (100.0, "cm²"), "in": (25.4**2, "sq in")}


def describe_text(name: str, nest: Nest, paper: Paper) -> str:
    """Every piece with its edges in every size, and every seam with its sides."""
    names = Names(nest.pattern)
    heads = [size or "" for size in nest.sizes]
    lines = opening_lines(name, nest, paper)
    for piece in nest.pieces.values():
        lines += ["", *paper.headings(piece.name)]
        lines += grid(heads, list(_piece_rows(nest, piece, names)), paper, _INDENT)
    for walk in nest.walks.values():
        lines += ["", *paper.headings(names.seam(walk.id))]
        rows = [
            (
                side_names(side, walk.sides[1 if side.number == 0 else 0])[0],
                [*_lengths(side.length, names)],
            )
            for side in walk.sides
        ]
        lines += grid(heads, rows, paper, _INDENT)
    return "\n".join(lines) + "\n"


def _piece_rows(nest: Nest, piece: GradedPiece, names: Names) -> Iterator[Row]:
    sizes = range(len(nest.sizes))
    for name in piece.edges:
        line = piece.lines[name]
        yield plain_name(name), _lengths(line.length, names)
        if line.intakes:
            yield "  as sewn", _lengths(line.sewn_length, names)
    yield "all round", _lengths((perimeter(piece, k) for k in sizes), names)
    per, unit = _SQUARE[names.unit]
    if piece.has_shape:
        yield f"area ({unit})", [_area(drawn_area(nest, piece, k) / per) for k in sizes]
        if piece.folds:
            yield f"unfolded ({unit})", [_area(unfolded_area(nest, piece, k) / per) for k in sizes]


def _lengths(values: Iterable[float], names: Names) -> list[str]:
    return [length_text(value, names.unit) for value in values]


def _area(value: float) -> str:
    return f"{value:.1f}" if math.isfinite(value) else NOT_THERE
