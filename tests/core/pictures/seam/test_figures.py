"""Figures keep apart, stay on the card, and give way to the side on which their cloth hangs."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from notchwork.pictures.seam.figures import APART, SIZES, Figures, wide

FIGURES = st.lists(
    st.tuples(st.floats(0.0, 344.0), st.sampled_from(["4.5 longer", "20.0 ease", "too flat", "?", "× 2.60"])),
    max_size=12,
)


@given(FIGURES, st.sampled_from([1, -1]))
def test_no_two_figures_touch(figures: list[tuple[float, str]], way: int) -> None:
    placed = Figures(8.0, 336.0)
    for middle, said in figures:
        placed.put(middle, way * 16.0, way, said, "figure")
    boxes = []
    for mark in etree.fromstring(f"<svg>{''.join(placed.parts)}</svg>"):
        half = wide(mark.text, "figure") / 2.0
        x, y = float(mark.get("x")), float(mark.get("y"))
        assert x - half >= 7.9
        assert x + half <= 336.1
        assert way * y > 16.0
        boxes.append((x - half, x + half, y))
    size = SIZES["figure"][0]
    for (left, right, y), (other_left, other_right, other_y) in combinations(boxes, 2):
        beside = left >= other_right + APART - 0.1 or other_left >= right + APART - 0.1
        assert beside or abs(y - other_y) >= size
    if figures:
        assert (placed.bottom if way > 0 else -placed.top) > 16.0
