"""Two pieces laid together along a seam at one end of it, darts and pleats beside the corner shut: moved, never bent.

In mm, y upward: the first piece's corner is 0, its edge sets off to the left, and the cloth lies above.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.geometry import end_tangent_by_fit, flatten, reverse, start_tangent_by_fit, tangents
from notchwork.pictures.corner.found import Corner
from notchwork.sewing import Line, Nest, Spot
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.shapes.corners import NO_LENGTH
from notchwork.sewing.shapes.folding import edge_shut, mouths
from notchwork.sewing.shapes.truing import SQUARE, STRAIGHT

EXACT = 0.01
"""mm: how nearly lines follow their curves."""


@dataclass(frozen=True, slots=True, eq=False)
class Cloth:
    """One piece as laid: its ``edge`` and its ``seam`` from the corner on, the whole ``rim``, and the first ``dart`` on the edge.

    A dart is the line from its foot to its point, along which it is shut; empty where there is none.
    """

    edge: Complex
    seam: Complex
    rim: Complex
    dart: Complex

    def turned(self, by: complex, shift: complex = 0j) -> Cloth:
        """The same, turned by a unit factor about 0 and then moved."""
        return Cloth(*(line * by + shift for line in (self.edge, self.seam, self.rim, self.dart)))


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """Both pieces as sewn. ``wanted`` are the lines on which edges would run on, each with the number of its piece.

    ``seam`` is the unit direction of the seam from the corner into the cloth, ``angles`` the interior angles (degrees).
    """

    cloths: tuple[Cloth, Cloth]
    wanted: Sequence[tuple[int, Complex]]
    seam: complex
    angles: tuple[float, float]


def laid(nest: Nest, corner: Corner) -> Laid | None:
    """A corner in the size it is shown in; None where an edge has no length in it."""
    found = [
        _apart(nest, spot, edge[1], corner.size)
        for spot, edge in zip(corner.spots, corner.edges, strict=True)
    ]
    one, two = found
    if one is None or two is None:
        return None
    measured = _is_measured(nest, corner)
    a, b = (_angle(nest, spot, measured, corner.size) for spot in corner.spots)
    first = one.facing(measured, to_the_left=True)
    second = two.facing(measured, to_the_left=False)
    seam = _unit(STRAIGHT - a)
    bend = _unit(STRAIGHT - a - b)
    if corner.end == "fold":
        # Upright, and square to the fold on both sides, so that neither half is called the right one.
        level = _unit(a - SQUARE)
        cloths = (first.turned(level), second.turned(level.conjugate()))
        return Laid(cloths, ((0, first.edge), (1, second.edge)), 1j, (a, b))
    shift = -seam * corner.stepped
    return Laid((first, second.turned(bend, shift)), ((1, second.edge),), seam, (a, b))


@dataclass(frozen=True, slots=True, eq=False)
class _Apart:
    """One piece in its own coordinates: lines from the corner on, how its edge sets off, and on which side the cloth lies."""

    corner: complex
    edge: Complex
    seam: Complex
    rim: Complex
    dart: Complex
    exact: complex
    measured: complex
    cloth_left: bool

    def facing(self, measured: bool, to_the_left: bool) -> Cloth:
        """The piece moved to 0, its edge setting off to one side with the cloth above: mirrored where it must be."""
        along = self.measured if measured else self.exact

        def moved(z: Complex) -> Complex:
            w: Complex = (z - self.corner) / along
            w = w if self.cloth_left else np.conj(w)
            return -np.conj(w) if to_the_left else w

        return Cloth(*map(moved, (self.edge, self.seam, self.rim, self.dart)))


def _apart(nest: Nest, spot: Spot, edge: str, size: int) -> _Apart | None:
    graded = nest.pieces[spot.piece]
    leaves = spot.line == edge  # the edge begins at the corner
    beside = graded.lines[spot.line].before if leaves else spot.line
    run, seam = (
        _from_corner(nest, spot.piece, edge, leaves, size),
        _from_corner(nest, spot.piece, beside, not leaves, size),
    )
    if not len(run) or not len(seam):
        return None
    out = flatten(run, EXACT).points
    rest = [out]
    turn, shift = _moved_by_darts(nest, graded.lines[edge], run, leaves, size)
    name = edge
    while (name := graded.lines[name].after if leaves else graded.lines[name].before) not in (beside, edge):
        line = flatten(nest.cubics_of(graded.lines[name], size), EXACT).points
        rest.append(turn * (line if leaves else line[::-1]) + shift)
    down = flatten(seam, EXACT).points
    return _Apart(
        corner=complex(run[0, 0]),
        edge=out,
        seam=down,
        rim=np.concatenate([*rest, down[::-1]]),
        dart=_first_dart(nest, graded.lines[edge], leaves, size),
        exact=complex(tangents(run, np.array([0]), np.zeros(1))[0]),
        measured=start_tangent_by_fit(run),
        cloth_left=leaves == (graded.sense > 0),
    )


def _moved_by_darts(nest: Nest, line: Line, run: Complex, leaves: bool, size: int) -> tuple[complex, complex]:
    """Turn and shift of what follows an edge, once the darts and pleats on it are shut: ``run``."""
    if not line.intakes:
        return 1 + 0j, 0j
    drawn = nest.cubics_of(line, size)
    drawn = drawn if leaves else reverse(drawn)
    turn = end_tangent_by_fit(run) / (end_tangent_by_fit(drawn) or 1.0)
    return turn, complex(run[-1, 3] - turn * drawn[-1, 3])


def _from_corner(nest: Nest, piece: str, edge: str, leaves: bool, size: int) -> Complex:
    """An edge as sewn, from the corner on, without nodes that are repeated there."""
    shut = edge_shut(nest, nest.pieces[piece].lines[edge], size, from_end=not leaves)
    run = shut if leaves else reverse(shut)
    first = next((k for k in range(len(run)) if np.ptp(np.abs(run[k] - run[k, 0])) > NO_LENGTH), len(run))
    return run[first:]


def _first_dart(nest: Nest, line: Line, leaves: bool, size: int) -> Complex:
    """The dart nearest to the corner. What lies before it has not moved, nor have its near foot and its point."""
    taken = mouths(nest, line, size)
    mouth = (taken[0] if leaves else taken[-1]) if taken else None
    if mouth is None or mouth.apex is None:
        return np.empty(0, dtype=complex)
    foot = nest.points(line, np.array([mouth.low if leaves else mouth.high]), size)
    return np.append(foot, mouth.apex)


def _is_measured(nest: Nest, corner: Corner) -> bool:
    """Which of the two readings of the angles is the one that counts: the one that is told."""
    both = [nest.corners[spot.piece, spot.line] for spot in corner.spots]
    off = [
        abs(sum(float(reading[corner.size]) for reading in readings) - STRAIGHT)
        for readings in ([angle.exact for angle in both], [angle.measured for angle in both])
    ]
    return off[1] < off[0]


def _angle(nest: Nest, spot: Spot, measured: bool, size: int) -> float:
    interior = nest.corners[spot.piece, spot.line]
    return float((interior.measured if measured else interior.exact)[size])


def _unit(degrees: float) -> complex:
    return complex(np.exp(1j * np.radians(degrees)))
