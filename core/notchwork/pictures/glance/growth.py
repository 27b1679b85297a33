"""What a piece does from size to size: which of its edges and corners move, which way, and how far."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import Length, listed, worded
from notchwork.model import Unit
from notchwork.pictures.glance.frame import upright
from notchwork.pictures.glance.words import edge_words
from notchwork.sewing import GradedPiece, Nest

Floats = NDArray[np.float64]

STILL = 0.05
"""mm: what moves by less from one size to the next stays where it is."""
MOST = 6
"""As many moves are told, the greatest first."""


def growth(nest: Nest, graded: GradedPiece) -> list[str]:
    """Each move in words: "side edge: 12.0 mm out", "corner armhole/side: 6.0 mm down and 4.0 mm out"; none where every size is alike.

    Out is away from the fold, or else from the piece's middle. Where the steps differ, the least and the most are told.
    """
    sizes = [size for size in range(len(nest.sizes)) if graded.present[size]]
    if len(sizes) < 2:
        return []
    corners = np.array(
        [[nest.cubics_of(graded.lines[e], size)[0, 0] for e in graded.edges] for size in sizes]
    )
    corners = corners * upright(nest, graded)
    steps = np.diff(corners, axis=0)
    middle = _middle(nest, graded, corners[sizes.index(nest.base) if nest.base in sizes else 0])
    found: dict[str, list[tuple[float, str]]] = {}
    for moves, ways in ((steps.real, ("right", "left")), (steps.imag, ("up", "down"))):
        for run in _runs(moves, len(graded.edges)):
            by = moves[:, run[0]]
            at = corners[:, run].real.mean()
            if ways[0] == "right" and abs(at - middle) > STILL:
                said = ("out", "in") if at > middle else ("in", "out")
            else:
                said = ways
            far = (float(np.abs(by).max()), _far(by, said, nest.pattern.unit))
            found.setdefault(_called(graded, run), []).append(far)
    moved = sorted(found.items(), key=lambda named: -max(far for far, _ in named[1]))
    told = [f"{name}: {listed(words for _, words in ways)}" for name, ways in moved[:MOST]]
    return told + (["and more"] if len(moved) > MOST else [])


def _middle(nest: Nest, graded: GradedPiece, corners: NDArray[np.complex128]) -> float:
    """What lies outside of which is out: an upright fold, else the middle."""
    for fold in graded.folds:
        k = graded.edges.index(fold)
        a, b = corners[k], corners[(k + 1) % len(corners)]
        if abs((b - a).real) < abs((b - a).imag):
            return float(a.real)
    return float((corners.real.min() + corners.real.max()) / 2)


def _runs(moves: Floats, count: int) -> Iterator[list[int]]:
    """Corners that follow each other and move alike, round the ring, but for those that stay; nothing where all do."""
    still = np.abs(moves).max(axis=0) <= STILL
    joined = [bool(np.abs(moves[:, k] - moves[:, k - 1]).max() <= STILL) for k in range(count)]
    if all(joined):
        return
    first = joined.index(False)
    run: list[int] = []
    for k in [*range(first, count), *range(first)]:
        if run and not joined[k]:
            if not still[run[0]]:
                yield run
            run = []
        run.append(k)
    if run and not still[run[0]]:
        yield run


def _called(graded: GradedPiece, run: Sequence[int]) -> str:
    """The edges between the corners of a run, or the corner by the edges that meet there."""
    edges = graded.edges
    if len(run) == 1:
        return f"corner {edge_words(edges[run[0] - 1])}/{edge_words(edges[run[0]])}"
    return f"{listed(edge_words(edges[k]) for k in run[:-1])} {'edge' if len(run) == 2 else 'edges'}"


def _far(by: Floats, ways: tuple[str, str], unit: Unit) -> str:
    low, high = sorted((float(by[np.argmin(np.abs(by))]), float(by[np.argmax(np.abs(by))])), key=abs)
    way = ways[0] if high > 0 else ways[1]
    if bool((by * high < -STILL * abs(high)).any()):
        return worded("{way}, then back, by up to {most}", {"most": Length(abs(high)), "way": way}, unit)
    if abs(abs(high) - abs(low)) <= STILL:
        return worded("{most} {way}", {"most": Length(abs(high)), "way": way}, unit)
    return worded(
        "{least} to {most} {way}", {"least": Length(abs(low)), "most": Length(abs(high)), "way": way}, unit
    )
