"""Where on its piece a finding stands: by a dart, a notch or a point, along an edge, or by nothing but the piece's name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from notchwork.geometry import nearest
from notchwork.pictures.ends import ends_beyond
from notchwork.pictures.glance.cloth import Complexes, along
from notchwork.pictures.glance.frame import Frame
from notchwork.pictures.glance.rings import SHARES, arcs_of
from notchwork.pictures.glance.told import Told
from notchwork.sewing import GradedPiece, Line, Nest, Stretch
from notchwork.sewing.counts.openings import layers_of

OF_THE_GRAIN = frozenset({"pieces/grain-against-fold"})
"""Checks whose place is an edge and whose matter is the thread."""
THREAD = ("grain",)
CLEAR_OF_THREAD = 12.5
"""px from the arrow of the thread to the middle of its sign, so that the arrow keeps its place."""


@dataclass(frozen=True, slots=True, eq=False)
class Spot:
    """``key`` is alike for what stands at one place. ``at`` are places (px) to stand by, the best first, with the ways off the
    cloth; ``outward`` is None about a single point, of which the sign then stays ``clear`` (px). ``inner``: cloth lies on both
    sides."""

    key: tuple[str, ...]
    at: Complexes
    outward: Complexes | None = None
    inner: bool = False
    clear: float = 0.0


def spot_of(nest: Nest, graded: GradedPiece, told: Told, size: int, frame: Frame) -> Spot | None:
    """The spot of a finding on its piece in a size; None where it names nothing that is drawn."""
    point = _point(nest, graded, told, size)
    if point is not None:
        key, z = point
        clear = CLEAR_OF_THREAD if key == THREAD else 0.0
        return Spot(key, frame.of(np.array([z])), clear=clear) if np.isfinite(z) else None
    for line, arcs in _lines(nest, graded, told, size):
        if line.rows is not None and np.isfinite(arcs).all():
            at, outward = along(nest, graded, line, arcs, size, frame)
            return Spot(("line", line.name), at, outward, line.kind != "edge")
    return None


def _point(nest: Nest, graded: GradedPiece, told: Told, size: int) -> tuple[tuple[str, ...], complex] | None:
    """A single point in mm, as the finding names it: the smallest thing first."""
    place = told.place
    if told.graded.rule.id in OF_THE_GRAIN and graded.grainline is not None:
        return THREAD, complex(graded.grainline[size].mean())
    for shape in nest.darts[graded.id]:
        if shape.name == place.dart:
            return ("dart", shape.name), complex(shape.feet[size].mean())
    if place.mark in graded.marks:
        return ("mark", place.mark or ""), complex(graded.marks[place.mark or ""][size])
    line = graded.lines.get(place.line or "")
    if line is not None and line.rows is not None:
        at = nest.notches.get((graded.id, place.notch or ""))
        if at is None:
            pleat = (i for i in line.intakes if i.kind == "pleat" and i.name == place.pleat)
            at = next(((i.low + i.high) / 2 for i in pleat), None)
        if at is not None and np.isfinite(at[size]):
            return ("on", line.name, f"{at[size]:.1f}"), nest.point(line, at, size)
    if place.point is not None:
        point = place.point if told.exact else _moved(nest, line, place.point, size)
        if point is not None:
            return ("point", f"{point:.1f}"), point
    return _seam_end(nest, graded, told, size)


def _moved(nest: Nest, line: Line | None, point: complex, size: int) -> complex | None:
    """A point of the drafted size in another one: as far along its line; None where that is not known."""
    if size == nest.base:
        return point
    if line is None or line.rows is None or not (np.isfinite(line.length[[size, nest.base]]).all()):
        return None
    cubics = nest.cubics_of(line, nest.base)
    found = nearest(cubics, np.array([point]))
    row, t = int(found.row[0]), float(found.t[0])
    here = nest.cubics_of(line, size)
    if len(here) != len(cubics):
        return None
    # The same place of the same curve: sizes are graded node by node.
    weights = np.array([(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3])
    return complex(here[row] @ weights)


def _seam_end(
    nest: Nest, graded: GradedPiece, told: Told, size: int
) -> tuple[tuple[str, ...], complex] | None:
    """The end of a seam, where the finding names an edge beyond it: on the piece that has the edge, and on the others."""
    for named in told.graded.places:
        for k in ends_beyond(nest, named):
            for side in nest.sides[named.seam or ""]:
                stretch = side.stretches[k]
                if stretch.graded.id == graded.id and stretch.line.rows is not None:
                    at = stretch.start if k == 0 else stretch.stop
                    if np.isfinite(at[size]):
                        point = nest.point(stretch.line, at, size)
                        return ("point", f"{point:.1f}"), point
    return None


def _lines(nest: Nest, graded: GradedPiece, told: Told, size: int) -> Iterator[tuple[Line, list[float]]]:
    """The line that is named, else what the seams or the opening that are named take of the piece; with positions in mm."""
    line = graded.lines.get(told.place.line or "")
    if line is not None:
        length = float(line.length[size])
        yield line, [share * length for share in SHARES]
        return
    for stretch in _stretches(nest, told):
        if stretch.graded.id == graded.id:
            yield stretch.line, arcs_of(stretch, size)


def _stretches(nest: Nest, told: Told) -> Iterator[Stretch]:
    for named in told.graded.places:
        for side in nest.sides.get(named.seam or "", ()):
            yield from side.stretches
        if (opening := nest.pattern.openings.get(named.opening or "")) is not None:
            for layers in layers_of(nest, opening):
                for layer in layers:
                    yield from layer.stretches
