"""The signs on one piece in one size: what its strokes and points are, before any size is laid on another."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from notchwork.drawing import Stroke
from notchwork.recognise.shape import Inner

Complexes = NDArray[np.complex128]


@dataclass(frozen=True, slots=True)
class Nick:
    """A notch on an edge: the arc positions (mm) of its one, two or three nicks. ``name`` where the drawing gives it.

    ``place_only``: it marks a place and meets nothing.
    """

    edge: int
    arcs: tuple[float, ...]
    name: str | None = None
    place_only: bool = False

    @property
    def arc(self) -> float:
        return float(np.mean(self.arcs))

    @property
    def spacing(self) -> float | None:
        """mm between its nicks; None of a single one."""
        return (self.arcs[-1] - self.arcs[0]) / (len(self.arcs) - 1) if len(self.arcs) > 1 else None


@dataclass(frozen=True, slots=True, eq=False)
class Wedge:
    """A dart: arc positions (mm) of its feet on an edge, and its legs (2, 4) from those feet to the apex.

    Double-pointed: ``edge`` is None, ``legs`` (4, 4) run from the widest place to either apex, two and two. ``press`` is the
    edge it is pressed towards.
    """

    edge: int | None
    feet: tuple[float, float]
    legs: Complexes
    name: str | None = None
    press: str | None = None


@dataclass(frozen=True, slots=True)
class Folded:
    """A pleat: arc positions (mm) of its two folds on an edge, and the edge it is laid ``to`` where that is known."""

    edge: int
    low: float
    high: float
    to: str | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True)
class Spotted:
    """A mark inside the piece."""

    at: complex
    kind: str | None = None
    name: str | None = None


@dataclass(slots=True, eq=False)
class Signs:
    """Everything made out on one piece in one size; ``unread`` is what nothing was made of."""

    nicks: list[Nick] = field(default_factory=list)
    wedges: list[Wedge] = field(default_factory=list)
    pleats: list[Folded] = field(default_factory=list)
    grain: tuple[complex, complex] | None = None
    marks: list[Spotted] = field(default_factory=list)
    inner: list[Inner] = field(default_factory=list)
    cutouts: list[Inner] = field(default_factory=list)
    unread: list[Stroke] = field(default_factory=list)


def ends_of(stroke: Stroke | Complexes) -> tuple[complex, complex]:
    """Start and end of a run."""
    cubics = stroke if isinstance(stroke, np.ndarray) else stroke.cubics
    return complex(cubics[0, 0]), complex(cubics[-1, 3])
