"""Whether a piece falls on itself when mirrored, so that one copy serves for either hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

import numpy as np

from notchwork.geometry import nearest, points
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

ALIKE = 0.1
"""mm: how nearly a mirrored piece must fall on itself."""

MOST = 2000
"""Points of the mirrored outline that are looked at, so that a traced outline of thousands of nodes is told soon too."""

GRAIN_ALIKE = 1.0
"""Degrees: how nearly the thread of the mirrored piece must run as in the piece itself."""


def falls_on_itself(nest: Nest, graded: GradedPiece) -> bool:
    """Whether outline, corners, notches (with their kinds), thread and allowances fall on themselves about some axis.

    Judged in the base size. A strip always does. A sector of a circle does not, once its grain follows one of its sides.
    """
    return bool(nest.mirror_images[graded.id])


def all_mirror_images(nest: Nest) -> dict[str, tuple[Mapping[str, str], ...]]:
    """The mirror images of every piece; pieces that are like each other in all that counts share them."""
    found: dict[tuple[object, ...], tuple[Mapping[str, str], ...]] = {}
    images = {}
    for ident, graded in nest.pieces.items():
        told_by = _told_by(graded)
        if told_by not in found:
            found[told_by] = tuple(mirror_images(nest, graded))
        images[ident] = found[told_by]
    return images


def _told_by(graded: GradedPiece) -> tuple[object, ...]:
    """What decides the mirror images of a piece. What it takes over by ``like`` is the very same object as there."""
    written = graded.written
    widths = tuple(_width(graded, edge) for edge in graded.edges)
    stated = (
        written.outline,
        written.outlines,
        written.strip,
        written.grainline,
        *widths,
        *written.notches.values(),
    )
    return (written.grain, tuple(map(id, stated)))


def mirror_images(nest: Nest, graded: GradedPiece) -> Iterator[Mapping[str, str]]:
    """For every axis about which a piece falls on itself: each edge with the edge it falls on, walked the other way."""
    if graded.is_strip:
        yield {"lower": "lower", "upper": "upper", "start": "end", "end": "start"}
        yield {"lower": "upper", "upper": "lower", "start": "start", "end": "end"}
        return
    if not graded.has_shape or not graded.present[nest.base]:
        return
    shifts = _of_equal_lengths(np.array([graded.lines[e].length[nest.base] for e in graded.edges]))
    if not shifts:
        return
    corners = np.array([nest.cubics_of(graded.lines[e], nest.base)[0, 0] for e in graded.edges])
    notches = _notch_points(nest, graded)
    outline = nest.outline(graded.id, nest.base)
    n = len(corners)
    for shift in shifts:
        turn = _mirrors(corners, shift, n, outline, notches)
        if turn is None or not _thread_alike(nest, graded, turn):
            continue
        image = {edge: graded.edges[(shift - k - 1) % n] for k, edge in enumerate(graded.edges)}
        if all(_width(graded, edge) == _width(graded, other) for edge, other in image.items()):
            yield image


def _of_equal_lengths(lengths: Floats) -> list[int]:
    """The shifts (edge k falls on edge shift - 1 - k) that need to be tried: edges that fall on each other are alike."""
    n = len(lengths)
    edges = np.arange(n)
    return [
        shift
        for shift in range(n)
        if bool(np.all(np.abs(lengths - lengths[(shift - 1 - edges) % n]) <= 1.0 + 0.01 * lengths))
    ]


def _thread_alike(nest: Nest, graded: GradedPiece, turn: complex) -> bool:
    """Whether the thread of the mirrored piece runs as in the piece; ``turn`` as in the reflection turn × conj(z)."""
    if graded.grainline is None or graded.written.grain == "any":
        return True
    start, stop = graded.grainline[nest.base]
    if start == stop:
        return True
    off = abs(np.angle(turn * np.conj(stop - start) / (stop - start), deg=True))
    return bool(min(off, 180.0 - off) <= GRAIN_ALIKE)


def _width(graded: GradedPiece, edge: str) -> object:
    """What is added outside an edge, as it is stated."""
    written = graded.written.edges.get(edge)
    own = written.allowance if written is not None else None
    return own if own is not None else graded.written.allowance


def _mirrors(
    corners: Complex, shift: int, n: int, outline: Complex, notches: dict[str, Complex]
) -> complex | None:
    """The unit factor ``turn`` of the reflection that sends corner k to corner shift - k, where the piece falls on itself."""
    t = np.linspace(0.0, 1.0, 9)[1:-1]
    drawn = points(outline, np.repeat(np.arange(len(outline)), len(t)), np.tile(t, len(outline)))
    partner = corners[(shift - np.arange(n)) % n]
    # An outline of one edge has one corner, which gives no axis: it is sought through the middle of what is drawn.
    centre, centre_image = (corners.mean(), partner.mean()) if n > 1 else (drawn.mean(), drawn.mean())
    spread = np.sum((corners - centre) * (partner - centre_image))
    if abs(spread) < 1e-9:
        return None
    turn = complex(spread / abs(spread))

    def image(z: Complex) -> Complex:
        return np.asarray(centre_image + turn * np.conj(z - centre))

    falls = (
        float(np.max(np.abs(image(corners) - partner))) <= ALIKE
        and _covers(image(drawn), outline)
        and all(
            len(at) == 0 or bool(np.all(np.min(np.abs(image(at)[:, None] - at[None, :]), axis=1) < ALIKE))
            for at in notches.values()
        )
    )
    return turn if falls else None


def _covers(at: Complex, outline: Complex) -> bool:
    """Whether points lie on the outline; a few of them, which mostly tell, are looked at first, and never more than MOST."""
    steps = dict.fromkeys(max(1, len(at) // few) for few in (50, MOST))
    return all(bool((nearest(outline, at[::step]).distance < ALIKE).all()) for step in steps)


def _notch_points(nest: Nest, graded: GradedPiece) -> dict[str, Complex]:
    found: dict[str, list[complex]] = {}
    for name, notch in graded.written.notches.items():
        if notch is not None and notch.use != "place":
            found.setdefault(notch.kind, []).append(
                nest.point(graded.lines[notch.edge], nest.notches[graded.id, name], nest.base)
            )
    return {kind: np.array(at) for kind, at in found.items()}
