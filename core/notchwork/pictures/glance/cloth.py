"""What is drawn of a piece in one size, as lines in px."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.draw.places import places_on
from notchwork.draw.signs import NICKS, SPACING, grain_strokes
from notchwork.geometry import flatten
from notchwork.pictures.glance.frame import Frame
from notchwork.sewing import GradedPiece, Line, Nest
from notchwork.sewing.pieces.allowances import allowance
from notchwork.sewing.shapes.cutlines import CutLine

Complexes = NDArray[np.complex128]

EXACT = 0.1
"""px: how nearly lines follow their curves."""
INSIDE, OUTSIDE = 3.0, 4.0
"""px that a notch reaches to either side of the stitch line."""
NICKS_APART = 3.0
"""px between the nicks of a double or triple notch at least."""
PLEAT = 14.0
"""px of a pleat's folds that are drawn."""
ON_FOLD = 0.05
"""mm: what lies this near to a fold's line lies on it."""


@dataclass(frozen=True, slots=True, eq=False)
class Cloth:
    """A piece in one size in px: its edges by name, the closed stitch line, and what is drawn on them.

    ``cut`` is the cut line, None where nothing is added; ``folds`` run on through hems, as far as the cloth does.
    """

    edges: Mapping[str, Complexes]
    ring: Complexes
    cut: Complexes | None
    folds: Mapping[str, Complexes]
    notches: tuple[Complexes, ...]
    takes: tuple[Complexes, ...]
    inner: Mapping[str, Complexes]
    cutouts: Mapping[str, Complexes]
    marks: tuple[complex, ...]
    grain: tuple[complex, complex] | None


def cloth(nest: Nest, graded: GradedPiece, size: int, frame: Frame, cut: CutLine | None) -> Cloth:
    """Everything that is drawn of a piece with a shape in a size in which it exists."""
    edges = {edge: _line(nest, graded.lines[edge], size, frame) for edge in graded.edges}
    added = graded.written.outline_is is None and any(
        float(allowance(graded, edge)[size]) > 0 for edge in graded.edges
    )
    drawn = {
        name: _line(nest, line, size, frame)
        for name, line in graded.lines.items()
        if line.kind != "edge" and line.rows is not None and np.isfinite(line.length[size])
    }
    return Cloth(
        edges=edges,
        ring=np.concatenate([points[:-1] for points in edges.values()]),
        cut=frame.of(cut.points) if cut is not None and added and len(cut.points) > 2 else None,
        folds={fold: _fold(nest, graded.lines[fold], size, frame, cut) for fold in graded.folds},
        notches=tuple(_notches(nest, graded, size, frame)),
        takes=(*_darts(nest, graded, size, frame), *_pleats(nest, graded, size, frame)),
        inner={name: points for name, points in drawn.items() if graded.lines[name].kind == "inner"},
        cutouts={name: points for name, points in drawn.items() if graded.lines[name].kind == "cutout"},
        marks=tuple(complex(frame.of(at[size : size + 1])[0]) for at in graded.marks.values()),
        grain=_grain(nest, graded, size, frame),
    )


def _line(nest: Nest, line: Line, size: int, frame: Frame) -> Complexes:
    return frame.of(flatten(nest.cubics_of(line, size), EXACT / frame.scale).points)


def _fold(nest: Nest, line: Line, size: int, frame: Frame, cut: CutLine | None) -> Complexes:
    cubics = nest.cubics_of(line, size)
    a, along = complex(cubics[0, 0]), complex(cubics[-1, 3] - cubics[0, 0])
    if not along:
        return frame.of(np.array([a, a]))
    low, high = 0.0, 1.0
    if cut is not None and len(cut.points):
        reached = (cut.points - a) / along
        there = reached.real[np.abs(reached.imag) * abs(along) < ON_FOLD]
        low, high = min(low, *there, 0.0), max(high, *there, 1.0)
    return frame.of(a + along * np.array([low, high]))


def _notches(nest: Nest, graded: GradedPiece, size: int, frame: Frame) -> Iterator[Complexes]:
    for name, notch in graded.written.notches.items():
        at = nest.notches.get((graded.id, name))
        if notch is None or at is None or not np.isfinite(at[size]):
            continue
        line = graded.lines[notch.edge]
        if line.rows is None:
            continue
        count = NICKS[notch.kind]
        apart = max(notch.spacing or SPACING, NICKS_APART / frame.scale)
        arcs = [float(at[size]) + (k - (count - 1) / 2) * apart for k in range(count)]
        arcs = np.clip(arcs, 0.0, float(line.length[size])).tolist()
        for z, outward in zip(*along(nest, graded, line, arcs, size, frame), strict=True):
            yield np.array([z - INSIDE * outward, z + OUTSIDE * outward])


def along(
    nest: Nest, graded: GradedPiece, line: Line, arcs: list[float], size: int, frame: Frame
) -> tuple[Complexes, Complexes]:
    """Points (px) at arc positions (mm) of a line, and the unit directions off the cloth there."""
    at, outward = places_on(nest, graded, line, arcs, size)
    return frame.of(at), frame.direction(outward)


def _darts(nest: Nest, graded: GradedPiece, size: int, frame: Frame) -> Iterator[Complexes]:
    for shape in nest.darts[graded.id]:
        for leg in shape.legs[size]:
            if np.isfinite(leg).all():
                yield frame.of(flatten(leg[None, :], EXACT / frame.scale).points)


def _pleats(nest: Nest, graded: GradedPiece, size: int, frame: Frame) -> Iterator[Complexes]:
    for line in graded.lines.values():
        for intake in line.intakes:
            if intake.kind == "pleat" and line.rows is not None and np.isfinite(intake.high[size]):
                ends = [float(intake.low[size]), float(intake.high[size])]
                for z, outward in zip(*along(nest, graded, line, ends, size, frame), strict=True):
                    yield np.array([z, z - PLEAT * outward])


def _grain(nest: Nest, graded: GradedPiece, size: int, frame: Frame) -> tuple[complex, complex] | None:
    shaft = next(grain_strokes(nest, graded, [size]), None)
    if shaft is None:
        return None
    a, b = shaft.cubics[0, 0], shaft.cubics[-1, 3]
    # Across a tear its ends would meet: only its middle is placed.
    middle, step = frame.of(np.array([(a + b) / 2])), frame.direction(np.array([b - a])) * frame.scale
    return complex(middle[0] - step[0] / 2), complex(middle[0] + step[0] / 2)
