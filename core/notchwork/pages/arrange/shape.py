"""Group -> Shape: what it covers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.drawing import Group
from notchwork.geometry import flatten
from notchwork.geometry.cubics import Complexes, Floats

AROUND = 0.5
"""mm: as far beyond the middle of every line a shape reaches, so that chords and the width of lines lie inside it."""
SIMPLER = 0.4
"""mm: a shape has as few corners as it can have within that; it grows by as much before, so that nothing is cut off."""
_CHORDS = 0.05
_ARC = 0.05
_STEPS = 1000.0


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """What a group covers: closed polylines (k,) in mm, counter-clockwise, apart from each other, each filled.

    Of what is drawn nothing lies outside; a shape made by ``shape_of`` reaches at most AROUND + 2 SIMPLER beyond it, save
    that gaps inside it are filled. No rings: nothing is drawn.
    """

    rings: tuple[Complexes, ...]

    @property
    def points(self) -> Complexes:
        """All corners (m,)."""
        return np.concatenate(self.rings) if self.rings else np.zeros(0, dtype=np.complex128)


def shape_of(group: Group) -> Shape:
    """What the lines, points and words of a group cover, in its own coordinates (its shift plays no part).

    What a closed line surrounds is covered, also where several lines close it end to end.
    """
    from pyclipr import ClipperOffset, EndType, JoinType, simplifyPaths

    grown = ClipperOffset()
    grown.scaleFactor = _STEPS
    grown.arcTolerance = _ARC * _STEPS
    runs = [flatten(stroke.cubics, _CHORDS).points for stroke in group.strokes if len(stroke.cubics)]
    runs += [np.array([*text.box, text.box[0]]) for text in group.texts]
    runs += [np.array([dot.at]) for dot in group.dots]
    for run in runs:
        grown.addPath(_pairs(run), JoinType.Round, EndType.Round)
    if not runs:
        return Shape(())
    outer = _outer(grown.execute(AROUND + SIMPLER + _CHORDS))
    simple = simplifyPaths([_pairs(ring) for ring in outer], SIMPLER, _STEPS)
    return Shape(tuple(_outer(simple)))


def _outer(paths: Sequence[Floats]) -> list[Complexes]:
    """The outer rings of what closed lines wind about."""
    from pyclipr import Clipper, FillRule, Subject, Union

    clipper = Clipper()
    clipper.scaleFactor = _STEPS
    clipper.addPaths(paths, Subject, False)
    found = [path[:, 0] + 1j * path[:, 1] for path in clipper.execute(Union, FillRule.NonZero)]
    return [ring for ring in found if _area(ring) > 0.0]


def _area(ring: Complexes) -> float:
    return float((ring.conj() * np.roll(ring, -1)).imag.sum()) / 2.0


def _pairs(z: Complexes) -> Floats:
    return np.stack([z.real, z.imag], axis=1)
