from __future__ import annotations

import numpy as np
import pytest
from core.geometry.drawn import cubic, hard, polygon
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.geometry import (
    area,
    areas,
    bounds,
    circle,
    flatten,
    is_straight,
    lines,
    mirror,
    nearest,
    parts,
    points,
    reverse,
    row_bounds,
    turn_and_scale,
)

share = st.floats(0.0, 1.0)


def test_the_area_of_a_rectangle_and_of_a_circle():
    assert area(lines([3, 103, 103 + 80j, 3 + 80j], closed=True)) == pytest.approx(8000, abs=1e-9)
    assert area(circle(1000 + 2000j, 50)) == pytest.approx(np.pi * 2500, rel=1e-8)
    assert area(reverse(circle(0, 50))) == pytest.approx(-np.pi * 2500, rel=1e-8)


def test_areas_of_outlines_that_follow_each_other():
    both = np.concatenate([circle(0, 10), *polygon([0, 5, 5j])])
    assert areas(both, np.array([0, 24])) == pytest.approx([area(circle(0, 10)), 12.5])
    assert areas(both[:0], np.array([], dtype=int)).tolist() == []


@given(cubic)
def test_the_area_of_a_curved_outline_is_that_of_its_fine_polygon(c):
    closing = lines([c[0, 3], c[0, 0]])
    fine = points(c, np.zeros(4001, dtype=int), np.linspace(0, 1, 4001))
    assert area(np.concatenate([c, closing])) == pytest.approx(area(lines(fine, closed=True)), abs=0.05)


@given(cubic, share)
def test_no_point_lies_outside_the_bounds_and_every_side_is_reached(c, t):
    low, high = bounds(c)
    z = points(c, np.array([0]), np.array([t]))[0]
    assert low.real - 1e-9 <= z.real <= high.real + 1e-9
    assert low.imag - 1e-9 <= z.imag <= high.imag + 1e-9
    fine = points(c, np.zeros(1001, dtype=int), np.linspace(0, 1, 1001))
    assert fine.real.min() - low.real < 0.01
    assert high.imag - fine.imag.max() < 0.01


def test_bounds_of_each_row_and_of_nothing():
    low, high = row_bounds(hard())
    assert (low.real <= high.real).all()
    with pytest.raises(ValueError, match="bounds"):
        bounds(np.zeros((0, 4), dtype=complex))


@given(cubic, st.sampled_from([0.5, 0.05, 0.01]))
@settings(max_examples=40)
def test_a_polyline_stays_within_its_tolerance(c, tol):
    flat = flatten(c, tol)
    fine = points(c, np.zeros(400, dtype=int), np.linspace(0, 1, 400))
    assert nearest(lines(flat.points), fine).distance.max() <= tol * 1.001
    assert np.allclose(points(c, flat.rows, flat.t), flat.points, rtol=0, atol=1e-9)


def test_a_straight_run_is_its_nodes():
    assert flatten(lines([0, 3, 7j])).points.tolist() == [0, 3, 7j]


@given(cubic, st.builds(complex, st.floats(-600, 600), st.floats(-600, 600)))
def test_the_nearest_place_is_as_near_as_the_nearest_of_many(c, z):
    found = nearest(c, np.array([z]))
    fine = points(c, np.zeros(2001, dtype=int), np.linspace(0, 1, 2001))
    there = points(c, found.row, found.t)[0]
    assert found.distance[0] == pytest.approx(abs(there - z), abs=1e-9)
    assert found.distance[0] <= abs(fine - z).min() + 1e-9


def test_the_nearest_place_on_a_circle_is_on_the_ray_from_its_middle():
    rng = np.random.default_rng(5)
    asked = 3 + 100 * rng.uniform(0.3, 3, 300) * np.exp(1j * rng.uniform(0, 7, 300))
    found = nearest(circle(3, 100), asked)
    assert found.distance == pytest.approx(abs(abs(asked - 3) - 100), abs=1e-6)
    there = points(circle(3, 100), found.row, found.t)
    assert there == pytest.approx(3 + 100 * (asked - 3) / abs(asked - 3), abs=1e-4)


def test_nothing_is_near_nothing():
    with pytest.raises(ValueError, match="near"):
        nearest(np.zeros((0, 4), dtype=complex), np.array([0j]))


distinct = st.tuples(*[st.builds(complex, st.floats(-500, 500), st.floats(-500, 500))] * 2).filter(
    lambda ab: abs(ab[0] - ab[1]) > 1
)


@given(cubic, distinct)
def test_mirroring_twice_is_nothing_and_the_line_stays(c, ab):
    a, b = ab
    assert np.allclose(mirror(mirror(c, a, b), a, b), c, rtol=0, atol=1e-6)
    assert mirror((a + b) / 2, a, b) == pytest.approx((a + b) / 2, abs=1e-6)
    assert mirror(a + (b - a) * 1j, a, b) == pytest.approx(a - (b - a) * 1j, abs=1e-6)


@given(distinct, distinct)
def test_turn_and_scale_carries_both_points(before, after):
    m, c = turn_and_scale(*before, *after)
    assert m * before[0] + c == pytest.approx(after[0], abs=1e-6)
    assert m * before[1] + c == pytest.approx(after[1], abs=1e-6)


def test_one_point_is_no_line_and_no_scale():
    with pytest.raises(ValueError, match="different points"):
        mirror(1j, 2, 2)
    with pytest.raises(ValueError, match="different points"):
        turn_and_scale(2, 2, 0, 1)


def test_a_circle_of_four_arcs_is_the_usual_approximation():
    rows, t = np.zeros(101, dtype=int), np.linspace(0, 1, 101)
    off = abs(points(circle(0, 1, arcs=4), rows, t)) - 1
    assert 2.7e-4 < off.max() < 2.8e-4
    assert abs(off.min()) < 1e-12
    assert not is_straight(circle(0, 1)).any()
    assert parts(circle(0, 1), np.array([23]), np.zeros(1), np.ones(1))[0, 3] == pytest.approx(1)
