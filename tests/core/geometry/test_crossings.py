from __future__ import annotations

import numpy as np
import pytest
from core.geometry.drawn import cubic
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.geometry import (
    Meeting,
    circle,
    first_crossings,
    intersections,
    lines,
    part,
    points,
    self_intersections,
    windings,
)

CROSS, TOUCH, OVERLAP = Meeting.CROSS, Meeting.TOUCH, Meeting.OVERLAP


def told(found):
    return [
        (complex(np.round(z, 6)), Meeting(kind)) for z, kind in zip(found.points, found.kinds, strict=True)
    ]


def own(nodes, closed=True):
    return told(self_intersections(lines(nodes, closed=closed), closed=closed))


def test_two_circles_cross_twice_and_the_places_are_on_both():
    a, b = circle(0, 100), circle(100, 100)
    found = intersections(a, b)
    assert sorted(found.points.imag) == pytest.approx([-np.sqrt(7500), np.sqrt(7500)], abs=1e-5)
    assert found.kinds.tolist() == [CROSS, CROSS]
    assert points(a, found.a_rows, found.a_t) == pytest.approx(found.points, abs=1e-9)
    assert points(b, found.b_rows, found.b_t) == pytest.approx(found.points, abs=1e-9)


def test_a_touch_is_told_from_a_crossing():
    assert told(intersections(circle(0, 100), circle(200, 100))) == [(100, TOUCH)]
    assert told(intersections(circle(0, 100), lines([-200 + 100j, 200 + 100j]))) == [(100j, TOUCH)]
    assert told(intersections(circle(0, 100), lines([-200 + 101j, 200 + 101j]))) == []
    assert told(intersections(lines([0, 100]), lines([50, 50 + 20j]))) == [(50, TOUCH)]


def test_a_crossing_through_nodes_is_one():
    assert told(intersections(circle(0, 100), lines([0, 100, 200]))) == [(100, CROSS)]
    assert own([0, 50 + 50j, 100 + 100j, 100, 50 + 50j, 100j]) == [(50 + 50j, CROSS)]
    assert own([0, 100, 50 + 50j, 100 + 100j, 100j, 50 + 50j]) == [(50 + 50j, TOUCH)]


def test_outlines_that_do_not_meet_themselves():
    assert own([0, 100, 100 + 80j, 80j]) == []
    assert own([0, 100 + 0.1j, 1j]) == []  # a tip of a tenth of a degree
    assert told(self_intersections(circle(5, 3))) == []


def test_a_bow_tie_and_a_loop():
    assert own([0, 100 + 100j, 100, 100j]) == [(50 + 50j, CROSS)]
    assert own([0, 100 + 100j, 100, 100j], closed=False) == [(50 + 50j, CROSS)]
    loop = np.array([[0, 300 + 200j, -200 + 200j, 100]])
    found = self_intersections(loop, closed=False)
    assert told(found) == [(50 + 37.5j, CROSS)]
    assert found.a_t[0] + found.b_t[0] == pytest.approx(1.0)


def test_lines_that_lie_on_each_other_are_told_by_the_ends_of_the_stretch():
    assert told(intersections(lines([0, 100]), lines([50, 150]))) == [(50, OVERLAP), (100, OVERLAP)]
    assert told(intersections(lines([0, 100]), lines([150, 50]))) == [(50, OVERLAP), (100, OVERLAP)]
    slit = own([0, 50, 50 + 50j, 50, 100, 100 + 100j, 100j])
    assert slit == [(50, OVERLAP), (50 + 50j, OVERLAP)]


def test_a_curve_that_lies_on_a_part_of_itself():
    quarter = circle(0, 100, arcs=4)[:1]
    found = intersections(quarter, part(quarter[0], 0.25, 0.75)[None])
    assert found.a_t == pytest.approx([0.25, 0.75], abs=1e-6)
    assert found.b_t == pytest.approx([0.0, 1.0], abs=1e-6)
    assert found.kinds.tolist() == [OVERLAP, OVERLAP]


def test_what_goes_straight_back_on_itself_is_told():
    there_and_back = self_intersections(np.array([[0, 200, -100, 100]], dtype=complex), closed=False)
    assert set(there_and_back.kinds.tolist()) == {OVERLAP}


def test_nothing_meets_nothing():
    nothing = np.zeros((0, 4), dtype=complex)
    assert told(intersections(nothing, circle(0, 1))) == []
    assert told(self_intersections(nothing)) == []


@given(cubic, cubic)
@settings(max_examples=40)
def test_every_crossing_of_fine_polylines_is_found_on_the_curves(a, b):
    found = intersections(a, b)
    assert (abs(points(a, found.a_rows, found.a_t) - points(b, found.b_rows, found.b_t)) <= 0.001).all()
    t = np.linspace(0, 1, 600)
    one, two = points(a, np.zeros(600, dtype=int), t), points(b, np.zeros(600, dtype=int), t)
    u, v = np.diff(one)[:, None], np.diff(two)[None]
    det = (u.conj() * v).imag
    offset = two[None, :-1] - one[:-1, None]
    with np.errstate(all="ignore"):
        s, r = (offset.conj() * v).imag / det, (offset.conj() * u).imag / det
        # Only what crosses at a good angle and away from chord ends is beyond doubt on polylines.
        sure = (abs(s - 0.5) < 0.49) & (abs(r - 0.5) < 0.49) & (abs(det) > 0.1 * abs(u) * abs(v))
    for i, _ in np.argwhere(sure & (abs(u) > 0.01) & (abs(v) > 0.01)):
        z = one[i] + s[i, _] * u[i, 0]
        assert abs(found.points - z).min() < 0.1


@given(cubic)
@settings(max_examples=30)
def test_meetings_do_not_depend_on_the_order_of_the_sets(a):
    b = np.concatenate([circle(0, 150), circle(80j, 60)])
    one, two = intersections(a, b), intersections(b, a)
    assert len(one.points) == len(two.points)
    assert np.sort_complex(np.round(one.points, 4)) == pytest.approx(
        np.sort_complex(np.round(two.points, 4)), abs=2e-3
    )


def scribble(count, seed):
    rng = np.random.default_rng(seed)
    return lines(rng.uniform(0, 600, count) + 1j * rng.uniform(0, 600, count), closed=True)


def test_the_first_crossing_of_each_ring():
    bow, square = lines([0, 100 + 100j, 100, 100j], closed=True), lines([0, 50, 50 + 50j, 50j], closed=True)
    none = np.empty((0, 4), dtype=complex)
    found = first_crossings([square, bow, none, bow + 30])
    assert [crossing is None for crossing in found] == [True, False, True, False]
    assert found[1].point == pytest.approx(50 + 50j)
    assert found[3].point == pytest.approx(80 + 50j)
    assert {found[1].row, found[1].other_row} == {0, 2}


def test_a_ring_crosses_itself_where_looking_at_every_pair_finds_it():
    for seed in range(30):
        ring = scribble(5, seed)
        all_of_them = [z for z, kind in told(self_intersections(ring)) if kind is CROSS]
        (found,) = first_crossings([ring])
        assert (found is None) == (not all_of_them)
        assert found is None or min(abs(found.point - z) for z in all_of_them) < 1e-5


def test_what_crosses_itself_everywhere_is_told_from_what_only_touches_itself_everywhere():
    """A comb whose teeth all touch one straight back is near itself at every tooth and crosses itself nowhere."""
    teeth = [complex(x, 1.0 if x % 2 else 0.0) for x in range(1001)]
    comb = lines([*teeth, 1003 + 1j, 1005, -5, -5 + 1j], closed=True)
    wild, tame = first_crossings([scribble(1500, 1), comb])
    assert wild is not None
    assert tame is None


def test_meetings_near_the_start_of_a_ring_are_told_once():
    """Both ends of the ring's length lie at one place: what is near there is near, whichever side it is told from."""
    ring = np.concatenate([circle(0, 100)[1:], circle(0, 100)[:1]])
    across = lines([-200, 200])
    for turn in np.exp(1j * np.linspace(0, 2 * np.pi, 9)):
        assert len(told(intersections(ring * turn, across))) == 2


@given(st.integers(0, 2**31), st.integers(3, 30))
@settings(max_examples=30)
def test_windings_are_those_that_adding_up_the_angles_gives(seed, count):
    rng = np.random.default_rng(seed)
    ring, z = (rng.uniform(-9, 9, n) + 1j * rng.uniform(-9, 9, n) for n in (count, 40))
    sight = np.append(ring, ring[0])[None, :] - z[:, None]
    added = np.angle(sight[:, 1:] * sight[:, :-1].conj()).sum(axis=1) / (2 * np.pi)
    assert windings(ring, z).tolist() == np.round(added).astype(int).tolist()
