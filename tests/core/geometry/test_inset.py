"""Edges of a closed outline moved inward, each by its own width."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork.geometry import area, circle, groups, inset, lines, nearest, points


def edges_of(nodes: list[complex]) -> list[np.ndarray]:
    outline = lines(np.array(nodes), closed=True)
    return [outline[k : k + 1] for k in range(len(outline))]


def test_a_rectangle_with_four_widths():
    moved = inset(edges_of([0j, 100 + 0j, 100 + 80j, 80j]), [10, 5, 0, 20])
    assert moved is not None
    assert np.concatenate(moved)[:, 0] == pytest.approx(np.array([20 + 10j, 95 + 10j, 95 + 80j, 20 + 80j]))
    assert [len(run) for run in moved] == [1, 1, 1, 1]


def test_a_concave_corner_is_drawn_on_until_both_edges_meet():
    moved = inset(edges_of([0j, 100 + 0j, 100 + 50j, 50 + 50j, 50 + 100j, 100j]), [10] * 6)
    assert moved is not None
    assert area(np.concatenate(moved)) == pytest.approx(80 * 30 + 30 * 50)


def test_a_circle_in_one_edge_and_in_two():
    ring = circle(0j, 50.0)
    for edges in ([ring], [ring[:10], ring[10:]]):
        moved = inset(edges, [10.0] * len(edges))
        assert moved is not None
        assert area(np.concatenate(moved)) == pytest.approx(np.pi * 1600, rel=1e-6)


def test_a_change_of_width_where_the_outline_runs_on_is_a_step():
    moved = inset(edges_of([0j, 100 + 0j, 200 + 0j, 200 + 80j, 80j]), [10, 20, 5, 5, 5])
    assert moved is not None
    assert np.concatenate(moved)[:, 0] == pytest.approx(
        np.array([5 + 10j, 100 + 10j, 100 + 20j, 195 + 20j, 195 + 75j, 5 + 75j])
    )


def test_a_swallowed_edge_is_none():
    assert inset(edges_of([0j, 300 + 0j, 300 + 14j, 14j]), [10] * 4) is None


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(60, 140), min_size=3, max_size=8), st.floats(0.5, 8.0))
def test_every_edge_lies_at_its_width_inside(radii, width):
    nodes = np.array(radii) * np.exp(2j * np.pi * np.arange(len(radii)) / len(radii))
    edges = edges_of(list(nodes))
    moved = inset(edges, [width] * len(edges))
    if moved is None:
        return
    outline = np.concatenate(edges)
    for run in moved:
        middle = points(run, np.arange(len(run)), np.full(len(run), 0.5))
        assert nearest(outline, middle).distance.min() >= width - 1e-6
    assert all(
        abs(run[-1, 3] - after[0, 0]) < 1e-9 for run, after in zip(moved, moved[1:] + moved[:1], strict=True)
    )


@given(st.integers(1, 12), st.lists(st.tuples(st.integers(0, 11), st.integers(0, 11)), max_size=12))
def test_groups_are_what_pairs_reach(count, pairs):
    pairs = [(a % count, b % count) for a, b in pairs]
    found = groups(count, pairs)
    assert sorted(k for group in found for k in group) == list(range(count))
    where = {k: number for number, group in enumerate(found) for k in group}
    assert all(where[a] == where[b] for a, b in pairs)
    assert len(found) >= count - len(pairs)


@pytest.mark.parametrize("slant", [6.0, -6.0, 40.0, -40.0])
def test_a_slanted_corner_beside_an_edge_that_stays(slant: float) -> None:
    """The hem of a skirt half whose fold stays where it is: one edge is drawn on, the other cut."""
    nodes = [0j, 250 - 1j * slant, 250 + 600j, 600j]
    outline = lines(np.array(nodes), closed=True)
    moved = inset([outline[k : k + 1] for k in range(4)], [10.0, 10.0, 10.0, 0.0])
    assert moved is not None
    rise = 10.0 * np.hypot(250.0, slant) / 250.0
    corner = moved[0][0, 0]
    assert corner.real == pytest.approx(0.0, abs=1e-6)
    assert corner.imag == pytest.approx(rise, abs=1e-6)
    assert abs(moved[3][-1, 3] - corner) < 1e-6
