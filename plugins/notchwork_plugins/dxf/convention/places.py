"""Points found again where they stand, up to how files round."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

Complexes = NDArray[np.complex128]
Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

NEAR: Final = 0.05
"""mm: a point this near to another, or to a line, stands on it; files keep three decimals of a mm or four of an inch."""
_ASLANT: Final = complex(np.exp(0.7j))
"""Points are sorted along a direction in which nothing on a pattern runs, so that few are alike in it."""


class Places:
    """Points (n,) by where they stand."""

    def __init__(self, at: Complexes) -> None:
        self._at = at
        along = (at * _ASLANT).real
        self._order = np.argsort(along, kind="stable")
        self._along = along[self._order]

    def numbers(self, asked: Complexes) -> Ints:
        """For each point asked (m,) the number of the one within NEAR that is nearest, the first of equal ones; -1 where none is."""
        return self.nearest(asked)[0]

    def nearest(self, asked: Complexes) -> tuple[Ints, Floats]:
        """The same, and how far (mm) each is; infinite where none is."""
        found, apart = np.full(len(asked), -1, dtype=np.intp), np.full(len(asked), np.inf)
        along = (asked * _ASLANT).real
        low = np.searchsorted(self._along, along - NEAR)
        count = np.searchsorted(self._along, along + NEAR, side="right") - low
        which = np.repeat(np.arange(len(asked)), count)
        rank = np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)
        number = self._order[low[which] + rank]
        far = np.abs(self._at[number] - asked[which])
        near = far <= NEAR
        which, number, far = which[near], number[near], far[near]
        # The last to be entered is the nearest.
        order = np.lexsort((-number, -far, which))
        found[which[order]] = number[order]
        apart[which[order]] = far[order]
        return found, apart
