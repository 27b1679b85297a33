"""Affine maps of the plane on complex numbers: z becomes turn · z + flip · conj(z) + shift."""

from __future__ import annotations

import cmath
import math
from typing import NamedTuple

from notchwork.geometry.cubics import Complexes


class Affine(NamedTuple):
    """Every affine map has this form: ``turn`` alone turns and scales, ``flip`` alone mirrors, turns and scales."""

    turn: complex = 1 + 0j
    flip: complex = 0j
    shift: complex = 0j

    def __call__(self, z: complex) -> complex:
        return self.turn * z + self.flip * z.conjugate() + self.shift

    def of(self, points: Complexes) -> Complexes:
        """Where points of an array of any shape go."""
        moved: Complexes = self.turn * points + self.flip * points.conj() + self.shift
        return moved

    def after(self, first: Affine) -> Affine:
        """The map that does ``first`` and then this one."""
        a, b, _ = self
        c, d, _ = first
        return Affine(a * c + b * d.conjugate(), a * d + b * c.conjugate(), self(first.shift))

    def direction(self, z: complex) -> complex:
        """Where a vector goes."""
        return self.turn * z + self.flip * z.conjugate()

    @property
    def stretch(self) -> float:
        """By how much lengths grow at most."""
        return abs(self.turn) + abs(self.flip)

    @property
    def size(self) -> float:
        """The side of the square that has the area of a unit square's image."""
        return math.sqrt(abs(abs(self.turn) ** 2 - abs(self.flip) ** 2))

    @property
    def flattens(self) -> bool:
        """Whether areas become nothing."""
        return self.size <= 1e-9 * self.stretch


IDENTITY = Affine()


def matrix(a: float, b: float, c: float, d: float, e: float, f: float) -> Affine:
    """The map by which x becomes a·x + c·y + e, y becomes b·x + d·y + f."""
    return Affine(complex(a + d, b - c) / 2, complex(a - d, b + c) / 2, complex(e, f))


def translation(by: complex) -> Affine:
    return Affine(shift=by)


def scaling(x: float, y: float) -> Affine:
    return Affine(complex((x + y) / 2), complex((x - y) / 2))


def rotation(radians: float) -> Affine:
    return Affine(cmath.rect(1.0, radians))
