"""24,000 points at a distance against svgpathtools' ilength on the same curves, in one run.

Run: python tests/benchmarks/bench_geometry_points.py

Goals: at most 1/150 of ilength, an error below 1e-6 mm. What holds it: a table of eight certified panels a curve and
two Newton steps from a good guess.
"""

from __future__ import annotations

import time

import numpy as np
from geometry_samples import best_seconds, hard, outline
from svgpathtools import CubicBezier

from notchwork.geometry import ArcTable, lengths, parameters_at, parts


def main() -> None:
    rng = np.random.default_rng(1)
    cubics = np.concatenate([*(outline(12, phase)[1::2] for phase in np.linspace(0, 6, 400)), hard()])
    rows = rng.integers(0, len(cubics), 24_000)
    distances = rng.uniform(0, 1, len(rows)) * lengths(cubics)[rows]

    some = np.flatnonzero(rows < len(cubics) - len(hard()))[:300]
    curves = [CubicBezier(*row) for row in cubics]
    start = time.process_time()
    for k in some:
        curves[rows[k]].ilength(distances[k])
    theirs = (time.process_time() - start) / len(some)
    table = ArcTable(cubics)
    whole, asked = best_seconds(
        [lambda: parameters_at(cubics, rows, distances), lambda: table.parameters(rows, distances)]
    )
    print(f"ilength {theirs * 1e6:.0f} us a point ({len(some)} of them)")
    print(
        f"  ours, table included, {whole / len(rows) * 1e6:.2f} us: 1/{theirs / whole * len(rows):.0f} (goal 1/150)"
    )
    print(f"  table at hand {asked / len(rows) * 1e6:.2f} us: 1/{theirs / asked * len(rows):.0f}")
    reached = lengths(parts(cubics, rows, np.zeros(len(rows)), table.parameters(rows, distances)))
    print(f"  worst error, cusps included: {np.abs(reached - distances).max():.1e} mm (goal 1e-6)")


if __name__ == "__main__":
    main()
