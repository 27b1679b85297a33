"""A piece's outline with what is known of it, and what a person states of outlines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from notchwork.findings import Finding
from notchwork.recognise.areas import Area
from notchwork.recognise.rules import TURN
from notchwork.recognise.shape import LineKind


@dataclass(frozen=True, eq=False)
class Outlined:
    """A piece's outline with what is known of it: the width outside each edge of ``area.contour``, the cut line as drawn, and
    what was inferred. ``strips`` lie inside along its edges and were taken as its turns."""

    area: Area
    kind: LineKind | None = None
    widths: tuple[float | None, ...] = ()
    cut: Area | None = None
    told: tuple[Finding, ...] = ()
    strips: tuple[Area, ...] = ()


def with_stated(pieces: Sequence[Outlined], kind: LineKind | None, allowance: float | None) -> list[Outlined]:
    """The pieces with what a person states of outlines of which no second line is drawn.

    Strips inside are turns of a cut line; of what is stated to be a stitch line they are no more than lines on it.
    """
    if kind is None:
        return list(pieces)
    stated: list[Outlined] = []
    for piece in pieces:
        count = len(piece.area.contour.corners)
        if piece.kind != "stitch" and kind == "stitch":
            told = tuple(finding for finding in piece.told if finding.rule is not TURN)
            stated.append(replace(piece, kind="stitch", widths=(), told=told))
        elif piece.kind != "stitch" and kind == "cut":
            known = piece.widths or (None,) * count
            widths = tuple(allowance if width is None else width for width in known)
            stated.append(replace(piece, kind="cut", widths=widths))
        else:
            stated.append(piece)
    return stated
