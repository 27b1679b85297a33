from __future__ import annotations

import numpy as np
import pytest

from notchwork.geometry import (
    ArcTable,
    circle,
    end_tangent_by_fit,
    end_tangents_by_fit,
    lines,
    start_tangent_by_fit,
    start_tangents_by_fit,
)


def degrees(z: complex) -> float:
    return float(np.angle(z, deg=True))


@pytest.mark.parametrize("length", [0.5, 3.0, 200.0])
def test_a_straight_edge_sets_off_along_itself(length):
    edge = lines([2j, 2j + length * np.exp(0.5j)])
    assert start_tangent_by_fit(edge) == pytest.approx(np.exp(0.5j), abs=1e-9)
    assert end_tangent_by_fit(edge) == pytest.approx(np.exp(0.5j), abs=1e-9)


@pytest.mark.parametrize(("radius", "within"), [(10, 0.5), (25, 0.05), (60, 0.01), (700, 0.001)])
def test_the_fit_reads_a_circle_nearly_as_its_tangent(radius, within):
    quarter = circle(0, radius)[:6]
    assert degrees(start_tangent_by_fit(quarter)) == pytest.approx(90, abs=within)
    assert abs(degrees(end_tangent_by_fit(quarter))) == pytest.approx(180, abs=within)


def test_a_stray_short_handle_hardly_turns_the_fit():
    stray = np.array([[0, 0.2j, 60, 100]], dtype=complex)
    assert abs(degrees(start_tangent_by_fit(stray))) < 5


@pytest.mark.parametrize("turned", [6.0, -6.0, 10.0])
def test_a_turned_handle_shows(turned):
    edge = np.array([[0, 30 * np.exp(1j * np.radians(turned)), 70, 100]])
    assert degrees(start_tangent_by_fit(edge)) == pytest.approx(turned, abs=1.0)


def test_many_edges_at_once_and_rows_shorter_than_the_reach():
    run = np.concatenate([lines([0, 1, 2, 3, 10]), circle(-30 + 10, 30)[:6], lines([5, 5])])
    table = ArcTable(run)
    found = start_tangents_by_fit(table, np.array([0, 4, 10]), np.array([4, 10, 11]))
    assert found[0] == pytest.approx(1, abs=1e-9)
    assert degrees(found[1]) == pytest.approx(90, abs=0.05)
    assert found[2] == 0
    ends = end_tangents_by_fit(table, np.array([0, 4, 10]), np.array([4, 10, 11]))
    assert ends[0] == pytest.approx(1, abs=1e-9)
    assert abs(degrees(ends[1])) == pytest.approx(180, abs=0.05)
    assert ends[2] == 0
