"""What was measured, as plain JSON values: lengths in mm, areas in mm², null where a thing does not exist."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Any

from notchwork.geometry import area
from notchwork.sewing import Comparison, GradedPiece, Nest, Station, Stretch, Walk

_DECIMALS = 6


def number(value: float | None) -> float | None:
    """A figure without the noise of arithmetic; None for what does not exist (NaN)."""
    if value is None or not math.isfinite(value):
        return None
    return round(float(value), _DECIMALS) + 0.0


def seams_of(walks: Iterable[Walk], nest: Nest) -> Iterator[dict[str, Any]]:
    """One entry for each seam and size."""
    for walk in walks:
        for k, size in enumerate(nest.sizes):
            yield {
                "id": walk.id,
                "name": walk.seam.name,
                "size": size,
                "sides": [[_stretch(stretch, k) for stretch in side.stretches] for side in walk.sides],
                "lengths": [number(side.length[k]) for side in walk.sides],
                "differences": [number(other.difference[k]) for other in walk.others],
                "joins": [other.kind for other in walk.others],
                "intervals": [entry for other in walk.others for entry in _intervals(other, k)],
            }


def pieces_of(nest: Nest) -> Iterator[dict[str, Any]]:
    """One entry for each piece and size."""
    for piece in nest.pieces.values():
        for k, size in enumerate(nest.sizes):
            yield {
                "id": piece.id,
                "name": piece.name,
                "size": size,
                "perimeter": number(perimeter(piece, k)),
                "area": number(drawn_area(nest, piece, k)),
                "unfolded_area": number(unfolded_area(nest, piece, k)),
                "edges": [
                    {
                        "name": name,
                        "length": number(piece.lines[name].length[k]),
                        "sewn": number(piece.lines[name].sewn_length[k]),
                    }
                    for name in piece.edges
                ],
            }


def perimeter(piece: GradedPiece, size: int) -> float:
    """The length (mm) of the stitch line as drawn; NaN where the piece has none in this size."""
    return (
        sum((float(piece.lines[name].length[size]) for name in piece.edges), 0.0) if piece.edges else math.nan
    )


def drawn_area(nest: Nest, piece: GradedPiece, size: int) -> float:
    """The area (mm²) inside the stitch line as drawn, half of a piece on a fold; NaN without a shape."""
    if not piece.has_shape or not piece.present[size]:
        return math.nan
    return abs(float(area(nest.outline(piece.id, size))))


def unfolded_area(nest: Nest, piece: GradedPiece, size: int) -> float:
    """The area (mm²) of the piece opened out along its folds, which is the drawn area where it has none."""
    return drawn_area(nest, piece, size) * float(2 ** len(piece.folds))


def station_names(station: Station) -> tuple[str, str]:
    """What a station is called on side 1 and on the further side: "piece.mark", a seam's name, "start" or "end"."""
    return _station_name(station.piece, station.name), _station_name(station.other_piece, station.other_name)


def _station_name(piece: str, name: str) -> str:
    return f"{piece}.{name}" if piece and "." not in name else name


def _stretch(stretch: Stretch, size: int) -> dict[str, Any]:
    return {
        "piece": stretch.graded.id,
        "line": stretch.line.name,
        "forward": stretch.forward,
        "mirrored": stretch.span.mirrored,
        "length": number(stretch.length[size]),
    }


def _intervals(other: Comparison, size: int) -> Iterator[dict[str, Any]]:
    for interval in other.intervals:
        yield {
            "side": other.side.number + 1,
            "start": list(station_names(interval.start)),
            "end": list(station_names(interval.stop)),
            "lengths": [number(interval.one[size]), number(interval.other[size])],
            "difference": number(interval.difference[size]),
            "join": other.kind if interval.full or other.is_plain else "plain",
        }
