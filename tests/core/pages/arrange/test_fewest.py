"""The fewest pages, held against a solver that tries everything.

Its moves: rectangles, as drawn or turned by a quarter, in every order. Each goes into a grid that is there or into a new one; its
left side lies on a line between pages or the gap right of a piece laid before, its lower side on such a line or the gap above
one. Every layout of rectangles can be pushed down and left into one of that kind, without reaching into more pages. A piece that
fits a page lies on one whole. It looks only for layouts with fewer pages than a number, and leaves what the area rules out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
import pytest
import shapely
import shapely.affinity

from notchwork.demo.example import example
from notchwork.document import read_pattern
from notchwork.draw import draw_pattern
from notchwork.pages.arrange import Shape, islands, shape_of
from notchwork.sewing import Nest

WIDE, TALL = 190, 277
GAP = 5
Box = tuple[int, int, int, int]
Pages = frozenset[tuple[int, int]]


class Solver:
    """Whether rectangles have a layout on fewer than ``below`` pages."""

    def __init__(self, sizes: Sequence[tuple[int, int]], below: int, turns: bool) -> None:
        self.sizes, self.below, self.turns = sizes, below, turns
        self.seen: set[object] = set()

    def found(self) -> bool:
        return self._more((), tuple(sorted(self.sizes)), 0)

    def _more(
        self, grids: tuple[tuple[tuple[Box, ...], Pages], ...], left: tuple[tuple[int, int], ...], used: int
    ) -> bool:
        free = used * WIDE * TALL - sum(w * h for boxes, _ in grids for _, _, w, h in boxes)
        if used + max(0, math.ceil((sum(w * h for w, h in left) - free) / (WIDE * TALL))) >= self.below:
            return False
        if not left:
            return True
        state = (frozenset((frozenset(boxes), pages) for boxes, pages in grids), left)
        if state in self.seen:
            return False
        self.seen.add(state)
        for k, size in enumerate(left):
            if size in left[:k]:
                continue
            rest = left[:k] + left[k + 1 :]
            for w, h in {size, size[::-1]} if self.turns else {size}:
                whole = any(
                    a <= WIDE and b <= TALL for a, b in ({size, size[::-1]} if self.turns else {size})
                )
                for j, (boxes, pages) in enumerate((*grids, ((), frozenset()))):
                    for box in self._places(boxes, w, h, pages):
                        new = reached(box)
                        if whole and len(new) > 1:
                            continue
                        grown = ((*boxes, box), pages | new)
                        others = grids[:j] + grids[j + 1 :]
                        if self._more((*others, grown), rest, used + len(grown[1]) - len(pages)):
                            return True
        return False

    def _places(self, boxes: tuple[Box, ...], w: int, h: int, pages: Pages) -> Iterator[Box]:
        if not boxes:
            yield 0, 0, w, h
            return
        columns, rows = {c for c, _ in pages}, {r for _, r in pages}
        over, up = math.ceil(w / WIDE), math.ceil(h / TALL)
        across = {c * WIDE for c in range(min(columns) - over, max(columns) + 1)}
        along = {r * TALL for r in range(min(rows) - up, max(rows) + 1)}
        across |= {x + a + GAP for x, _, a, _ in boxes}
        along |= {y + b + GAP for _, y, _, b in boxes}
        for x in across:
            for y in along:
                if all(
                    x >= p + a + GAP or p >= x + w + GAP or y >= q + b + GAP or q >= y + h + GAP
                    for p, q, a, b in boxes
                ):
                    yield x, y, w, h


def reached(box: Box) -> Pages:
    x, y, w, h = box
    return frozenset(
        (c, r) for c in range(x // WIDE, -(-(x + w) // WIDE)) for r in range(y // TALL, -(-(y + h) // TALL))
    )


def rectangle(wide: float, tall: float) -> Shape:
    return Shape((np.array([0, wide, complex(wide, tall), 1j * tall]),))


def pages_of(sizes: Sequence[tuple[int, int]], turn: str) -> int:
    return sum(
        len(island.cells) for island in islands([rectangle(*size) for size in sizes], WIDE, TALL, GAP, turn)
    )


CASES = {
    "two that fit one page side by side": [(92, 270), (93, 270)],
    "two that a page just cannot hold": [(93, 270), (93, 270)],
    "six small ones": [(90, 130), (95, 130), (90, 140), (95, 140), (60, 60), (50, 40)],
    "six of which two must turn": [(185, 100), (100, 185), (80, 85), (85, 80), (170, 80), (70, 170)],
    "one large, its rest takes the small ones": [(250, 200), (100, 200), (60, 60)],
    "two of one page and a half": [(280, 270), (280, 100)],
    "three of one page and a third": [(250, 270), (250, 270), (60, 270)],
    "long strips": [(400, 60), (400, 60), (400, 60), (30, 200)],
    "a strip that is shorter when it is turned": [(270, 60), (560, 80)],
    "large ones and small ones": [(300, 200), (200, 300), (180, 70), (100, 100), (150, 60)],
}


@pytest.mark.parametrize("turn", ["quarter", "drawn"])
@pytest.mark.parametrize("name", CASES)
def test_no_layout_of_rectangles_takes_fewer_pages(name: str, turn: str) -> None:
    sizes = CASES[name]
    pages = pages_of(sizes, turn)
    assert not Solver(sizes, pages, turn == "quarter").found()
    assert Solver(sizes, pages + 1, turn == "quarter").found()


def test_the_solver_knows_fewest_pages_by_hand() -> None:
    assert Solver([(WIDE, TALL)], 2, False).found()
    assert not Solver([(WIDE, TALL)], 1, False).found()
    assert not Solver([(WIDE + 1, 10)], 2, False).found()
    assert Solver([(WIDE + 1, 10)], 2, True).found()


def ell(wide: float, tall: float, arm: float) -> Shape:
    return Shape((np.array([0, wide, complex(wide, arm), complex(arm, arm), complex(arm, tall), 1j * tall]),))


def fewest(shape: Shape, turns: Sequence[complex]) -> int:
    """The fewest pages of a grid that a piece reaches into, tried at every step of its offset, by shapely."""
    best = 1 << 30
    for turn in turns:
        rings = [turn * ring for ring in shape.rings]
        area = shapely.union_all([shapely.Polygon(np.stack([z.real, z.imag], axis=1)) for z in rings])
        area = shapely.affinity.translate(area, -area.bounds[0], -area.bounds[1])
        shapely.prepare(area)
        right, high = area.bounds[2:]
        for x in np.arange(32) * WIDE / 32:
            for y in np.arange(47) * TALL / 47:
                c, r = np.meshgrid(
                    np.arange(math.ceil(right / WIDE) + 1), np.arange(math.ceil(high / TALL) + 1)
                )
                left, low = c * WIDE - x + 0.01, r * TALL - y + 0.01
                pages = shapely.box(left, low, left + WIDE - 0.02, low + TALL - 0.02)
                best = min(best, int(shapely.intersects(area, pages).sum()))
    return best


@pytest.mark.parametrize(("wide", "tall", "arm"), [(500, 700, 100), (380, 554, 180), (600, 600, 150)])
def test_an_l_shape_alone_reaches_into_fewest_pages(wide: float, tall: float, arm: float) -> None:
    shape = ell(wide, tall, arm)
    for turn, turns in (("drawn", [1]), ("quarter", [1, 1j])):
        assert sum(len(each.cells) for each in islands([shape], WIDE, TALL, GAP, turn)) == fewest(
            shape, turns
        )


def test_pieces_of_the_example_alone_reach_into_fewest_pages() -> None:
    pattern = read_pattern(example("sound.pattern.json"), "example").pattern
    assert pattern is not None
    for group in draw_pattern(Nest(pattern)).groups[2:10:3]:
        shape = shape_of(group)
        pages = sum(len(each.cells) for each in islands([shape], WIDE, TALL, GAP, "drawn"))
        assert pages <= fewest(shape, [1]), group.name


def test_two_l_shapes_share_a_grid() -> None:
    # Each alone reaches into 3 pages; the second lies in the crook of the first, on the same ones.
    shape = ell(285, 455, 85)
    (island,) = islands([shape, shape], WIDE, TALL, GAP)
    assert len(island.cells) == 3
