"""What of lines lies inside a frame; reference: shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from notchwork_plugins.hpgl.clip import clipped

Complexes = NDArray[np.complex128]

places = st.builds(complex, st.integers(-20, 120), st.integers(-20, 120))
walks = st.lists(places, min_size=2, max_size=12).map(np.array)


def line_of(z: Complexes) -> shapely.LineString:
    return shapely.LineString(np.column_stack([z.real, z.imag]))


def length(z: Complexes) -> float:
    return float(np.abs(np.diff(z)).sum())


@given(walks)
@settings(deadline=None)
def test_four_cells_hold_every_part_of_a_line(walk: Complexes) -> None:
    """In each cell as much as another library finds there, where it lies, and in the order of the line."""
    for low in (0j, 50 + 0j, 50j, 50 + 50j):
        high = low + 50 + 50j
        parts = list(clipped(walk, low, high))
        box = shapely.box(low.real, low.imag, high.real, high.imag)
        segments = [line_of(walk[k : k + 2]) for k in range(len(walk) - 1) if walk[k] != walk[k + 1]]
        meant = sum(segment.intersection(box).length for segment in segments)
        assert sum(map(length, parts)) == pytest.approx(meant, abs=1e-9)
        for part in parts:
            assert part.real.min() >= low.real - 1e-9
            assert part.imag.max() <= high.imag + 1e-9
            if length(part) > 0:
                assert line_of(walk).buffer(1e-6).covers(line_of(part))


def test_a_closed_line_is_not_cut_where_it_begins() -> None:
    square = np.array([5 + 5j, 15 + 5j, 15 - 5j, -5 - 5j, -5 + 5j, 5 + 5j])
    (part,) = clipped(square, 0j, 10 + 10j)
    assert part == pytest.approx(np.array([0 + 5j, 5 + 5j, 10 + 5j]))


def test_what_lies_inside_is_the_same_line() -> None:
    line = np.array([1 + 1j, 2 + 2j])
    (part,) = clipped(line, 0j, 10 + 10j)
    assert part is line


def test_a_line_along_the_edge_belongs_to_both_cells() -> None:
    line = np.array([10 + 0j, 10 + 10j])
    assert len(list(clipped(line, 0j, 10 + 10j))) == len(list(clipped(line, 10 + 0j, 20 + 10j))) == 1
