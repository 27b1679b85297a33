"""Outlines to measure with, and how the measuring is done."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt

Complexes = npt.NDArray[np.complex128]


def best_seconds(works: Sequence[Callable[[], object]], rounds: int = 7) -> list[float]:
    """The best processor time of each work; they take turns, so that a busy moment of the machine strikes all alike."""
    best = [float("inf")] * len(works)
    for _ in range(rounds):
        for k, work in enumerate(works):
            start = time.process_time()
            work()
            best[k] = min(best[k], time.process_time() - start)
    return best


def outline(segments: int, phase: float, size: float = 300.0) -> Complexes:
    """A closed outline of equal turns: gentle waves of alternating curves and straight lines (segments, 4)."""
    angle = np.linspace(0.0, 2.0 * np.pi, segments + 1)
    radius = size + size / 15.0 * np.sin(5.0 * angle + phase)
    nodes = radius * np.exp(1j * angle)
    nodes[-1] = nodes[0]
    speed = (size / 3.0 * np.cos(5.0 * angle + phase) + 1j * radius) * np.exp(1j * angle)
    handle = speed * (2.0 * np.pi / segments / 3.0)
    rows = np.stack([nodes[:-1], nodes[:-1] + handle[:-1], nodes[1:] - handle[1:], nodes[1:]], axis=1)
    rows[::2, 1], rows[::2, 2] = rows[::2, 0], rows[::2, 3]
    return rows


def hard() -> Complexes:
    """A cusp, nearly a cusp, a hairpin, an overshoot, a loop, and missing handles."""
    return np.array(
        [
            [0, 100 + 100j, 100j, 100],
            [0, 100 + 100.0001j, 100j, 100],
            [0, 100 + 1e-9j, 100, 0],
            [0, 300, -200, 100],
            [0, 300 + 200j, -200 + 200j, 100],
            [0, 0, 60 + 80j, 100],
        ]
    )
