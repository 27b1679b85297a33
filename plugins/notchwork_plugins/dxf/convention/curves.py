"""The polylines of many blocks as smooth curves, all fitted at once."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field

import numpy as np

from notchwork.geometry import is_straight
from notchwork.geometry.fitting import Fitted, fitted
from notchwork_plugins.dxf.convention.outline import Ring
from notchwork_plugins.dxf.convention.sheet import Complexes
from notchwork_plugins.dxf.convention.told import Told


@dataclass(slots=True, eq=False)
class _Asked:
    z: Complexes
    closed: bool
    corners: Sequence[int] | None
    nodes: Sequence[int]


@dataclass(slots=True, eq=False)
class Curves:
    """Polylines by a key of the caller's; ``fit`` lays curves through all of them, ``of`` gives each.

    ``chord`` is how far (mm) chords may stray from the curve they stand for.
    """

    chord: float
    asked: dict[Hashable, _Asked] = field(default_factory=dict)
    found: dict[Hashable, Fitted] = field(default_factory=dict)

    def ask(
        self, key: Hashable, z: Complexes, closed: bool, corners: Sequence[int] | None, nodes: Sequence[int]
    ) -> None:
        """A polyline with its corners (those that it shows, if None) and nodes."""
        self.asked[key] = _Asked(z, closed, corners, nodes)

    def ask_ring(self, key: Hashable, z: Complexes, ring: Ring) -> None:
        self.ask(key, z, True, sorted({*ring.corners, *ring.breaks}), sorted(ring.nodes))

    def fit(self, told: Told) -> None:
        """Fit everything that is not yet; how far curves lie beside their points is told."""
        left = [key for key in self.asked if key not in self.found]
        stated = [key for key in left if self.asked[key].corners is not None]
        shown = [key for key in left if self.asked[key].corners is None]
        for keys in (stated, shown):
            several = [self.asked[key] for key in keys]
            if not several:
                continue
            corners = [one.corners or () for one in several] if keys is stated else None
            made = fitted(
                [one.z for one in several],
                [one.closed for one in several],
                corners,
                [one.nodes for one in several],
                self.chord,
            )
            self.found |= dict(zip(keys, made, strict=True))
            bent = [int((~is_straight(one.cubics)).sum()) for one in made]
            told.curves(sum(bent), max((one.off for one in made), default=0.0))

    def of(self, key: Hashable) -> Complexes:
        return self.found[key].cubics

    def edges(self, key: Hashable, ring: Ring) -> list[Complexes]:
        """The cubics of a ring, edge by edge."""
        fit = self.found[key]
        if len(ring.corners) < 2:
            return [fit.cubics]
        row_at = {int(vertex): row for row, vertex in enumerate(fit.source)}
        count = len(fit.cubics)
        starts = [row_at[corner] for corner in ring.corners]
        ends = [*starts[1:], starts[0]]
        return [
            fit.cubics[np.arange(first, last if last > first else last + count) % count]
            for first, last in zip(starts, ends, strict=True)
        ]
