"""A piece's outline with what is known of it, and what a person states of outlines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from notchwork.findings import Finding
from notchwork.recognise.areas import Area
from notchwork.recognise.shape import LineKind


@dataclass(frozen=True, eq=False)
class Outlined:
    """A piece's outline with what is known of it: the width outside each edge of ``area.contour``, the cut line as drawn, and
    what was inferred."""

    area: Area
    kind: LineKind | None = None
    widths: tuple[float | None, ...] = ()
    cut: Area | None = None
    told: tuple[Finding, ...] = ()


def with_stated(pieces: Sequence[Outlined], kind: LineKind | None, allowance: float | None) -> list[Outlined]:
    """The pieces with what a person states of outlines that nothing is known of."""
    if kind is None:
        return list(pieces)
    stated: list[Outlined] = []
    for piece in pieces:
        count = len(piece.area.contour.corners)
        if piece.kind is None and kind == "stitch":
            stated.append(replace(piece, kind="stitch"))
        elif piece.kind != "stitch" and kind == "cut":
            known = piece.widths or (None,) * count
            widths = tuple(allowance if width is None else width for width in known)
            stated.append(replace(piece, kind="cut", widths=widths))
        else:
            stated.append(piece)
    return stated
