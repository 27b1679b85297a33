"""Vertices that all sizes share: as close to every size's curve as was asked for, and at the same place of it."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from notchwork.geometry import circle, lines, points
from notchwork_plugins.dxf.write.chords import CORNER, INNER, NODE, Vertices, shared
from notchwork_plugins.dxf.write.runs import Part, Run, put_together

Complexes = NDArray[np.complex128]


def run(cubics: Complexes, closed: bool = False) -> Run:
    return put_together([Part("", cubics)], closed)[0]._replace(closed=closed)


def dense(cubics: Complexes, count: int = 400) -> Complexes:
    t = np.linspace(0, 1, count)
    return points(cubics, np.repeat(np.arange(len(cubics)), count), np.tile(t, len(cubics)))


def beside(cubics: Complexes, z: Complexes, closed: bool) -> float:
    """How far the curves lie from a polyline at most, as shapely measures it at many places."""
    ends = np.append(z, z[0]) if closed else z
    curve = dense(cubics)
    polyline = shapely.LineString(np.stack([ends.real, ends.imag], axis=1))
    return float(shapely.distance(polyline, shapely.points(curve.real, curve.imag)).max())


def check(runs: list[Run], found: Vertices, chord: float) -> None:
    for k, one in enumerate(runs):
        assert beside(one.cubics, found.z[k], one.closed) <= chord


def test_a_circle_needs_as_many_chords_as_its_sagitta_says() -> None:
    """Sagitta of a chord over the angle a: r (1 - cos(a/2)), from any handbook of geometry."""
    radius, chord = 100.0, 0.05
    (found,) = [shared([run(circle(0j, radius, 4), closed=True)], chord)]
    assert found is not None
    needed = np.pi / np.arccos(1 - chord / radius)
    assert needed <= found.z.shape[1] <= 1.06 * needed + 4
    assert np.abs(np.abs(found.z) - radius).max() < 0.03  # four cubics stray 0.027 from this circle
    middles = (found.z[0] + np.roll(found.z[0], -1)) / 2
    assert radius - np.abs(middles).min() <= chord + 0.001


def test_straight_lines_get_no_vertices_but_their_corners() -> None:
    square = lines(np.array([0, 100, 100 + 80j, 80j]), closed=True)
    found = shared([run(square, closed=True), run(1.5 * square, closed=True)], 0.05)
    assert found is not None
    assert found.z.tolist() == [[0, 100, 100 + 80j, 80j], [0, 150, 150 + 120j, 120j]]
    assert found.kinds.tolist() == [CORNER] * 4


def test_a_node_on_a_smooth_line_is_told_from_its_corners() -> None:
    first = np.array([0, 20, 40 + 10j, 50 + 20j])
    second = np.array([50 + 20j, 60 + 30j, 80 + 30j, 100 + 30j])
    found = shared([run(np.array([first, second]))], 0.05)
    assert found is not None
    assert found.kinds[0] == found.kinds[-1] == CORNER
    (node,) = np.flatnonzero(found.kinds == NODE)
    assert found.z[0, node] == 50 + 20j
    assert set(found.kinds) == {CORNER, NODE, INNER}


coordinates = st.floats(-150, 150)
places = st.builds(complex, coordinates, coordinates)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(places, places, places), min_size=1, max_size=4),
    st.lists(st.floats(0.7, 1.4), min_size=1, max_size=3),
    st.sampled_from([0.02, 0.05, 0.5]),
)
def test_every_size_is_as_close_as_was_asked_for(
    drawn: list[tuple[complex, complex, complex]], grades: list[float], chord: float
) -> None:
    nodes = [0j, *(end for _, _, end in drawn)]
    cubics = np.array([[a, b, c, d] for a, (b, c, d) in zip(nodes, drawn, strict=False)])
    runs = [run(cubics.real * grade + 1j * cubics.imag) for grade in (1.0, *grades)]
    found = shared(runs, chord)
    if found is not None:
        check(runs, found, chord)
        assert found.z.shape[0] == len(runs)


def test_a_line_with_other_cubics_in_one_size_is_divided_by_its_length() -> None:
    arc = np.array([[0, 60j, 40 + 100j, 100 + 100j]])
    halves = np.array([[0, 30j, 10 + 55j, 30 + 75j], [30 + 75j, 50 + 95j, 70 + 100j, 100 + 100j]])
    runs = [run(np.concatenate([arc, lines(np.array([100 + 100j, 100, 0]))]), closed=True)]
    runs += [run(np.concatenate([halves, lines(np.array([100 + 100j, 100, 0]))]), closed=True)]
    found = shared(runs, 0.05)
    assert found is not None
    check(runs, found, 0.05)
    for z in found.z:
        corners = z[found.kinds == CORNER]
        assert corners == pytest.approx([0, 100 + 100j, 100])
    # The k-th vertex lies at the same share of the length in both, up to how finely lengths are measured.
    along = [np.cumsum(np.abs(np.diff(z[: np.flatnonzero(z == 100 + 100j)[0] + 1]))) for z in found.z]
    assert np.abs(along[0] / along[0][-1] - along[1] / along[1][-1]).max() < 2e-3


def test_corners_are_matched_where_a_closed_line_begins_elsewhere() -> None:
    corners = np.array([0, 100, 120 + 90j, 10 + 70j])
    runs = [
        run(lines(corners, closed=True), closed=True),
        run(lines(np.roll(1.1 * corners, -2), closed=True), closed=True),
    ]
    # Another cubic on one side, so that numbers of cubics cannot serve.
    bent = np.array([[0, 30 - 5j, 60 - 5j, 100]]) * 1.1
    runs[1] = run(np.concatenate([runs[1].cubics[:2], bent, runs[1].cubics[3:]]), closed=True)
    found = shared(runs, 0.05)
    assert found is not None
    assert found.z[1, found.kinds == CORNER] == pytest.approx(1.1 * corners)


def test_a_corner_more_in_one_size_cannot_be_shared() -> None:
    whole = lines(np.array([0, 100, 100 + 80j, 80j]), closed=True)
    bevelled = lines(np.array([0, 100, 100 + 60j, 80 + 80j, 80j]), closed=True)
    assert shared([run(whole, closed=True), run(bevelled, closed=True)], 0.05) is None
