"""How short and how few: pieces of the example on a roll and on A4 pages; and what finding a place costs.

Run: python tests/benchmarks/bench_pages.py

Goals. Pages: at most 0.6 times the plain grid about each piece. Roll: at most 1.25 times the area of the pieces over its width;
with rectpack installed (boxes with quarter turns, the best of five of its ways), shorter than that. Time: all places of one
piece beside another at most 0.05 times as long as asking shapely (prepared) for each; four times as many pieces at most 25
times as long; what 160 sizes cover at most 10 times as long as what 40 do; the example on pages at most 1 s and on the roll at most 2 s on an idle machine, four times as many at most 10 s.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from functools import partial

import numpy as np
import shapely
import shapely.affinity
from geometry_samples import best_seconds

from notchwork.demo.example import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.drawing import Group, Stroke
from notchwork.geometry import lines
from notchwork.pages.arrange import Shape, arranged, islands, shape_of
from notchwork.pages.arrange.kinds import pieces_of
from notchwork.pages.arrange.raster import Raster
from notchwork.sewing import Nest

WIDE, TALL, ROLL, GAP = 190.0, 277.0, 914.0, 5.0


def timed(run: Callable[[], object]) -> tuple[float, object]:
    start = time.process_time()
    found = run()
    return time.process_time() - start, found


def size(shape: Shape) -> tuple[float, float]:
    return float(np.ptp(shape.points.real)), float(np.ptp(shape.points.imag))


def laid(shapes: Sequence[Shape], name: str) -> float:
    seconds, found = timed(lambda: islands(shapes, WIDE, TALL, GAP))
    pages = sum(len(island.cells) for island in found)
    plain = sum(math.ceil(w / WIDE) * math.ceil(h / TALL) for w, h in map(size, shapes))
    area = sum(shape.area for shape in shapes)
    print(
        f"{name}, {len(shapes)} pieces on A4: {pages} pages, {pages / plain:.2f} times the plain grid (goal 0.6),"
    )
    print(f"  {pages / math.ceil(area / WIDE / TALL):.2f} times their area, {seconds:.2f} s of work")
    rolled, found = timed(lambda: arranged(shapes, ROLL, math.inf, GAP))
    length = max((each.turn * shapes[each.group].points + each.shift).imag.max() for each in found[0])
    print(f"  on a roll: {length / (area / ROLL):.2f} times their area (goal 1.25), {rolled:.2f} s of work")
    if (boxes := boxed(shapes)) is not None:
        print(f"  {length / boxes:.2f} times as long as boxes laid by rectpack (goal 1)")
    return seconds + rolled


def boxed(shapes: Sequence[Shape]) -> float | None:
    """The length of roll that the boxes about the pieces need, by rectpack; None if it is not installed."""
    try:
        import rectpack
    except ImportError:
        return None
    names = ("MaxRectsBssf", "MaxRectsBl", "SkylineMwfl", "GuillotineBssfSas", "SkylineBlWm")
    best = math.inf
    for way in names:
        low, high = 0, int(sum(max(size(shape)) + GAP for shape in shapes))
        while high - low > 2:
            middle = (low + high) // 2
            packer = rectpack.newPacker(
                pack_algo=getattr(rectpack, way), rotation=True, sort_algo=rectpack.SORT_AREA
            )
            for k, shape in enumerate(shapes):
                packer.add_rect(*(math.ceil(side + GAP) for side in size(shape)), k)
            packer.add_bin(int(ROLL + GAP), middle)
            packer.pack()
            low, high = (low, middle) if len(packer.rect_list()) == len(shapes) else (middle, high)
        best = min(best, high - GAP)
    return best


def places(one: Shape, other: Shape) -> None:
    def ours() -> int:
        first, second = pieces_of([one, other], 0.0)
        raster = Raster(ROLL, math.inf, 0.0, 4 + 4j)
        return raster.forbidden(raster.stamp(first.kind, 1 + 0j), raster.stamp(second.kind, 1j))

    a, b = (shapely.Polygon(np.stack([z.real, z.imag], axis=1)) for z in (one.rings[0], 1j * other.rings[0]))
    shapely.prepare(a)
    (wa, ha), (hb, wb) = size(one), size(other)
    count = int((wa + wb) / 4 * (ha + hb) / 4)
    some = 1000
    x, y = np.random.default_rng(1).uniform(-1, 1, (2, some)) * [[wb], [hb]]
    moved = np.array([shapely.affinity.translate(b, *at) for at in zip(x, y, strict=True)])
    mine, theirs = best_seconds([ours, lambda: shapely.intersects(a, moved)], rounds=5)
    print(f"{count} places of a piece beside another: {mine * 1e3:.1f} ms, stamps made anew included,")
    print(f"  {mine / (theirs / some * count):.4f} times as long as shapely (goal 0.05)")


def sizes(count: int) -> Group:
    """As many sizes of a rectangle, all from one corner: every line crosses those of all others."""
    rings = ([0, 400j, 300 + k + (400 + 0.6 * k) * 1j, 300 + k] for k in range(count))
    return Group("nest", tuple(Stroke(lines(ring, closed=True), "cut", True) for ring in rings))


def main() -> None:
    pattern = read_pattern(example("sound.pattern.json"), "example").pattern
    assert pattern is not None
    shapes = [shape_of(group) for group in draw_pattern(Nest(pattern)).groups]
    once = laid(shapes, "the example")
    more = [
        Shape(tuple(share * z for z in shape.rings)) for share in (1, 0.93, 0.85, 0.71) for shape in shapes
    ]
    print(f"  {laid(more, 'four times as many') / once:.1f} times the work (goal 25)")
    places(shapes[3], shapes[8])
    few, many = best_seconds([partial(shape_of, sizes(40)), partial(shape_of, sizes(160))], rounds=3)
    print(f"what 160 sizes cover: {many:.2f} s, {many / few:.1f} times as long as 40 (goal 10)")


if __name__ == "__main__":
    main()
