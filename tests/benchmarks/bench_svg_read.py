"""Reading a large drawing against lxml and svgpathtools' parser of paths alone, in one run; and that the cost grows linearly.

Run by itself: ``python -m pytest tests/benchmarks/bench_svg_read.py -s``.
"""

from __future__ import annotations

import gc
import random
import time
from collections.abc import Callable

import svgpathtools
from lxml import etree

from notchwork.formats import Source
from notchwork_plugins.svg.plugin import SVG

MOST = 1.2
"""of the time of lxml and svgpathtools.parse_path alone."""


def drawing(paths: int) -> bytes:
    """Outlines of about a dozen segments as editors write them: relative cubics and lines, styles inline, in layers."""
    chance = random.Random(7)
    number = lambda: f"{chance.uniform(-40, 40):.6g}"  # noqa: E731 - short beside its one use
    parts = [
        '<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="1200mm" viewBox="0 0 900 1200">',
    ]
    for k in range(paths):
        if k % 100 == 0:
            parts.append(f'<g id="layer{k}" transform="translate({k % 900},{k % 700})">')
        data = f"m {chance.uniform(0, 900):.6f},{chance.uniform(0, 900):.6f}"
        for _ in range(7):
            data += f" c {number()},{number()} {number()},{number()} {number()},{number()}"
            data += f" l {number()},{number()}"
        parts.append(f'<path id="p{k}" style="fill:none;stroke:#000000;stroke-width:0.5" d="{data} z"/>')
        if k % 100 == 99:
            parts.append("</g>")
    return "".join([*parts, "" if paths % 100 == 0 else "</g>", "</svg>"]).encode()


def read(data: bytes) -> None:
    assert SVG.read is not None
    found = SVG.read(Source("large.svg", data), {}).drawing
    assert found is not None


def reference(data: bytes) -> None:
    for element in etree.fromstring(data).iter("{*}path"):
        svgpathtools.parse_path(element.get("d"))


def best(work: Callable[[bytes], None], data: bytes, times: int) -> float:
    taken = []
    for _ in range(times):
        gc.collect()
        start = time.process_time()
        work(data)
        taken.append(time.process_time() - start)
    return min(taken)


def test_nine_thousand_paths() -> None:
    data = drawing(9000)
    ours, theirs = best(read, data, 3), best(reference, data, 3)
    print(
        f"\n{len(data) / 1e6:.1f} MB: read {ours:.2f} s, lxml and parse_path {theirs:.2f} s, ratio {ours / theirs:.2f}"
    )
    assert ours <= MOST * theirs


def test_linear_growth() -> None:
    small, large = drawing(2000), drawing(8000)
    a, b = best(read, small, 3), best(read, large, 3)
    print(f"\n2,000 paths {a:.2f} s, 8,000 paths {b:.2f} s: {b / a:.1f} times for 4 times as much")
    assert b <= 4 * 1.5 * a
