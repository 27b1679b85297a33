"""Points sampled from curves become few cubics that keep to them; what is a corner stays one."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.geometry import flatten, is_straight, lines, nearest, points
from notchwork.geometry.smooth import STRAY, smoothed

coordinate = st.integers(-3000, 3000).map(lambda n: n / 10)
point = st.builds(complex, coordinate, coordinate)


def sampled(radius: float, sag: float = 0.003) -> np.ndarray:
    """A circle in equal steps whose chords lie within the sag of it (radius · (1 − cos(step / 2)))."""
    count = int(np.ceil(np.pi / np.arccos(1 - sag / radius)))
    return radius * np.exp(2j * np.pi * np.arange(count) / count)


@pytest.mark.parametrize("radius", [5.0, 40.0, 800.0])
def test_a_circle_comes_back_round_and_in_few_cubics(radius: float) -> None:
    ring = sampled(radius)
    [found] = smoothed([ring], [True])
    assert len(found) < len(ring) / 3
    assert found[0, 0] == found[-1, 3]
    rows, t = np.repeat(np.arange(len(found)), 21), np.tile(np.linspace(0, 1, 21), len(found))
    assert np.abs(points(found, rows, t)) == pytest.approx(np.full(len(rows), radius), abs=0.008)


@settings(max_examples=60, deadline=None)
@given(st.lists(point, min_size=4, max_size=4), st.lists(point, min_size=4, max_size=4))
def test_curves_with_a_corner_between_them_keep_to_their_points(
    one: list[complex], two: list[complex]
) -> None:
    run = np.array([one, [one[3], two[1], two[2], two[3]]])
    z = flatten(run, 0.003).points
    [found] = smoothed([z], [False])
    if not len(found):
        assert np.ptp(z.real) + np.ptp(z.imag) < 1e-6
        return
    assert found[0, 0] == z[0]
    assert found[-1, 3] == z[-1]
    assert np.abs(found[1:, 0] - found[:-1, 3]).max(initial=0) == 0
    assert nearest(found, z).distance.max() <= STRAY + 1e-6
    rows, t = np.repeat(np.arange(len(found)), 9), np.tile(np.linspace(0, 1, 9), len(found))
    assert nearest(lines(z), points(found, rows, t)).distance.max() < 0.03


def test_polygons_stay_polygons() -> None:
    turned = 100 * np.exp(2j * np.pi * np.arange(36) / 36)
    for ring in (np.array([0, 100, 100 + 50j, 50j]), turned):
        [found] = smoothed([ring], [True])
        assert len(found) == len(ring)
        assert is_straight(found).all()
        assert np.array_equal(found[:, 0], ring)


def test_points_on_a_straight_line_are_one_straight_line() -> None:
    [found] = smoothed([np.linspace(0, 300 + 40j, 50)], [False])
    assert np.array_equal(found, [[0, 0, 300 + 40j, 300 + 40j]])


def test_runs_do_not_touch_each_other_and_empty_ones_stay_empty() -> None:
    ring = sampled(60.0)
    alone = smoothed([ring], [True])[0]
    found = smoothed([np.empty(0, complex), ring, ring[:1], ring + 60, ring], [True, True, False, True, True])
    assert [len(part) for part in found] == [0, len(alone), 0, len(alone), len(alone)]
    assert np.array_equal(found[1], alone)
    assert found[3] == pytest.approx(alone + 60, abs=1e-6)
