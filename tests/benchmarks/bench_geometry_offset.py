"""Cut lines with a width for each edge against shapely's buffer of one width, in one run.

Run: python tests/benchmarks/bench_geometry_offset.py

Goals: at most 1.5 times shapely's mitred buffer at 200 vertices an outline, 0.8 times at 2,000. Both get the same
polygon; ours also says for each point to which edge it belongs. None of these lines crosses itself, so that none needs
the union (pyclipr), which would take 0.35 to 0.45 of shapely's time. What holds it: some two hundred passes over arrays,
and at 2,000 vertices the memory they ask the system for anew.
"""

from __future__ import annotations

import numpy as np
import shapely
from geometry_samples import best_seconds, outline

from notchwork.geometry import lines, offset_outlines

WIDTHS = np.array([10.0, 12.0, 0.0, 15.0, 10.0, 30.0, 12.0, 10.0])


def compare(vertices: int, count: int, goal: float) -> None:
    outlines, polygons = [], []
    for phase in np.linspace(0, 6, count):
        nodes = outline(vertices, phase)[:, 0]
        outlines.append(np.split(lines(nodes, closed=True), 8))
        polygons.append(shapely.Polygon(np.stack([nodes.real, nodes.imag], axis=1)))
    widths = [WIDTHS] * count
    ours, alone, mitred, rounded = best_seconds(
        [
            lambda: offset_outlines(outlines, widths),
            lambda: [offset_outlines([edges], [WIDTHS]) for edges in outlines],
            lambda: [polygon.buffer(10.0, join_style="mitre") for polygon in polygons],
            lambda: [polygon.buffer(10.0) for polygon in polygons],
        ],
        rounds=15,
    )
    print(f"{vertices} vertices an outline, {count} outlines, ms each:")
    print(f"  ours {ours / count * 1e3:.3f}, one at a time {alone / count * 1e3:.3f}")
    print(f"  shapely mitred {mitred / count * 1e3:.3f}, rounded {rounded / count * 1e3:.3f}")
    print(f"  {ours / mitred:.2f} times shapely's mitred buffer (goal {goal})")


def main() -> None:
    compare(200, 60, 1.5)
    compare(2000, 8, 0.8)


if __name__ == "__main__":
    main()
