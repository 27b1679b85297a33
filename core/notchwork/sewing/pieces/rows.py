"""All lines of all pieces in all sizes in one array of cubics."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from notchwork.sewing.pieces.graded import Run
from notchwork.sewing.pieces.grading import Complex

NOTHING = 1e-9
"""mm: coordinates below this are 0. Numbers far smaller, which no one measured, overflow where something is divided by them."""


class RowBuilder:
    """Collects every line's cubics into the nest's one array."""

    def __init__(self, count: int) -> None:
        self._count = count
        self._parts: list[Complex] = []
        self._next = 0
        self.rows: dict[tuple[str, str], tuple[slice, ...]] = {}

    def add(self, piece: str, runs: Sequence[Run]) -> None:
        """Enter the lines of a piece, size by size, so that its outline in a size is one slice."""
        drawn = [run for run in runs if run.cubics is not None]
        rows: dict[str, list[slice]] = {run.name: [] for run in drawn}
        for size in range(self._count):
            for run in drawn:
                assert run.cubics is not None
                part = run.cubics[size]
                self._parts.append(part)
                rows[run.name].append(slice(self._next, self._next + len(part)))
                self._next += len(part)
        self.rows |= {(piece, name): tuple(slices) for name, slices in rows.items()}

    def cubics(self) -> Complex:
        found: Complex = np.concatenate([*self._parts, np.empty((0, 4), dtype=complex)])
        for part in (found.real, found.imag):
            part[np.abs(part) < NOTHING] = 0.0
        return found
