from __future__ import annotations

import mpmath
import numpy as np
import pytest
from core.geometry.drawn import HARD, cubic, hard
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.geometry import ArcTable, lengths, parameters_at, parts
from notchwork.geometry.arclength import certified_stretches


def reference(row: np.ndarray) -> float:
    """The length by mpmath with 20 digits, its panels halved again and again towards the roots of the derivative."""
    d = 3 * np.diff(row)
    c, b, a = d[0], 2 * (d[1] - d[0]), d[0] - 2 * d[1] + d[2]
    with np.errstate(all="ignore"):
        roots = [z.real for z in np.roots(np.trim_zeros([a, b, c], "f"))] if np.any(d) else []
    cuts = {0.0, 1.0}
    for root in [
        *(z for z in roots if 0 < z < 1),
        *(z for z in (0.0, 1.0) if any(abs(z - r) < 0.3 for r in roots)),
    ]:
        cuts.update(z for k in range(1, 34) for z in (root - 2.0**-k, root + 2.0**-k) if 0 < z < 1)
        cuts.add(root)
    with mpmath.workdps(20):
        p, q, r = mpmath.mpc(c), mpmath.mpc(b), mpmath.mpc(a)
        return float(mpmath.quad(lambda t: abs(p + q * t + r * t * t), sorted(cuts), maxdegree=4))


@pytest.mark.parametrize("name", HARD)
def test_hard_curves_are_measured_within_a_millionth_of_a_millimetre(name):
    row = np.array(HARD[name], dtype=complex)
    assert abs(lengths(row[None])[0] - reference(row)) < 1e-6


def test_scattered_curves_are_measured_within_a_millionth_of_a_millimetre():
    rng = np.random.default_rng(7)
    rows = (rng.normal(size=(5, 4)) + 1j * rng.normal(size=(5, 4))) * 100
    assert max(abs(lengths(rows) - [reference(row) for row in rows])) < 1e-6


@given(cubic)
@settings(max_examples=60)
def test_two_rules_of_different_order_agree(c):
    fine = certified_stretches(c, panels=16, rules=(24,))
    assert abs(lengths(c)[0] - fine.length.sum()) < 1e-6


@given(
    st.complex_numbers(max_magnitude=2000, allow_nan=False),
    st.complex_numbers(max_magnitude=2000, allow_nan=False),
)
def test_a_straight_row_is_as_long_as_its_chord_to_the_last_digit(a, b):
    assert lengths([[a, a, b, b]])[0] == pytest.approx(abs(b - a), rel=1e-15)


@given(cubic, st.floats(0.0, 1.0))
def test_the_lengths_of_two_parts_add_up(c, t):
    both = parts(c, np.zeros(2, dtype=int), np.array([0.0, t]), np.array([t, 1.0]))
    assert abs(lengths(both).sum() - lengths(c)[0]) < 1e-6


@given(cubic, st.floats(-0.1, 1.1))
@settings(max_examples=60)
def test_the_part_up_to_a_distance_is_as_long_as_the_distance(c, share):
    whole = lengths(c)[0]
    t = parameters_at(c, np.array([0]), np.array([share * whole]))
    before = parts(c, np.array([0]), np.zeros(1), t)
    assert abs(lengths(before)[0] - min(max(share, 0.0), 1.0) * whole) < 1e-6


def test_distances_on_hard_curves_and_back():
    rng = np.random.default_rng(3)
    c = hard()
    table = ArcTable(c)
    assert np.allclose(table.lengths, lengths(c), rtol=0, atol=1e-7)
    rows = rng.integers(0, len(c), 2000)
    asked = rng.uniform(-0.05, 1.05, len(rows)) * table.lengths[rows]
    t = table.parameters(rows, asked)
    assert ((t >= 0.0) & (t <= 1.0)).all()
    reached = np.clip(asked, 0.0, table.lengths[rows])
    assert np.abs(table.distances(rows, t) - reached).max() < 1e-6
    assert np.abs(lengths(parts(c, rows, np.zeros(len(rows)), t)) - reached).max() < 1e-6


def test_ends_are_met_exactly():
    c = hard()
    rows = np.arange(len(c))
    assert (parameters_at(c, rows, lengths(c) + 1.0) == 1.0).all()
    assert (parameters_at(c, rows, np.full(len(c), -1.0)) == 0.0).all()


def test_nothing_has_no_length():
    assert lengths(np.zeros((0, 4))).tolist() == []
    assert ArcTable(np.zeros((0, 4))).lengths.tolist() == []


def test_a_number_that_is_not_finite_is_refused():
    with pytest.raises(ValueError, match="finite"):
        lengths([[0, 1, 2, np.nan]])
