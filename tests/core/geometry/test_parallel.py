from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.geometry import circle, flatten, is_straight, lengths, lines, nearest, parallel, reverse

WAVE = np.array([[0, 40 + 120j, 60 - 120j, 100]])


def strays(run, distance):
    """How far the parallel is from its distance, nearest and farthest."""
    found = parallel(run, distance)
    far = nearest(run, flatten(found, 0.0005).points).distance - abs(distance)
    return found, far.min(), far.max()


@pytest.mark.parametrize("distance", [5, -5, 30, -60])
def test_the_parallel_of_a_circle_is_a_circle(distance):
    found = parallel(circle(0, 100)[:12], distance)
    assert lengths(found).sum() == pytest.approx(np.pi * (100 - distance), abs=1e-3)
    assert abs(flatten(found, 0.0005).points) == pytest.approx(100 - distance, abs=0.001)


@pytest.mark.parametrize("distance", [5, 20, 40, -40])
def test_a_wave_keeps_its_distance_and_loses_its_loops(distance):
    found, nearest_, farthest = strays(WAVE, distance)
    assert nearest_ > -0.0015
    assert farthest < 0.0015
    assert abs(found[1:, 0] - found[:-1, 3]).max() < 0.001


@given(
    st.lists(st.builds(complex, st.floats(-60, 60), st.floats(-60, 60)), min_size=4, max_size=4),
    st.floats(-30, 30).filter(lambda d: abs(d) > 0.5),
)
@settings(max_examples=25, deadline=None)
def test_no_point_is_nearer_than_the_distance(handles, distance):
    run = (np.array(handles) + np.arange(4) * 60)[None]
    if len(parallel(run, distance)):
        assert strays(run, distance)[1] > -0.0025


def test_corners_are_mitred_outside_and_cut_inside():
    corner = lines([0, 100, 100 + 100j])
    outside = parallel(corner, -10)
    assert 110 - 10j in outside[:, 0]
    assert is_straight(outside).all()
    assert parallel(corner, 10) == pytest.approx(lines([10j, 90 + 10j, 90 + 100j]), abs=1e-6)


def test_the_left_of_a_reversed_run_is_its_right():
    assert flatten(parallel(reverse(WAVE), 5)).points[::-1] == pytest.approx(
        flatten(parallel(WAVE, -5)).points, abs=0.001
    )


def test_a_run_at_no_distance_is_itself_and_a_tight_one_leaves_nothing():
    assert (parallel(WAVE, 0) == WAVE).all()
    assert parallel(circle(0, 100)[:6], 101).shape == (0, 4)
