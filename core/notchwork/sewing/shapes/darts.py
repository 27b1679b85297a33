"""Darts as shapes: feet, legs, apexes, the angles at the mouth, and how the folded mouth lies on the seam line.

Closing a dart of full angle θ whose mouth (2a wide) was left straight makes a kink of θ in the seam: the folded edge falls
a·sin θ short of it. The true mouth stands a·tan θ proud of the straight one on the fold line (elementary geometry).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

import numpy as np

from notchwork.geometry import (
    Meeting,
    end_tangent_by_fit,
    flatten,
    intersections,
    lengths,
    lines,
    mirror,
    nearest,
    part,
    points,
    reverse,
    start_tangent_by_fit,
    tangents,
    turn_and_scale,
)
from notchwork.model import Dart, Leg, in_size
from notchwork.sewing.pieces.graded import GradedPiece
from notchwork.sewing.pieces.grading import Complex
from notchwork.sewing.pieces.lines import Floats, Line
from notchwork.sewing.pieces.places import position
from notchwork.sewing.shapes.folding import part_of

if TYPE_CHECKING:
    from notchwork.sewing.nest import Nest

BEYOND = 1000.0
"""mm by which a seam line is drawn on straight past its end, so that a wide dart can be laid on it."""

Way = Literal["low", "high"]
"""Towards the start or the end of its edge, in the outline's order."""


@dataclass(frozen=True, slots=True, eq=False)
class DartShape:
    """One dart in every size.

    ``line`` is the edge it takes in, None for a double-pointed dart. ``feet`` (sizes, 2) are points in the order in which
    they are written, ``apexes`` (sizes, 1 or 2), ``legs`` (sizes, 2 or 4, 4) cubics from foot to apex: of a double-pointed
    dart from the widest place to either apex. ``low`` and ``high`` (sizes) are the arc positions of the mouth.
    """

    piece: str
    name: str
    dart: Dart
    line: Line | None
    feet: Complex
    apexes: Complex
    legs: Complex
    low: Floats
    high: Floats

    @property
    def leg_lengths(self) -> Floats:
        """Arc lengths (sizes, legs) of the legs in mm."""
        flat = self.legs.reshape(-1, 4)
        known = np.isfinite(flat).all(axis=1)
        found = np.full(len(flat), np.nan)
        found[known] = lengths(flat[known])
        return found.reshape(self.legs.shape[:2])

    @property
    def mouth(self) -> Floats:
        """How wide (mm, sizes) the mouth is from foot to foot, straight across."""
        return np.abs(self.feet[:, 1] - self.feet[:, 0])

    @property
    def depth(self) -> Floats:
        """How far (mm, sizes) the point lies from the line between the feet, or the two points from each other; NaN where the
        feet lie on one spot."""
        if self.line is None:
            return np.abs(self.apexes[:, 1] - self.apexes[:, 0])
        across = self.feet[:, 1] - self.feet[:, 0]
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.abs(((self.apexes[:, 0] - self.feet[:, 0]) * np.conj(across)).imag / np.abs(across))

    @property
    def base_angles(self) -> Floats:
        """The angles (degrees, (sizes, 2)) at the feet in the triangle foot, foot, apex."""
        apex, across = self.apexes[:, 0], self.feet[:, 1] - self.feet[:, 0]
        first = np.angle((apex - self.feet[:, 0]) * np.conj(across))
        second = np.angle((self.feet[:, 1] - apex) * np.conj(across))
        return np.degrees(np.abs(np.stack([first, second], axis=1)))


def darts_of(nest: Nest, pieces: Iterable[str] | None = None) -> Iterator[DartShape]:
    """Every dart of all pieces, or of those named, whose shape is known."""
    for ident in nest.pieces if pieces is None else pieces:
        yield from nest.darts[ident]


def dart_shapes(nest: Nest, graded: GradedPiece) -> Iterator[DartShape]:
    """The darts of one piece whose shape is known. Ask ``darts_of``, which remembers them."""
    if not graded.has_shape:
        return
    for name, dart in graded.written.darts.items():
        if dart is None or name not in graded.apexes:
            continue
        if dart.apexes is not None and dart.width is not None:
            yield _double_pointed(nest, graded, name, dart)
        elif dart.feet is not None and dart.edge in graded.lines and dart.apex is not None:
            yield _at_an_edge(nest, graded, name, dart)


def _at_an_edge(nest: Nest, graded: GradedPiece, name: str, dart: Dart) -> DartShape:
    assert dart.edge is not None
    assert dart.feet is not None
    line = graded.lines[dart.edge]
    arcs = [np.clip(position(graded, line, foot), 0.0, line.length) for foot in dart.feet]
    sizes = range(len(nest.sizes))
    feet = np.array([[_point(nest, line, arc, size) for arc in arcs] for size in sizes])
    apexes = graded.apexes[name]
    base = _leg_nodes(dart.legs, feet[nest.base], complex(apexes[nest.base, 0]))
    legs = np.stack([_moved(base, feet[size], complex(apexes[size, 0])) for size in sizes])
    low, high = np.minimum(*arcs), np.maximum(*arcs)
    return DartShape(graded.id, name, dart, line, feet, apexes, legs, low, high)


def _point(nest: Nest, line: Line, arc: Floats, size: int) -> complex:
    return nest.point(line, arc, size) if np.isfinite(arc[size]) else complex(np.nan, np.nan)


def _leg_nodes(legs: tuple[Leg, Leg] | None, feet: Complex, apex: complex) -> Complex:
    """The legs (2, 4) in the base size."""
    rows = np.array([[foot, foot, apex, apex] for foot in feet])
    for k, leg in enumerate(legs or ()):
        rows[k, 1] = leg.out if leg.out is not None else rows[k, 1]
        rows[k, 2] = leg.into if leg.into is not None else rows[k, 2]
    return rows


def _moved(base: Complex, feet: Complex, apex: complex) -> Complex:
    """The legs with feet and apex where they lie in another size: handles follow the turn-and-scale of their ends."""
    rows = base.copy()
    for k, foot in enumerate(feet):
        if base[k, 0] == base[k, 3]:
            rows[k] = foot
            continue
        m, c = turn_and_scale(complex(base[k, 0]), complex(base[k, 3]), complex(foot), apex)
        rows[k] = m * base[k] + c
    return rows


def _double_pointed(nest: Nest, graded: GradedPiece, name: str, dart: Dart) -> DartShape:
    apexes = graded.apexes[name]
    sizes = nest.sizes
    assert dart.width is not None
    width = np.array([in_size(dart.width, size) for size in sizes])
    along = apexes[:, 1] - apexes[:, 0]
    far = np.abs(along)
    if isinstance(dart.at, str):
        at = far * float(dart.at.rstrip("% ")) / 100.0
    else:
        at = far / 2.0 if dart.at is None else np.full(len(sizes), float(dart.at))
    unit = np.divide(along, far, out=np.ones_like(along), where=far > 0)
    middle = apexes[:, 0] + at * unit
    feet = np.stack([middle + 1j * unit * width / 2, middle - 1j * unit * width / 2], axis=1)
    legs = np.stack(
        [
            np.stack([feet[:, f], feet[:, f], apexes[:, a], apexes[:, a]], axis=1)
            for a in (0, 1)
            for f in (0, 1)
        ],
        axis=1,
    )
    none = np.full(len(sizes), np.nan)
    return DartShape(graded.id, name, dart, None, feet, apexes, legs, none, none)


def pressed_towards(nest: Nest, shape: DartShape) -> Way | None:
    """Towards which end of its edge a dart is pressed; None where nothing is stated."""
    graded, line, towards = nest.pieces[shape.piece], shape.line, shape.dart.press
    if line is None or towards not in graded.edges or towards == line.name:
        return None
    order = list(graded.edges)
    ahead = (order.index(towards) - order.index(line.name)) % len(order)
    return "high" if ahead <= len(order) - ahead else "low"


def true_mouth(nest: Nest, shape: DartShape, size: int, way: Way) -> Complex | None:
    """The cubics (k, 4), from the low foot to the high one, that a mouth must follow to lie on the seam when folded ``way``.

    The seam on the side the dart is pressed to, reflected across that leg up to the fold line, then mirrored across the
    fold line. None where that does not reach the fold line.
    """
    fold = _Fold.of(nest, shape, size, way)
    if fold is None:
        return None
    laid = fold.laid_back(fold.seam)
    met = intersections(laid, lines(np.array([fold.apex, fold.apex + fold.reach * fold.bisector])))
    crossings = np.flatnonzero(met.kinds != Meeting.OVERLAP)
    if not len(crossings):
        return None
    k = crossings[0]
    row, t = int(met.a_rows[k]), float(met.a_t[k])
    half = np.concatenate([laid[:row], part(laid[row], 0.0, t)[None, :]])
    half = half[np.abs(half[:, 3] - half[:, 0]) > 1e-9]
    other = reverse(mirror(half, fold.apex, fold.apex + fold.bisector))
    there_and_back: Complex = np.concatenate([half, other])
    return there_and_back if way == "low" else reverse(there_and_back)


def falls_short(nest: Nest, shape: DartShape, size: int, way: Way) -> float:
    """How far (mm) the drawn mouth, folded shut and laid ``way``, falls short of the seam line; NaN where unknown."""
    fold = _Fold.of(nest, shape, size, way)
    if fold is None or shape.line is None:
        return float("nan")
    mouth = part_of(nest, shape.line, float(shape.low[size]), float(shape.high[size]), size)
    if not len(mouth):
        return 0.0
    z = flatten(mouth, 0.02).points
    beside = (np.conj(fold.bisector) * (z - fold.apex)).imag * fold.near_side
    k = np.flatnonzero(beside[1:] * beside[:-1] < 0)
    folded = z[k] + (z[k + 1] - z[k]) * beside[k] / (beside[k] - beside[k + 1])
    # Both halves of the mouth come to lie on each other beside the near leg.
    z = np.where(beside < 0, mirror(z, fold.apex, fold.apex + fold.bisector), z)
    z = np.append(z, folded)
    laid = fold.laid_back(z)
    found = nearest(fold.seam, laid)
    along = tangents(fold.seam, found.row, found.t)
    off = laid - points(fold.seam, found.row, found.t)
    inside = (np.conj(along) * off).imag * fold.cloth
    return max(0.0, float(np.max(inside)))


class _Fold(NamedTuple):
    """A dart about to be pressed: the seam line away from its near foot, drawn on straight past its end."""

    near: complex
    apex: complex
    bisector: complex
    near_side: float
    reach: float
    seam: Complex
    cloth: float

    @classmethod
    def of(cls, nest: Nest, shape: DartShape, size: int, way: Way) -> _Fold | None:
        line, apex = shape.line, complex(shape.apexes[size, 0])
        low, high = float(shape.low[size]), float(shape.high[size])
        if line is None or not np.isfinite(high) or high - low < 1e-6:
            return None
        ends = [_point(nest, line, shape.low, size), _point(nest, line, shape.high, size)]
        near, far = ends if way == "low" else ends[::-1]
        if min(abs(near - apex), abs(far - apex)) < 1e-6:
            return None
        bisector = (near - apex) / abs(near - apex) + (far - apex) / abs(far - apex)
        if abs(bisector) < 1e-9:
            return None
        bisector /= abs(bisector)
        side = 1.0 if (bisector.conjugate() * (near - apex)).imag > 0 else -1.0
        if way == "low":
            seam = reverse(part_of(nest, line, 0.0, low, size))
        else:
            seam = part_of(nest, line, high, float(line.length[size]), size)
        if not len(seam):
            seam = _mouth_drawn_on(nest, line, low, high, size, near, way)
        # Walking away from the mouth towards the start of the edge turns the side on which the cloth lies.
        cloth = nest.pieces[shape.piece].sense * (1.0 if way == "high" else -1.0)
        reach = 10.0 * max(abs(near - apex), abs(far - apex))
        return cls(near, apex, bisector, side, reach, _drawn_on(seam), cloth)

    def laid_back(self, z: Complex) -> Complex:
        """Points reflected across the near leg: from the fold on to the cloth beside it, or back."""
        return mirror(z, self.near, self.apex)


def _drawn_on(seam: Complex) -> Complex:
    end = complex(seam[-1, 3])
    on: Complex = lines(np.array([end, end + BEYOND * end_tangent_by_fit(seam)]))
    return np.concatenate([seam, on])


def _mouth_drawn_on(
    nest: Nest, line: Line, low: float, high: float, size: int, near: complex, way: Way
) -> Complex:
    """Where the mouth begins at the edge's very end, the seam goes on straight from it."""
    mouth = part_of(nest, line, low, high, size)
    out = -start_tangent_by_fit(mouth) if way == "low" else end_tangent_by_fit(mouth)
    straight: Complex = lines(np.array([near, near + out]))
    return straight
