"""Polylines back to smooth cubics: growth per doubling.

Run: python tests/benchmarks/bench_geometry_fitting.py

Goals: no doubling costs more than 2.3 times; 100,000 vertices of gentle curves take a few seconds, zigzag that nothing
smooth follows is given up soon.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
from geometry_samples import best_seconds, outline

from notchwork.geometry import fitted, flatten

Complexes = npt.NDArray[np.complex128]


def wave(vertices: int) -> list[Complexes]:
    """One ring of twenty waves, sampled ever more finely."""
    angle = np.linspace(0, 2 * np.pi, vertices, endpoint=False)
    return [(3000 + 200 * np.sin(20 * angle)) * np.exp(1j * angle)]


def zigzag(vertices: int) -> list[Complexes]:
    """Small teeth: no corner turns by 20°, and no cubic follows more than a few."""
    return [np.arange(vertices) + 0.05j * (np.arange(vertices) % 2)]


def pieces(vertices: int) -> list[Complexes]:
    """Many outlines of lines and curves, as a file of a nest holds them."""
    rings: list[Complexes] = []
    while sum(map(len, rings)) < vertices:
        rings.append(flatten(outline(24, len(rings) * 0.7), 0.01).points[:-1])
    return rings


def chains(vertices: int) -> list[Complexes]:
    """Cubics that run on into each other smoothly, two to five in a line: nothing but the curvature tells where one ends."""
    rng = np.random.default_rng(5)
    runs: list[Complexes] = []
    while sum(map(len, runs)) < vertices:
        angle = np.cumsum(rng.uniform(-0.9, 0.9, rng.integers(3, 7)))
        size = rng.uniform(30, 250, len(angle) - 1)
        ways = size * np.exp(1j * (angle[1:] + angle[:-1]) / 2)
        ends = np.append(0, np.cumsum(ways))
        out, home = (
            rng.uniform(0.2, 0.5, len(size)) * size * np.exp(1j * a) for a in (angle[:-1], angle[1:])
        )
        runs.append(flatten(np.stack([ends[:-1], ends[:-1] + out, ends[1:] - home, ends[1:]], axis=1)).points)
    return runs


def main() -> None:
    for name, made in (("one wave", wave), ("pieces", pieces), ("chains", chains), ("zigzag", zigzag)):
        before = None
        for vertices in (12_500, 25_000, 50_000, 100_000):
            runs = made(vertices)
            closed = [made is not chains] * len(runs)
            work: Callable[[], object] = lambda runs=runs, closed=closed: fitted(runs, closed)  # noqa: E731
            [took] = best_seconds([work], rounds=3)
            rows = sum(len(one.cubics) for one in fitted(runs, closed))
            grown = "" if before is None else f", {took / before:.2f} times the half"
            print(f"{name}: {vertices} vertices, {rows} cubics: {took:.2f} s{grown}")
            before = took


if __name__ == "__main__":
    main()
