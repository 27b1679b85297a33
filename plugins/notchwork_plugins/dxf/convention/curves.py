"""The polylines of many blocks as smooth curves, all fitted at once."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
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
    like: Hashable = None


@dataclass(slots=True, eq=False)
class Curves:
    """Polylines by a key of the caller's; ``fit`` lays curves through all of them, ``of`` gives each.

    ``chord`` is how far (mm) chords may stray from the curve they stand for.
    """

    chord: float
    asked: dict[Hashable, _Asked] = field(default_factory=dict)
    found: dict[Hashable, Fitted] = field(default_factory=dict)

    def ask(
        self,
        key: Hashable,
        z: Complexes,
        closed: bool,
        corners: Sequence[int] | None,
        nodes: Sequence[int],
        like: Hashable = None,
    ) -> None:
        """A polyline with its corners (those that it shows, if None) and nodes.

        ``like`` is the key of one with as many vertices, the same line in another size: it is given as many cubics.
        """
        other = self.asked.get(like)
        alike = other is not None and other.closed == closed and len(other.z) == len(z)
        self.asked[key] = _Asked(z, closed, corners, nodes, like if alike else None)

    def ask_ring(self, key: Hashable, z: Complexes, ring: Ring, like: Hashable = None) -> None:
        self.ask(key, z, True, sorted({*ring.corners, *ring.breaks}), sorted(ring.nodes), like)

    def fit(self, told: Told) -> None:
        """Fit everything; how far curves lie beside their points is told."""
        first = {key: one for key, one in self.asked.items() if one.like is None}
        self._fit({key: one for key, one in first.items() if one.corners is not None}, told)
        self._fit({key: one for key, one in first.items() if one.corners is None}, told)
        self._fit({key: self._as(one) for key, one in self.asked.items() if one.like is not None}, told)

    def _as(self, one: _Asked) -> _Asked:
        """The same with the nodes that its likeness was given."""
        found, corners = self.found[one.like], self.asked[one.like].corners
        if corners is None:
            corners = found.source[found.corners].tolist()
        return _Asked(one.z, one.closed, corners, found.source.tolist())

    def _fit(self, asked: Mapping[Hashable, _Asked], told: Told) -> None:
        if not asked:
            return
        several = list(asked.values())
        shown = any(one.corners is None for one in several)
        made = fitted(
            [one.z for one in several],
            [one.closed for one in several],
            None if shown else [one.corners or () for one in several],
            [one.nodes for one in several],
            self.chord,
        )
        self.found |= dict(zip(asked, made, strict=True))
        told.curves(sum(int((~is_straight(one.cubics)).sum()) for one in made), max(one.off for one in made))

    def of(self, key: Hashable) -> Complexes:
        return self.found[key].cubics

    def edges(self, key: Hashable, ring: Ring) -> list[Complexes]:
        """The cubics of a ring, edge by edge."""
        fit = self.found[key]
        if len(ring.corners) < 2:
            return [fit.cubics]
        count, vertices = len(fit.cubics), len(self.asked[key].z)
        if not count:
            return [_nothing(self.asked[key].z[0])] * ring.count
        order = np.argsort(fit.source)
        corners = np.array(ring.corners)
        # A rule may move a corner on to the next vertex: then the row that begins there begins its edge.
        place = np.searchsorted(fit.source[order], corners) % count
        rows = order[place]
        ahead = (fit.source[rows] - corners) % vertices
        return [
            _nothing(fit.cubics[first, 0])
            if first == last and far >= near
            else fit.cubics[np.arange(first, last if last > first else last + count) % count]
            for first, last, far, near in zip(
                rows.tolist(), np.roll(rows, -1).tolist(), ahead, np.roll(ahead, -1), strict=True
            )
        ]


def _nothing(z: complex) -> Complexes:
    """An edge whose ends lie in one place."""
    return np.full((1, 4), z, dtype=np.complex128)
