"""Group -> Shape: what it covers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from notchwork.drawing import Group
from notchwork.geometry import flatten
from notchwork.geometry.cubics import Complexes, Floats

AROUND = 0.5
"""mm beyond the middle of every line that a shape reaches at least, so that the width of lines lies inside it too."""
SIMPLER = 0.4
"""mm: a shape has few corners within that; it grows by as much before, so that nothing is cut off."""
REACHES = 1.5
"""mm: a shape lies nowhere further beyond what is drawn; AROUND, twice SIMPLER, and what chords need."""
ROUND = 0.02
"""mm: corners are rounded by chords that lie no further inside the arc."""
BESIDE = 12.0
"""mm: parts of a group no further apart than twice this are one: another piece's lines between them would be taken for its own."""
_STEPS = 10_000.0
_AT_ONCE = 16
"""Lines that are united in one go."""
_LEAST_AREA = 1e-6
_THIN = 0.01
"""mm: half the width that is taken for what covers no area."""


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """What a group covers: closed polylines (k,) in mm, each filled; no rings if nothing is drawn.

    Nothing of what is drawn lies outside. Of a shape that ``shape_of`` made no point lies further than REACHES from something
    drawn, unless lines close round it, or it lies between parts that are no further than 2 BESIDE apart.
    """

    rings: tuple[Complexes, ...]

    @property
    def points(self) -> Complexes:
        """All corners (m,)."""
        return np.concatenate(self.rings) if self.rings else np.zeros(0, dtype=np.complex128)

    @property
    def area(self) -> float:
        """mm² that the rings surround."""
        return sum(abs(_area(ring)) for ring in self.rings)


def shape_of(group: Group) -> Shape:
    """What the lines, points and words of a group cover, in its own coordinates (its shift plays no part).

    What a closed line surrounds is covered, also where several lines close it end to end; and the space between an outline
    and the words beside it.
    """
    runs = [flatten(stroke.cubics).points for stroke in group.strokes if len(stroke.cubics)]
    runs += [np.array([*text.box, text.box[0]]) for text in group.texts]
    runs += [np.array([dot.at]) for dot in group.dots]
    if not runs:
        return Shape(())
    from pyclipr import simplifyPaths  # not loaded by those who never print

    outer = _covered(runs, AROUND + SIMPLER + 0.05 + ROUND)
    if len(outer) > 1:
        outer = _united(_brought_together(outer) + outer)
    simple = simplifyPaths([_pairs(ring) for ring in outer], SIMPLER, _STEPS)
    return Shape(tuple(_united([path[:, 0] + 1j * path[:, 1] for path in simple])))


def grown(shape: Shape, by: float) -> Shape:
    """The shape with ``by`` mm more all round; what covers no area is a hair wide first."""
    flat = [ring for ring in shape.rings if abs(_area(ring)) <= _LEAST_AREA]
    solid = _united([ring for ring in shape.rings if abs(_area(ring)) > _LEAST_AREA])
    if flat:
        solid += _widened([np.append(ring, ring[:1]) for ring in flat], _THIN)
    if by <= 0.0:
        return Shape(tuple(solid))
    from pyclipr import ClipperOffset, EndType, JoinType

    offset = ClipperOffset()
    offset.scaleFactor, offset.arcTolerance = _STEPS, ROUND * _STEPS
    offset.addPaths([_pairs(ring) for ring in solid], JoinType.Round, EndType.Polygon)
    return Shape(tuple(_united(_complexes(offset.execute(by)))))


def _covered(runs: Sequence[Complexes], by: float) -> list[Complexes]:
    """The outer boundaries of what a round pen of radius ``by`` covers along polylines, and of all that it surrounds.

    They are united by halves: what lies inside of one half is gone before it crosses all lines of the other, as those of many sizes do.
    """
    if len(runs) <= _AT_ONCE:
        return _united(_widened(runs, by))
    half = len(runs) // 2
    return _united(_covered(runs[:half], by) + _covered(runs[half:], by))


def _widened(runs: Sequence[Complexes], by: float) -> list[Complexes]:
    """What a round pen of radius ``by`` covers along polylines."""
    from pyclipr import ClipperOffset, EndType, JoinType

    pen = ClipperOffset()
    pen.scaleFactor, pen.arcTolerance = _STEPS, ROUND * _STEPS
    for run in runs:
        pen.addPath(_pairs(run), JoinType.Round, EndType.Round)
    return _complexes(pen.execute(by))


def _brought_together(rings: Sequence[Complexes]) -> list[Complexes]:
    """The rings with what lies between them where they are near each other."""
    wide = grown(Shape(tuple(rings)), BESIDE).rings
    from pyclipr import ClipperOffset, EndType, JoinType

    back = ClipperOffset()
    back.scaleFactor, back.arcTolerance = _STEPS, ROUND * _STEPS
    back.addPaths([_pairs(ring) for ring in wide], JoinType.Round, EndType.Polygon)
    return _complexes(back.execute(-BESIDE))


def _united(rings: Sequence[Complexes]) -> list[Complexes]:
    """The outer boundaries of all that the rings surround, whichever way they run; what surrounds nothing is gone."""
    from pyclipr import Clipper, FillRule, Subject, Union

    solid = [_pairs(ring if area > 0 else ring[::-1]) for ring in rings if (area := _area(ring))]
    if not solid:
        return []
    clipper = Clipper()
    clipper.scaleFactor = _STEPS
    clipper.addPaths(solid, Subject, False)
    return [ring for ring in _complexes(clipper.execute(Union, FillRule.Positive)) if _area(ring) > 0.0]


def _area(ring: Complexes) -> float:
    near = ring - ring[0]
    return float((near.conj() * np.roll(near, -1)).imag.sum()) / 2.0


def _pairs(z: Complexes) -> Floats:
    return np.stack([z.real, z.imag], axis=1)


def _complexes(paths: Iterable[Floats]) -> list[Complexes]:
    return [path[:, 0] + 1j * path[:, 1] for path in paths]
