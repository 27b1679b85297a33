"""Curves and outlines to test with, all of our own invention."""

from __future__ import annotations

import numpy as np
from hypothesis import strategies as st

from notchwork.geometry import lines, self_intersections

coordinate = st.floats(-500.0, 500.0, allow_nan=False, width=32)
point = st.builds(complex, coordinate, coordinate)
cubic = st.lists(point, min_size=4, max_size=4).map(lambda z: np.array([z]))

HARD = {
    "straight": [0, 0, 100, 100],
    "straight, uneven": [0, 10, 40, 100],
    "cusp": [0, 100 + 100j, 100j, 100],
    "almost a cusp": [0, 100 + 100.0001j, 100j, 100],
    "loop": [0, 300 + 200j, -200 + 200j, 100],
    "hairpin": [0, 100 + 1e-9j, 100, 0],
    "there and back": [0, 100, 100, 0],
    "straight, with a turn back": [0, 100, 0, 100],
    "overshoot": [0, 300, -200, 100],
    "overshoot, not quite straight": [0, 200 + 1e-5j, -100, 100],
    "missing handle": [0, 0, 60 + 80j, 100],
    "two missing handles at one end": [0, 0, 0, 100],
    "far away": [1e5, 1e5 + 100, 1e5, 1e5 + 100j],
    "a point": [7, 7, 7, 7],
    "tiny": [0, 1e-7j, 1e-7, 1e-7 + 1e-7j],
}


def hard() -> np.ndarray:
    """All the hard curves as rows."""
    return np.array(list(HARD.values()), dtype=complex)


SLIT = np.radians(2.0)


def blob(
    rng: np.random.Generator, corners: int, curvy: float = 0.3, size: float = 200.0
) -> list[np.ndarray] | None:
    """The edges of a counter-clockwise outline, straight or one cubic each; None if it came out crossing itself, or
    with a slit."""
    angle = np.sort(rng.uniform(0.0, 2.0 * np.pi, corners))
    if np.diff(np.append(angle, angle[0] + 2.0 * np.pi)).min() < 0.15:
        return None
    nodes = size * np.exp(1j * angle) * rng.uniform(0.5, 1.0, corners)
    edges = []
    for a, b in zip(nodes, np.roll(nodes, -1), strict=True):
        if rng.random() < 0.4:
            edges.append(lines([a, b]))
        else:
            out, home = (b - a) * (1.0 / 3.0 + 1j * rng.uniform(-curvy, curvy, 2))
            edges.append(np.array([[a, a + out, b - home, b]]))
    if _slits(edges) or len(self_intersections(np.concatenate(edges)).kinds):
        return None
    return edges


def _slits(edges: list[np.ndarray]) -> bool:
    """Whether two edges leave a corner within SLIT of each other. Such edges may cross again while they are still nearer than the
    tolerance of a meeting (seed 1162 with 5 corners: 0.0008 mm apart over 1.6 mm), and are then told as meeting at the corner
    only."""
    for before, after in zip(edges, edges[1:] + edges[:1], strict=True):
        back, on = _heading(before[-1, ::-1]), _heading(after[0])
        if abs(np.angle(on / back)) < SLIT:
            return True
    return False


def _heading(cubic: np.ndarray) -> complex:
    steps = cubic[1:] - cubic[0]
    return complex(steps[np.flatnonzero(np.abs(steps) > 1e-9)[0]])


def polygon(nodes: list[complex]) -> list[np.ndarray]:
    """The straight edges of a closed outline, one each."""
    return [row[None] for row in lines(nodes, closed=True)]
