"""Lines cut where they meet, and the faces between them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from notchwork.geometry import area, circle, faces, inside, lines, near_boxes, net, reverse, united


def square(x: float, y: float, side: float = 100.0) -> np.ndarray:
    return lines(complex(x, y) + side * np.array([0, 1, 1 + 1j, 1j]), closed=True)


def test_four_strokes_with_small_gaps_and_overshoots_enclose_one_face():
    strokes = [
        lines([0.3j, 100 + 0j]),
        lines([100.2 + 0.1j, 100 + 80j]),
        lines([100.4 + 80j, 0 + 80j]),
        lines([0 + 80.3j, 0j]),
    ]
    made = net(strokes, [False] * 4, 0.5)
    found = faces(made)
    assert len(found) == 1
    assert found[0].area == pytest.approx(8000, rel=0.01)
    assert max(gap.width for gap in made.gaps) == pytest.approx(0.4, abs=0.11)


def test_a_stroke_between_two_faces_serves_both():
    made = net([square(0, 0), lines([50 - 20j, 50 + 120j])], [True, False], 0.5)
    found = faces(made)
    assert sorted(round(face.area) for face in found) == [5000, 5000]
    rims = united(made, found)
    assert len(rims) == 1
    assert rims[0].area == pytest.approx(10000)


def test_strokes_that_share_both_ends_are_one_arc_and_curves_between_the_same_ends_are_not():
    doubled = net([lines([0j, 100 + 0j]), lines([100 + 0.2j, 0.1j])], [False, False], 0.5)
    assert len(doubled.arcs) == 1
    assert doubled.arcs[0].lines == (0, 1)
    bow = np.array([[0j, 30 + 40j, 70 + 40j, 100 + 0j]])
    assert len(faces(net([lines([0j, 100 + 0j]), bow], [False, False], 0.5))) == 1


def test_bridges_and_loose_ends_bound_nothing():
    strokes = [square(0, 0), square(300, 0), lines([100 + 50j, 300 + 50j]), lines([50 + 100j, 50 + 150j])]
    assert sorted(round(f.area) for f in faces(net(strokes, [True, True, False, False], 0.5))) == [
        10000,
        10000,
    ]


def test_a_closed_curve_that_nothing_meets_is_left_as_it_is():
    ring = circle(10 + 5j, 40.0)
    made = net([ring], [True], 0.5)
    assert np.abs(made.arcs[0].cubics - ring).max() < 1e-12
    assert faces(made)[0].area == pytest.approx(np.pi * 1600, rel=1e-6)


def test_squares_that_abut_only_nearly_have_one_rim():
    made = net([square(0, 0), square(100.2, 0.1), square(0, 100.3)], [True] * 3, 0.5)
    found = faces(made)
    assert len(found) == 3
    (rim,) = united(made, found)
    assert rim.area == pytest.approx(30000, rel=0.01)


def test_a_closed_curve_crossing_another_twice():
    made = net([circle(0j, 50.0), circle(60 + 0j, 50.0)], [True, True], 0.5)
    # The lens of two circles of radius r at a distance d: 2 r² acos(d / 2r) - d/2 sqrt(4 r² - d²).
    lens = 2 * 2500 * np.arccos(0.6) - 30 * np.sqrt(10000 - 3600)
    assert min(face.area for face in faces(made)) == pytest.approx(lens, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 12), st.integers(0, 12), st.integers(1, 6), st.integers(1, 6)),
        min_size=1,
        max_size=7,
    )
)
@example([(0, 0, 3, 3), (1, 1, 1, 1)])
def test_faces_of_rectangles_cover_what_the_rectangles_cover(boxes):
    rings = [
        lines(
            np.array([complex(x, y), complex(x + w, y), complex(x + w, y + h), complex(x, y + h)]) * 10,
            closed=True,
        )
        for x, y, w, h in boxes
    ]
    grid = np.zeros((20, 20), dtype=bool)
    for x, y, w, h in boxes:
        grid[x : x + w, y : y + h] = True
    cells = [(face, _cells(face)) for face in faces(net(rings, [True] * len(rings), 0.5))]
    covered = np.zeros_like(grid)
    for face, within in cells:
        # a face has no holes: a rectangle that lies free in another one is a face in a face
        assert face.area == pytest.approx(100.0 * within.sum())
        if grid[within].all():
            covered |= within
    assert np.array_equal(covered, grid)


def _cells(face) -> np.ndarray:
    """The cells of the grid that lie in a face."""
    x, y = np.meshgrid(np.arange(20) * 10 + 5.0, np.arange(20) * 10 + 5.0, indexing="ij")
    return inside(face.cubics[:, 0], (x + 1j * y).ravel()).reshape(x.shape)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6), st.integers(2, 60))
def test_near_boxes_are_those_that_comparing_every_pair_finds(seed, count):
    rng = np.random.default_rng(seed)
    start = rng.uniform(-50, 50, count) + 1j * rng.uniform(-50, 50, count)
    end = start + rng.uniform(-9, 9, count) + 1j * rng.uniform(-9, 9, count)
    i, j = near_boxes(start, end, 1.5)
    low = np.minimum(start.real, end.real) + 1j * np.minimum(start.imag, end.imag)
    high = np.maximum(start.real, end.real) + 1j * np.maximum(start.imag, end.imag)
    expected = {
        (a, b)
        for a in range(count)
        for b in range(a + 1, count)
        if max(low[a].real, low[b].real) - min(high[a].real, high[b].real) <= 1.5
        and max(low[a].imag, low[b].imag) - min(high[a].imag, high[b].imag) <= 1.5
    }
    assert set(zip(i.tolist(), j.tolist(), strict=True)) == expected


def test_inside_of_a_ring_whichever_way_it_runs():
    ring = square(0, 0)[:, 0]
    z = np.array([50 + 50j, 150 + 50j, -1 + 0j])
    assert inside(ring, z).tolist() == [True, False, False]
    assert inside(reverse(square(0, 0))[:, 0], z).tolist() == [True, False, False]
    assert area(square(0, 0)) == pytest.approx(10000)
