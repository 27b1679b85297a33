"""Drawing and writing large patterns: growth, and the ratio to a cold pass of svgpathtools over the same outlines.

Run: python tests/benchmarks/bench_draw.py
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from big_pattern import panels
from svgpathtools import CubicBezier
from svgpathtools import Path as Run

from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import as_svg
from notchwork.sewing import Nest

SIZES = 10


def main() -> None:
    for pieces in (10, 20, 40, 80):
        pattern = read_pattern(json.dumps(panels(pieces, SIZES)).encode(), "panels").pattern
        assert pattern is not None
        best = [float("inf")] * 3
        for _ in range(3):
            start = time.perf_counter()
            nest = Nest(pattern)
            made = time.perf_counter()
            drawing = draw_pattern(nest)
            drawn = time.perf_counter()
            text = as_svg(drawing)
            written = time.perf_counter()
            best = [
                min(a, b) for a, b in zip(best, (made - start, drawn - made, written - drawn), strict=True)
            ]
        runs = [
            Run(*(CubicBezier(*row) for row in nest.outline(ident, size)))
            for ident in nest.pieces
            for size in range(SIZES)
        ]
        start = time.perf_counter()
        for run in runs:
            run.length()
        reference = time.perf_counter() - start
        print(
            f"{pieces} pieces, {SIZES} sizes, {len(text) / 1e6:.1f} MB: nest {best[0]:.3f} s, drawn {best[1]:.3f} s, "
            f"written {best[2]:.3f} s; {sum(best[1:]) / reference:.2f} of svgpathtools' lengths ({reference:.2f} s)"
        )


if __name__ == "__main__":
    main()
