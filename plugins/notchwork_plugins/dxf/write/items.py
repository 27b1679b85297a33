"""What a piece is written as: lines, places and words, each in all the sizes that the piece has."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from notchwork_plugins.dxf.write.stated import Stated

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A line by its vertices (sizes, n), mm; NaN where a size has none.

    ``kinds`` (n,) says which vertices get points of their own (chords.CORNER, NODE); None: none do, as on lines inside a piece.
    """

    layer: int
    z: Complexes
    closed: bool = False
    kinds: Ints | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Spot:
    """A place (sizes,) in mm; of a notch also its depth (mm) and the angle (degrees) at which it runs into the piece."""

    layer: int
    z: Complexes
    depth: Floats | None = None
    angle: Floats | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Words:
    """A text at a place (sizes,), mm."""

    layer: int
    z: Complexes
    words: str
    height: float


Item = Line | Spot | Words


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A piece in the sizes in which it is one drawing: ``sizes`` by name, None where there is only one.

    ``said`` are its texts, written from ``at`` (mm) downward. ``shift`` (mm) is where it lies beside the others. ``alone`` says
    why it does not hold for all sizes of the piece together, "" where it does.
    """

    name: str
    sizes: tuple[str | None, ...]
    items: tuple[Item, ...]
    at: complex
    said: tuple[Stated, ...]
    shift: complex = 0j
    alone: str = ""
