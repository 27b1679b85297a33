"""Certified lengths of 400 outlines against svgpathtools on the same curves, in one run.

Run: python tests/benchmarks/bench_geometry_lengths.py

Goals: at most 1/20 of svgpathtools' length(), packing included; at most 2.3 per doubling up to 38,400 cubics; an error
below 1e-6 mm on every curve. What holds it: one matrix product a chunk, certified before it is computed.
"""

from __future__ import annotations

import itertools
import time

import numpy as np
from geometry_samples import best_seconds, hard, outline
from scipy.integrate import quad
from svgpathtools import CubicBezier, Line, Path

from notchwork.geometry import lengths


def exact(row) -> float:
    d = 3 * np.diff(row)
    power = [d[0] - 2 * d[1] + d[2], 2 * (d[1] - d[0]), d[0]]
    breaks = [z.real for z in np.roots(np.trim_zeros(power, "f")) if 0 < z.real < 1]
    return quad(
        lambda t: abs(np.polyval(power, t)),
        0,
        1,
        points=breaks or None,
        limit=500,
        epsabs=1e-11,
        epsrel=1e-13,
    )[0]


def as_path(rows: list[list[complex]]) -> Path:
    return Path(*(Line(r[0], r[3]) if r[0] == r[1] else CubicBezier(*r) for r in rows))


def main() -> None:
    outlines = [outline(12, phase) for phase in np.linspace(0, 6, 400)]
    unpacked = [[z for row in rows.tolist() for z in row] for rows in outlines]
    cubics = np.concatenate(outlines)

    def pack_and_measure() -> object:
        nodes = itertools.chain.from_iterable(unpacked)
        return lengths(np.fromiter(nodes, dtype=complex, count=4 * len(cubics)).reshape(-1, 4))

    # A Path keeps its length once it is known, so each is asked once.
    paths = [as_path(rows.tolist()) for rows in outlines]
    start = time.process_time()
    for path in paths:
        path.length()
    theirs = time.process_time() - start
    ours, packed = best_seconds([pack_and_measure, lambda: lengths(cubics)])
    print(f"{len(cubics)} segments, half of them straight: svgpathtools Path.length() {theirs * 1e3:.1f} ms")
    print(f"  ours, packed from lists of numbers, {ours * 1e3:.2f} ms: 1/{theirs / ours:.0f} (goal 1/20)")
    print(f"  without packing {packed * 1e3:.2f} ms: 1/{theirs / packed:.0f}")

    sizes = [4800, 9600, 19200, 38400]
    curved = cubics[1::2]
    grown = [np.resize(curved, (size, 4)) for size in sizes]
    times = best_seconds([lambda rows=rows: lengths(rows) for rows in grown], rounds=15)
    for size, taken in zip(sizes, times, strict=True):
        print(f"  {size} cubics, none straight: {taken * 1e3:.2f} ms")
    growth = [b / a for a, b in itertools.pairwise(times)]
    print(f"  growth per doubling {', '.join(f'{g:.2f}' for g in growth)} (goal at most 2.3)")

    every = np.concatenate([curved[:200], hard()])
    worst = max(abs(length - exact(row)) for length, row in zip(lengths(every), every, strict=True))
    print(
        f"  worst error on {len(every)} curves, cusps included, by scipy's quad: {worst:.1e} mm (goal 1e-6)"
    )


if __name__ == "__main__":
    main()
