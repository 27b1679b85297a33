"""Polylines become the smooth curves on which their vertices lie."""

from __future__ import annotations

import numpy as np
import pytest
from core.geometry.drawn import blob
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from notchwork.geometry import (
    Fitted,
    curvatures,
    derivatives,
    fitted,
    flatten,
    is_straight,
    lengths,
    lines,
    nearest,
    points,
    tangents,
)

ARMHOLE = np.array(
    [
        [0, 30 - 5j, 60 - 60j, 80 - 150j],
        [80 - 150j, 94 - 213j, 60 - 260j, -20 - 270j],
    ]
)


def sampled(cubics: np.ndarray, each: int = 101) -> np.ndarray:
    rows = np.arange(len(cubics)).repeat(each)
    return points(cubics, rows, np.tile(np.linspace(0, 1, each), len(cubics)))


def apart(found: np.ndarray, source: np.ndarray) -> float:
    """The greatest distance of either from the other."""
    there, back = nearest(found, sampled(source)), nearest(source, sampled(found))
    return float(max(there.distance.max(), back.distance.max()))


def kinks(found: Fitted, closed: bool = False) -> np.ndarray:
    """By how much (degrees) each row turns away from the one before it, corners and joints of two lines left out."""
    cubics = found.cubics
    rows = np.arange(len(cubics))
    leave, arrive = tangents(cubics, rows, np.zeros(len(rows))), tangents(cubics, rows, np.ones(len(rows)))
    turn = np.abs(np.degrees(np.angle(leave * np.roll(arrive, 1).conj())))
    turn[found.corners] = 0.0
    if not closed:
        turn[0] = 0.0
    return turn


def sound(cubics: np.ndarray) -> bool:
    """Whether curves are such as are cut from cloth: no loop, no cusp, no bend tighter than 3 mm."""
    rows, t = np.arange(len(cubics)).repeat(201), np.tile(np.linspace(0, 1, 201), len(cubics))
    speed = np.abs(derivatives(cubics, rows, t)).reshape(-1, 201)
    return bool((speed.min(axis=1) > 0.15 * speed.max(axis=1)).all()) and bool(
        np.abs(curvatures(cubics, rows, t)).max() < 1 / 3
    )


angle = st.integers(-80, 80).map(lambda degrees: np.exp(1j * np.radians(degrees)))
share = st.integers(15, 80).map(lambda percent: percent / 100)


@st.composite
def curves(draw: st.DrawFn) -> np.ndarray:
    """One sound cubic from 20 mm to 700 mm long, anywhere and turned any way."""
    a, b = draw(share) * draw(angle), draw(share) * draw(angle)
    size = draw(st.integers(20, 700)) * np.exp(1j * np.radians(draw(st.integers(0, 359))))
    found = np.array([[0, a, 1 - b, 1]]) * size + complex(draw(st.integers(-900, 900)), 40)
    assume(sound(found))
    return found


@settings(max_examples=120, deadline=None)
@given(curves(), st.sampled_from([0.05, 0.01]), st.sampled_from([None, 4, 3]))
def test_a_sound_curve_comes_back_from_its_chords(
    source: np.ndarray, chord: float, decimals: int | None
) -> None:
    z = flatten(source, chord).points
    if decimals is not None:
        z = np.round(z, decimals)
    [found] = fitted([z], [False])
    assert found.off <= 0.005 + 0.002
    assert apart(found.cubics, source) < 0.05
    assert abs(lengths(found.cubics).sum() - lengths(source).sum()) < 0.01
    assert np.array_equal([found.cubics[0, 0], found.cubics[-1, 3]], z[[0, -1]])
    assert np.array_equal(found.cubics[:, 0], z[found.source])
    assert kinks(found).max() < 0.01


@pytest.mark.parametrize("chord", [0.05, 0.01])
def test_nearly_all_sound_curves_come_back_as_one_cubic(chord: float) -> None:
    """Fewest cubics: least squares may be caught beside the true curve, but must hardly ever be."""
    rng = np.random.default_rng(7)
    shape = rng.uniform(0.15, 0.8, (400, 2)) * np.exp(1j * rng.uniform(-1.4, 1.4, (400, 2)))
    rows = np.stack([np.zeros(400), shape[:, 0], 1 - shape[:, 1], np.ones(400)], axis=1)
    rows = rows * rng.uniform(20, 700, 400)[:, None]
    rows = rows[[sound(row[None]) for row in rows]]
    found = fitted([flatten(row[None], chord).points for row in rows], [False] * len(rows))
    single = [k for k, one in enumerate(found) if len(one.cubics) == 1]
    assert len(single) > 0.97 * len(rows) > 200
    exact = [np.abs(found[k].cubics[0] - rows[k]).max() < 0.01 for k in single]
    # Chords of 0.05 mm may leave fewer vertices than four unknowns, or tell nearly nothing about a handle.
    assert np.mean(exact) > 0.85


@pytest.mark.parametrize("chord", [0.05, 0.01])
@pytest.mark.parametrize("told", [True, False])
def test_an_armhole_of_two_cubics_comes_back_as_they_were(chord: float, told: bool) -> None:
    flat = flatten(ARMHOLE, chord)
    pitch = int(np.searchsorted(flat.rows, 1))
    [found] = fitted([flat.points], [False], [[]], [[pitch]] if told else None)
    assert found.source.tolist() == [0, pitch]
    assert np.abs(found.cubics - ARMHOLE).max() < 0.001
    assert found.off < 1e-6


def test_nodes_on_every_vertex_mean_nothing() -> None:
    z = flatten(ARMHOLE, 0.05).points
    [found] = fitted([z], [False], [[]], [list(range(len(z)))])
    assert len(found.cubics) == 2


def test_a_kept_node_stays_one_where_one_cubic_would_do() -> None:
    z = flatten(ARMHOLE[:1], 0.05).points
    [found] = fitted([z], [False], [[]], [[9]])
    assert found.source.tolist() == [0, 9]
    assert apart(found.cubics, ARMHOLE[:1]) < 0.001


@pytest.mark.parametrize("radius", [10.0, 60.0, 800.0])
@pytest.mark.parametrize("chord", [0.05, 0.01])
def test_a_circle_comes_back_round(radius: float, chord: float) -> None:
    """Closed forms: points of a circle, 2·π·r. One cubic strays from a quarter circle by 2.7e-4·r at least
    (M. Goldapp, Approximation of circular arcs by cubic polynomials, Computer Aided Geometric Design 8, 1991).
    """
    count = int(np.ceil(np.pi / np.arccos(1 - chord / radius)))
    [found] = fitted([radius * np.exp(2j * np.pi * np.arange(count) / count)], [True])
    assert np.abs(sampled(found.cubics)) == pytest.approx(radius, abs=0.006)
    assert lengths(found.cubics).sum() == pytest.approx(2 * np.pi * radius, abs=0.01)
    assert kinks(found, closed=True).max() < 1e-6
    assert len(found.cubics) == (4 if radius == 10.0 else 8)
    assert found.cubics[-1, 3] == found.cubics[0, 0]


def test_a_quarter_ellipse_has_its_length() -> None:
    """Length a·E(1 − b²/a²), the complete elliptic integral of the second kind, by scipy.special.ellipe."""
    from scipy.special import ellipe

    t = np.linspace(0, np.pi / 2, 40)
    [found] = fitted([200 * np.cos(t) + 120j * np.sin(t)], [False])
    assert lengths(found.cubics).sum() == pytest.approx(200 * ellipe(1 - 0.36), abs=0.005)
    on = sampled(found.cubics)
    assert np.hypot(on.real / 200, on.imag / 120) == pytest.approx(1, abs=1e-4)
    assert len(found.cubics) <= 4


@pytest.mark.parametrize("chord", [0.05, 0.01])
@pytest.mark.parametrize("between", [1, 9])
def test_a_line_an_arc_and_a_line_stay_what_they_are(chord: float, between: int) -> None:
    """80 mm, a quarter of a 10 mm radius, 40 mm; vertices on the first line, as notches leave them."""
    step = int(np.ceil(np.pi / 4 / np.arccos(1 - chord / 10)))
    arc = 10 * np.exp(1j * np.linspace(-np.pi / 2, 0, step + 1))
    z = np.concatenate([np.linspace(-80 - 10j, -10j, between + 1)[:-1], arc, [10 + 40j]])
    [found] = fitted([z], [False])
    assert found.source.tolist() == [0, between, between + step]
    assert is_straight(found.cubics, 0).tolist() == [True, False, True]
    assert kinks(found).max() < 1e-6
    assert lengths(found.cubics).sum() == pytest.approx(80 + 5 * np.pi + 40, abs=0.005)
    assert np.abs(sampled(found.cubics[1:2])) == pytest.approx(10, abs=0.005)


def test_a_line_that_meets_a_curve_in_a_kink_keeps_it() -> None:
    arc = 50 * np.exp(1j * np.linspace(-np.pi / 2, -np.pi / 4, 11))
    z = np.concatenate([arc[0] - [80 * np.exp(0.2j)], arc])
    [found] = fitted([z], [False])
    assert is_straight(found.cubics).tolist()[0]
    leave = tangents(found.cubics, np.array([1]), np.zeros(1))
    assert np.degrees(np.angle(leave))[0] == pytest.approx(0.0, abs=0.05)


def test_a_stadium_closes_smoothly_wherever_it_begins() -> None:
    side = np.exp(1j * np.linspace(-np.pi / 2, np.pi / 2, 31)) * 20
    ring = np.concatenate([side + 100, -side - 100])
    for first in (0, 3, 30, 40):
        [found] = fitted([np.roll(ring, -first)], [True])
        assert kinks(found, closed=True).max() < 1e-6
        assert is_straight(found.cubics).sum() == 2
        assert lengths(found.cubics).sum() == pytest.approx(400 + 40 * np.pi, abs=0.01)


def test_outlines_keep_lines_and_corners_and_gain_little() -> None:
    rng = np.random.default_rng(1)
    outlines = [np.concatenate(one) for one in (blob(rng, 6, 0.25) for _ in range(90)) if one is not None]
    outlines = [one for one in outlines if sound(one[~is_straight(one)])]
    flats = [flatten(one, 0.05) for one in outlines]
    corners = [
        np.searchsorted(flat.rows, np.arange(len(one))).tolist()
        for flat, one in zip(flats, outlines, strict=True)
    ]
    found = fitted([flat.points[:-1] for flat in flats], [True] * len(flats), corners)
    assert len(outlines) > 20
    for one, source, at in zip(found, outlines, corners, strict=True):
        assert one.source[one.corners].tolist() == at
        assert apart(one.cubics, source) < 0.05
        assert np.isin(source[is_straight(source)][:, 0], one.cubics[is_straight(one.cubics, 0)][:, 0]).all()
        assert abs(lengths(one.cubics).sum() - lengths(source).sum()) < 0.02
    extra = sum(len(one.cubics) - len(source) for one, source in zip(found, outlines, strict=True))
    assert extra <= 0.05 * sum(map(len, outlines))


def test_polygons_stay_polygons() -> None:
    turned = 100 * np.exp(2j * np.pi * np.arange(36) / 36)
    for ring in (np.array([0, 100, 100 + 50j, 50j]), turned):
        [found] = fitted([ring], [True])
        assert np.array_equal(found.cubics, lines(ring, closed=True))
        assert len(found.corners) == len(ring)


def test_a_shallow_corner_between_curves_is_found() -> None:
    """A neckline that dips by 10° at its middle: less than what any vertex may turn, much more than its neighbours do."""
    half = np.array([[0, 30 - 4j, 70 - 6j, 100 - 6j]])
    other = 200 - half[:, ::-1].conj() - 12j
    kinked = (other - other[0, 0]) * np.exp(0.17j) + half[0, 3]
    flat = flatten(np.concatenate([half, kinked]), 0.01)
    [found] = fitted([flat.points], [False])
    assert found.source[found.corners].tolist() == [int(np.searchsorted(flat.rows, 1))]


def test_runs_do_not_touch_each_other() -> None:
    z = flatten(ARMHOLE, 0.05).points
    [alone] = fitted([z], [False])
    found = fitted([z[:0], z, z[:1], z + 60, z], [True, False, False, False, False])
    assert [len(one.cubics) for one in found] == [0, 2, 0, 2, 2]
    assert found[1].cubics == pytest.approx(alone.cubics, abs=1e-6)
    assert found[3].cubics == pytest.approx(alone.cubics + 60, abs=1e-4)


def test_nothing_at_all_is_fitted_to_nothing() -> None:
    assert fitted([], []) == []


HOSTILE = {
    "one vertex": [5],
    "one place": [5, 5, 5],
    "two vertices": [0, 10],
    "all on a line": list(np.linspace(0, 100 + 30j, 40)),
    "there and back": [0, 100, 0],
    "twins": list(np.repeat(flatten(ARMHOLE, 0.05).points, 3)),
    "near twins": list(np.repeat(flatten(ARMHOLE, 0.05).points, 2) + np.tile([0, 1e-5j], 59)),
    "a spike": [*np.linspace(0, 100, 30), 100 + 80j, *np.linspace(100, 200, 30)],
    "tiny": [0, 1e-7, 1e-7j, 0],
    "far away": list(flatten(ARMHOLE, 0.05).points + 1e7),
    "zigzag": list(np.arange(200) + 1j * (np.arange(200) % 2)),
    "small zigzag": list(np.arange(200) + 0.04j * (np.arange(200) % 2)),
    "a knot": list(np.cumsum(np.exp(1j * np.cumsum(np.sin(np.arange(300)))))),
}


@pytest.mark.parametrize("closed", [False, True])
@pytest.mark.parametrize("name", HOSTILE)
def test_whatever_comes_is_followed(name: str, closed: bool) -> None:
    z = np.array(HOSTILE[name], dtype=complex)
    [found] = fitted([z], [closed])
    assert np.isfinite(found.cubics).all()
    assert np.isfinite(found.off)
    assert found.off < 0.05
    if np.ptp(z.real) + np.ptp(z.imag) < 2e-4:
        assert len(found.cubics) == 0
        return
    assert nearest(found.cubics, z).distance.max() < 0.05
    assert np.array_equal(found.cubics[1:, 0], found.cubics[:-1, 3])
    chords = np.append(z, z[0]) if closed else z
    assert nearest(lines(chords), sampled(found.cubics)).distance.max() < 0.15


def test_a_vertex_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="not a finite number"):
        fitted([np.array([0, complex("nan"), 3])], [False])


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.builds(complex, st.integers(-50, 50), st.integers(-50, 50)), max_size=12),
    st.booleans(),
    st.sampled_from([0.02, 0.2, 1.0, 10.0]),
)
def test_any_run_of_vertices_is_followed(vertices: list[complex], closed: bool, scale: float) -> None:
    z = np.array(vertices, dtype=complex) * scale
    [found] = fitted([z], [closed])
    assert np.isfinite(found.cubics).all()
    assert found.off <= 0.01
    if len(found.cubics):
        assert nearest(found.cubics, z).distance.max() <= 0.01
        chords = np.append(z, z[0]) if closed else z
        assert nearest(lines(chords), sampled(found.cubics)).distance.max() < 0.15
