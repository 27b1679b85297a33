from __future__ import annotations

import numpy as np
import pytest
from core.geometry.drawn import cubic, hard
from hypothesis import given
from hypothesis import strategies as st

from notchwork.geometry import (
    as_cubics,
    circle,
    curvatures,
    derivatives,
    is_straight,
    lengths,
    part,
    parts,
    points,
    reverse,
    second_derivatives,
    split,
    tangents,
)

share = st.floats(0.0, 1.0)


def at(cubics: np.ndarray, t: float) -> complex:
    return complex(points(cubics, np.array([0]), np.array([t]))[0])


@given(cubic, share, share)
def test_the_halves_of_a_split_curve_are_the_curve(c, t, u):
    before, after = split(c[0], t)
    assert before[3] == after[0]
    assert before[0] == c[0, 0]
    assert after[3] == c[0, 3]
    assert abs(at(before[None], u) - at(c, u * t)) < 1e-9
    assert abs(at(after[None], u) - at(c, t + u * (1 - t))) < 1e-9


@given(cubic, share, share, share)
def test_a_part_runs_through_the_same_points_either_way(c, t0, t1, u):
    assert abs(at(part(c[0], t0, t1)[None], u) - at(c, t0 + u * (t1 - t0))) < 1e-9
    assert np.allclose(part(c[0], t0, t1), part(c[0], t1, t0)[::-1], rtol=0, atol=1e-9)


@given(cubic, share)
def test_derivatives_are_the_differences_they_stand_for(c, t):
    row, h = np.array([0]), 1e-4
    ahead, behind = points(c, row, np.array([t + h])), points(c, row, np.array([t - h]))
    here = points(c, row, np.array([t]))
    assert abs((ahead - behind) / (2 * h) - derivatives(c, row, np.array([t])))[0] < 1e-3
    assert abs((ahead - 2 * here + behind) / h**2 - second_derivatives(c, row, np.array([t])))[0] < 1e-3


@given(cubic, share)
def test_tangents_have_length_one_or_none(c, t):
    size = abs(tangents(c, np.array([0]), np.array([t]))[0])
    assert size == pytest.approx(1.0) or size == 0.0


@pytest.mark.parametrize(
    ("row", "t", "direction"),
    [
        ([0, 0, 100j, 100 + 100j], 0.0, 1j),
        ([0, 0, 0, 100], 0.0, 1),
        ([0, 100j, 100 + 100j, 100 + 100j], 1.0, 1),
        ([0, 100, 100, 100], 1.0, 1),
        ([0, 0, 100, 100], 0.0, 1),
        ([0, 0, 100, 100], 1.0, 1),
        ([0, 100 + 100j, 100j, 100], 0.5, -1j),  # a cusp is left downward
        ([5, 5, 5, 5], 0.3, 0),
    ],
)
def test_without_a_handle_the_tangent_points_to_the_next_control_point(row, t, direction):
    found = tangents(np.array([row], dtype=complex), np.array([0]), np.array([t]))[0]
    assert found == pytest.approx(direction, abs=1e-12)


@pytest.mark.parametrize("radius", [10.0, 60.0, 700.0])
def test_the_curvature_of_a_circle_is_one_over_its_radius_left_turns_positive(radius):
    rows, t = np.arange(24), np.full(24, 0.3)
    assert curvatures(circle(5j, radius), rows, t) == pytest.approx(np.full(24, 1 / radius), rel=1e-5)
    assert curvatures(reverse(circle(5j, radius)), rows, t) == pytest.approx(
        np.full(24, -1 / radius), rel=1e-5
    )


def test_curvature_where_the_speed_is_zero():
    c = np.array([[0, 0, 50, 100], [0, 0, 60 + 80j, 100], [0, 0, 60 - 80j, 100]])
    assert curvatures(c, np.arange(3), np.zeros(3)).tolist() == [0.0, -np.inf, np.inf]


def test_a_reversed_run_is_as_long_and_walks_back():
    run = hard()
    assert np.allclose(lengths(reverse(run)), lengths(run)[::-1], rtol=0, atol=1e-6)
    assert reverse(run)[0, 0] == run[-1, 3]


def test_straight_is_a_matter_of_handles_on_the_chord_and_between_its_ends():
    c = np.array(
        [[0, 0, 100, 100], [0, 30, 60, 100], [0, 30 + 0.0009j, 60, 100], [0, 30 + 0.002j, 60, 100], [0, -1, 60, 100], [0, 30, 101, 100], [3, 3, 3, 3], [3, 4, 3, 3]],
        dtype=complex,
    )  # fmt: skip
    assert is_straight(c).tolist() == [True, True, True, False, False, False, True, False]


def test_parts_answer_for_many_rows():
    c = hard()
    whole = parts(c, np.arange(len(c)), np.zeros(len(c)), np.ones(len(c)))
    assert np.allclose(whole, c, rtol=0, atol=1e-9)


@pytest.mark.parametrize(
    "bad", [np.zeros((3, 3)), np.zeros(4), [[0, 1, 2, np.nan]], [[0, 1, 2, complex(0, np.inf)]]]
)
def test_what_is_no_cubic_is_refused(bad):
    with pytest.raises(ValueError, match="control point"):
        as_cubics(bad)
