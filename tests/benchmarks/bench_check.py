"""How long a whole check takes, against one cold svgpathtools length pass over the same curves, in one run.

Run: python tests/benchmarks/bench_check.py
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable

from big_pattern import panels
from svgpathtools import CubicBezier

from notchwork import jobs
from notchwork.document import read_pattern
from notchwork.sewing import Nest


def seconds(work: Callable[[], object], times: int = 3) -> float:
    """The best of several runs."""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def reference(document: bytes) -> float:
    """Every curve of every size once through svgpathtools, each built anew so that nothing is cached."""
    pattern = read_pattern(document, "bench").pattern
    assert pattern is not None
    cubics = Nest(pattern).cubics
    start = time.perf_counter()
    for row in cubics:
        CubicBezier(*row).length()
    return time.perf_counter() - start


def main() -> None:
    for pieces in (10, 20, 40, 80, 100):
        document = json.dumps(panels(pieces, 10)).encode()
        taken = seconds(lambda data=document: jobs.check(jobs.load(data)))
        line = f"{pieces:4d} pieces x 10 sizes: check {taken:.3f} s, {1000 * taken / pieces:.2f} ms a piece"
        if pieces == 40:
            against = reference(document)
            line += f"; svgpathtools lengths {against:.3f} s; ratio {taken / against:.2f} (goal: at most 4)"
        print(line)


if __name__ == "__main__":
    main()
