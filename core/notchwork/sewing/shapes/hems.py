"""Hems: how deep they are turned, and how the cut edge fits the line on which it comes to lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from notchwork.geometry import tangents
from notchwork.model import Finish, in_size
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats, Line
from notchwork.sewing.shapes.cloth import share_cloth
from notchwork.sewing.ways.hands import LYING_ON_EACH_OTHER
from notchwork.sewing.ways.meeting import LineKey, beyond

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

KINK = 10.0
"""Degrees: a sharper turn at a node is a corner of the hem, which is mitred, not eased."""
NO_LENGTH = 0.1
"""mm: of an edge no longer than this nothing is turned."""
LOOKS = 17
"""Tangents taken along each cubic."""


@dataclass(frozen=True, slots=True, eq=False)
class Hem:
    """An edge that is turned up: its finished ``depth``, its ``length``, and how much it turns (radians), all by size.

    Turned up by d, a hem that bends outward is cut longer than the line it comes to lie on: by d times its turn outside the
    fold line, and again inside it.
    """

    line: Line
    finish: Finish
    depth: Floats
    length: Floats
    turn: Floats

    @property
    def cut(self) -> Floats:
        """The length (mm) of the parallel at the finished depth outside: where the turned edge is cut or first folded."""
        return self.length + self.turn * self.depth

    @property
    def lies_on(self) -> Floats:
        """The length (mm) of the parallel at the finished depth inside: where that edge comes to lie."""
        return self.length - self.turn * self.depth

    @property
    def excess(self) -> Floats:
        """By how many percent the cut edge is longer than the line it lies on; negative where it is shorter.

        NaN for an edge that has no length, infinite where no line is left to lie on.
        """
        with np.errstate(divide="ignore", invalid="ignore"):
            share = np.where(self.lies_on > 0, 100.0 * (self.cut / self.lies_on - 1.0), np.inf)
        return np.where(self.length > NO_LENGTH, share, np.nan)


@dataclass(frozen=True, slots=True, eq=False)
class HemsMeeting:
    """Two hems that meet where a seam ends."""

    seam: str
    one: LineKey
    other: LineKey
    depth: Floats
    other_depth: Floats


def finished_depth(graded: GradedPiece, edge: str, finish: Finish) -> Floats:
    """How deep a hem is when finished (mm, sizes).

    Where nothing is stated: the allowance, shared by its turns.
    """
    if finish.depth is not None:
        return np.array([in_size(finish.depth, size) for size in graded.sizes], dtype=float)
    return allowance(graded, edge) / max(finish.turns or 1, 1)


def hems(nest: Nest) -> Iterator[Hem]:
    """Every drawn edge with a hem."""
    for graded in nest.pieces.values():
        if not graded.has_shape or graded.is_strip:
            continue
        for name in graded.edges:
            edge = graded.written.edges.get(name)
            if edge is not None and edge.finish is not None and edge.finish.kind == "hem":
                line = graded.lines[name]
                turn = np.array(
                    [
                        graded.sense * turning(nest.cubics_of(line, size)) if graded.present[size] else np.nan
                        for size in range(len(nest.sizes))
                    ]
                )
                yield Hem(line, edge.finish, finished_depth(graded, name, edge.finish), line.length, turn)


def turning(run: Complex) -> float:
    """By how much (radians, positive to the left) a run of cubics (k, 4) turns, its corners left out."""
    if not len(run):
        return 0.0
    rows = np.repeat(np.arange(len(run)), LOOKS)
    along = tangents(run, rows, np.tile(np.linspace(0.0, 1.0, LOOKS), len(run)))
    rows, along = rows[along != 0], along[along != 0]
    steps = np.angle(along[1:] * np.conj(along[:-1]))
    corner = (rows[1:] != rows[:-1]) & (np.abs(steps) >= np.radians(KINK))
    return float(steps[~corner].sum())


def hems_meeting(nest: Nest) -> Iterator[HemsMeeting]:
    """Every two hems that meet at a seam's end and ought to be alike.

    Not those of layers that lie on each other, or of pieces from different cloths.
    """
    for ident, sides in nest.sides.items():
        seam = nest.pattern.seams[ident]
        if seam.closed or seam.over or seam.construction in ("bagged", *LYING_ON_EACH_OTHER):
            continue
        for other in sides[1:]:
            for at_start, k in ((True, 0), (False, -1)):
                keys = (beyond(sides[0].stretches[k], at_start), beyond(other.stretches[k], at_start))
                one, two = (_hem_at(nest, key) if key is not None else None for key in keys)
                if one is None or two is None or one[0] == two[0]:
                    continue
                if share_cloth(nest.pieces[one[0][0]], nest.pieces[two[0][0]]):
                    yield HemsMeeting(ident, one[0], two[0], one[1], two[1])


def _hem_at(nest: Nest, key: LineKey) -> tuple[LineKey, Floats] | None:
    graded = nest.pieces[key[0]]
    edge = graded.written.edges.get(key[1])
    if edge is None or edge.finish is None or edge.finish.kind != "hem":
        return None
    return key, finished_depth(graded, key[1], edge.finish)
