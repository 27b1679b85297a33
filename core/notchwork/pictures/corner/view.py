"""A corner on its picture: turned, to scale, cut off where the picture ends. In px about the corner, y downward."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork.findings import PersonUnit
from notchwork.pictures.corner.clip import Box, area_within, line_within
from notchwork.pictures.corner.found import Corner
from notchwork.pictures.corner.laid import Laid
from notchwork.pictures.picture import MM

Complexes = NDArray[np.complex128]

HALF = 164.0
"""px to either side of the corner."""
UP, UP_MOST, DOWN_MOST = 62.0, 170.0, 130.0
"""px of cloth above the corner at least and at most, and what may hang below it at most."""
OVER = 40.0
"""px of cloth above the highest point of an edge, for names."""
UNDER = 8.0
"""px below the lowest."""
SCALES = {2.0: "twice life size", 1.0: "life size", 0.5: "half life size", 0.1: "a tenth of life size"}
"""How large a corner is drawn, the largest first, in words."""
STEPS = {2.0: 7.0, 1.0: 28.0, 0.5: 56.0}
"""mm that a step may be to be drawn so large."""
LEAST_CELL = 15.0
"""px: a square of the net is no smaller."""
LEANS = 40.0
"""Degrees from upright that a seam leans at most, so that its edge can lie level."""


@dataclass(frozen=True, slots=True, eq=False)
class View:
    """What is drawn. ``flipped``: the cloth lies below its edge, as at a waist.

    ``cloths`` are areas, ``edges`` lines from the corner on (of the second piece from the end of the first, so that a step
    shows), ``darts`` what is sewn shut beside the corner, ``wanted`` the
    lines on which edges would run on, ``between`` what lies between those and the edges. ``leaves`` is how
    far (mm) an edge is off where the picture ends.
    """

    enlarged: float
    flipped: bool
    cloths: tuple[Complexes, Complexes]
    edges: tuple[Complexes, Complexes]
    seam: Complexes
    darts: tuple[Complexes, ...]
    wanted: tuple[Complexes, ...]
    between: tuple[Complexes, ...]
    leaves: float

    @property
    def scale(self) -> float:
        """px a mm."""
        return self.enlarged / MM

    def cell(self, unit: PersonUnit) -> float:
        """mm: the side of a square of the net, a round figure in the person's unit."""
        first, *more = (25.4 / 4.0, 25.4 / 2.0, 50.8) if unit == "in" else (5.0, 10.0, 50.0)
        return next((cell for cell in (first, *more) if cell * self.scale >= LEAST_CELL), more[-1])

    @property
    def reach(self) -> tuple[float, float]:
        """How far up and down (px) anything is drawn."""
        ys = np.concatenate([part.imag for part in (*self.cloths, *self.edges, *self.between)])
        return float(-ys.min()), float(ys.max())


def view(corner: Corner, there: Laid, flipped: bool) -> View:
    """A corner to scale: twice life size, smaller where a step takes more room."""
    enlarged = next((size for size, most in STEPS.items() if abs(corner.stepped) <= most), min(SCALES))
    scale = enlarged / MM
    factor = scale * _turn(there.seam)
    edges = [cloth.edge * factor for cloth in there.cloths]
    edges[1] = np.concatenate([[0j], edges[1]]) if corner.stepped else edges[1]
    wanted = [line * factor for _, line in there.wanted]
    widest = Box(complex(-HALF, -DOWN_MOST), complex(HALF, UP_MOST - OVER))
    ys = np.concatenate([[0.0], *(line_within(line, widest).imag for line in (*edges, *wanted))])
    box = Box(
        complex(-HALF, max(float(ys.min()) - UNDER, -DOWN_MOST)),
        complex(HALF, max(UP, float(ys.max()) + OVER)),
    )
    shown = [line_within(line, box) for line in (*edges, *wanted)]
    real = [edges[number] for number, _ in there.wanted]
    far = max(abs(line_within(line, widest)[-1]) for line in wanted) / scale

    def out(z: Complexes) -> Complexes:
        return np.asarray(z if flipped else np.conj(z), dtype=complex)

    return View(
        enlarged,
        flipped,
        (
            out(area_within(there.cloths[0].rim * factor, box)),
            out(area_within(there.cloths[1].rim * factor, box)),
        ),
        (out(shown[0]), out(shown[1])),
        out(line_within(there.cloths[0].seam * factor, box)),
        tuple(out(line_within(cloth.dart * factor, box)) for cloth in there.cloths),
        tuple(out(line) for line in shown[2:]),
        tuple(
            out(area_within(np.concatenate([_near(line), _near(edge)[::-1]]), box))
            for line, edge in zip(wanted, real, strict=True)
        ),
        2.0 * far * float(np.sin(np.radians(abs(float(corner.off[corner.size])) / 2.0))),
    )


def _near(line: Complexes) -> Complexes:
    """The line up to where it is well out of the picture, so that nothing of it comes back in."""
    far = np.flatnonzero(np.abs(line) > 4.0 * HALF)
    return line[: int(far[0]) + 1] if len(far) else line


def _turn(seam: complex) -> complex:
    """The first edge lies level; it leans only where the seam would lean too far."""
    lean = 90.0 - float(np.degrees(np.angle(seam)))
    over = np.sign(lean) * max(abs(lean) - LEANS, 0.0)
    return complex(np.exp(1j * np.radians(over)))
