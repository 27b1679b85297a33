"""How long a page takes, by picture and against writing the same bytes, and how it grows with pieces and sizes; in one run.

Run: python tests/benchmarks/bench_report.py
"""

from __future__ import annotations

import json
import tempfile
import time
from collections.abc import Callable, Collection
from pathlib import Path

from bench_check import seconds
from big_pattern import panels

from notchwork import jobs
from notchwork.checks import Verdict
from notchwork.pictures.corner import corner_pictures
from notchwork.pictures.glance import glance_pictures, nest_pictures
from notchwork.pictures.seam import seam_pictures
from notchwork.report.page import drawn, page
from notchwork.sewing import Nest

MOST_BYTES = 5_000_000
"""Of the page of 40 pieces in 10 sizes."""


KINDS: dict[str, Callable[[Nest, Verdict], Collection[object]]] = {
    "seam": seam_pictures,
    "corner": corner_pictures,
    "glance": glance_pictures,
    "sizes laid together": lambda nest, verdict: nest_pictures(nest),
}


def taken(
    draw: Callable[[Nest, Verdict], Collection[object]], nest: Nest, verdict: Verdict
) -> tuple[float, int]:
    """Seconds, and how many pictures were drawn."""
    start = time.perf_counter()
    pictures = draw(nest, verdict)
    return time.perf_counter() - start, len(pictures)


def main() -> None:
    for pieces, sizes in ((10, 10), (20, 10), (40, 10), (40, 5)):
        loaded = jobs.load(json.dumps(panels(pieces, sizes)).encode(), "panels.pattern.json")
        verdict = jobs.check(loaded)
        assert verdict.nest is not None
        drawing = {kind: taken(draw, verdict.nest, verdict) for kind, draw in KINDS.items()}
        album = drawn(verdict)
        start = time.perf_counter()
        data = page(loaded.name, verdict, loaded.line, album).encode()
        put_together = time.perf_counter() - start
        with tempfile.TemporaryDirectory() as folder:
            written = seconds(
                lambda data=data, target=Path(folder, "page.html"): jobs.write_together({target: data})
            )
            plain = seconds(lambda data=data, target=Path(folder, "page.html"): target.write_bytes(data))
        each = ", ".join(
            f"{kind} {1000 * spent / max(count, 1):.1f}" for kind, (spent, count) in drawing.items()
        )
        print(
            f"{pieces:3d} pieces x {sizes:2d} sizes: {len(data) / 1e6:.2f} MB ({len(data) / pieces / sizes / 1e3:.1f} kB a piece and "
            f"size); ms a picture: {each}; put together in {1000 * put_together:.0f} ms; written in {1000 * written:.1f} ms, "
            f"the bytes alone in {1000 * plain:.1f} ms"
        )
        if (pieces, sizes) == (40, 10):
            print(
                f"    goal: below {MOST_BYTES / 1e6:.0f} MB: {'met' if len(data) < MOST_BYTES else 'NOT met'}"
            )


if __name__ == "__main__":
    main()
