"""Open strokes that are no part of a piece: leaders from words, and stitching drawn as rows of Vs."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.geometry import inside, lengths, to_chords
from notchwork.recognise.aside.sheet import Sheet, clusters
from notchwork.recognise.contours import CORNER
from notchwork.recognise.placed import Line, boxes_apart
from notchwork.recognise.shape import Complexes
from notchwork.recognise.widths import spread

LEADER_ROWS = 6
"""A leader has no more bends than this."""
AT_WORDS = 1.5
"""So many heights of type from the words a leader ends."""
LEG = 12.0
"""mm: the legs of Vs that stand for stitches are no longer."""
ROW = 4
"""So many legs make a row."""


def set_stitching_aside(sheet: Sheet) -> None:
    """Rows of equal Vs, one stroke or many that touch."""
    zigzags = [line for line in sheet.open if _is_zigzag(line)]
    for group in clusters(zigzags, sheet.tol):
        for same in _alike(group):
            if sum(len(line.cubics) for line in same) >= ROW and (
                len(same) > 1 or len(same[0].cubics) >= ROW
            ):
                sheet.set_aside("stitching", same)


def set_leaders_aside(sheet: Sheet) -> None:
    """Lines and Vs that end at words, free of every other stroke there; and lines from one closed shape to another."""
    ends = np.array([z for line in sheet.open for z in (line.start, line.end)])
    for line in sheet.open:
        if len(line.cubics) > LEADER_ROWS:
            continue
        tips = [line.start, line.end]
        if len(line.cubics) == 2:
            tips.append(complex(line.cubics[0, 3]))
        if any(sheet.words_near(z, AT_WORDS) and _is_free(z, ends, line, sheet.tol) for z in tips):
            sheet.set_aside("leader", [line])
    closed = sheet.closed
    for line in sheet.open:
        if len(line.cubics) <= LEADER_ROWS and _joins_two(line, closed, sheet.tol):
            sheet.set_aside("leader", [line])


def _joins_two(line: Line, closed: Sequence[Line], tol: float) -> bool:
    """Whether a line runs from one closed shape of its own layer to another, through none.

    On a layer of its own it may be a cutting line between neighbours.
    """
    beside = [other for other in closed if boxes_apart(other.box, line.box) <= tol]
    if len(beside) < 2 or any(other.within != line.within for other in beside):
        return False
    way = spread(line.cubics, np.array([0.25, 0.5, 0.75]))
    if any(inside(other.polyline[:-1], way).any() for other in beside):
        return False
    met = [{other.number for other in beside if _meets(other, z, tol)} for z in (line.start, line.end)]
    return bool(met[0] and met[1] and not met[0] & met[1])


def _meets(other: Line, z: complex, tol: float) -> bool:
    ring = other.polyline
    return bool(to_chords(np.array([z]), ring[:-1], ring[1:]).min() <= tol)


def _is_free(z: complex, ends: Complexes, line: Line, tol: float) -> bool:
    own = sum(abs(z - end) <= tol for end in (line.start, line.end))
    return int((np.abs(ends - z) <= tol).sum()) <= own


def _is_zigzag(line: Line) -> bool:
    legs = lengths(line.cubics)
    if len(legs) < 2 or float(legs.max()) > LEG:
        return False
    inner = legs[1:-1] if len(legs) > 2 else legs
    if float(inner.max()) > 1.15 * float(inner.min()):
        return False
    way = line.cubics[:, 3] - line.cubics[:, 0]
    turn = np.degrees(np.angle(way[1:] * way[:-1].conj()))
    return bool((np.abs(turn) > CORNER).all() and (np.sign(turn[1:]) != np.sign(turn[:-1])).all())


def _alike(group: list[Line]) -> list[list[Line]]:
    """The lines of a cluster by the length of their legs."""
    found: list[list[Line]] = []
    for line in group:
        leg = float(np.median(lengths(line.cubics)))
        for same in found:
            if abs(leg - float(np.median(lengths(same[0].cubics)))) <= 0.15 * leg:
                same.append(line)
                break
        else:
            found.append([line])
    return found
