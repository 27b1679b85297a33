"""Lengths, areas, distances and curvatures against closed forms and other libraries."""

from __future__ import annotations

import numpy as np
import pytest
import svgpathtools
from scipy.integrate import quad
from scipy.special import ellipe

from notchwork.geometry import ArcTable, area, circle, curvatures, lengths, lines, points


@pytest.mark.parametrize("radius", [10.0, 120.959, 711.41])
def test_circle_and_its_area(radius):
    """Circumference 2 pi r, area pi r^2 (Archimedes, Measurement of a circle)."""
    ring = circle(50 + 20j, radius, arcs=96)
    assert lengths(ring).sum() == pytest.approx(2 * np.pi * radius, rel=1e-11)
    assert area(ring) == pytest.approx(np.pi * radius**2, rel=1e-11)


@pytest.mark.parametrize(("half_width", "height"), [(1.0, 1.0), (120.0, 35.0), (80.0, 400.0)])
def test_parabola(half_width, height):
    """Arc of y = h (x/a)^2 from x = 0 to a: sqrt(a^2 + 4h^2)/2 + a^2/(4h) asinh(2h/a).

    I. N. Bronshtein and K. A. Semendyayev, Handbook of Mathematics, on the parabola, from memory. A parabola is a cubic
    exactly: its quadratic control polygon raised by one degree.
    """
    start, middle, end = 0j, complex(half_width / 2, 0), complex(half_width, height)
    row = np.array([[start, (start + 2 * middle) / 3, (2 * middle + end) / 3, end]])
    a, h = half_width, height
    exact = np.sqrt(a**2 + 4 * h**2) / 2 + a**2 / (4 * h) * np.arcsinh(2 * h / a)
    assert lengths(row)[0] == pytest.approx(exact, abs=1e-6)
    # Curvature 2h/a^2 at the vertex, the same handbook.
    assert curvatures(row, np.array([0]), np.array([0.0]))[0] == pytest.approx(2 * h / a**2)
    # Area under the arc a h / 3 (Archimedes, Quadrature of the parabola), so 2 a h / 3 above it.
    closing = lines([end, complex(0, height), start])
    assert area(np.concatenate([row, closing])) == pytest.approx(2 * a * h / 3)


@pytest.mark.parametrize(("a", "b"), [(200.0, 60.0), (90.0, 88.0)])
def test_ellipse(a, b):
    """Perimeter 4 a E(e^2), E by scipy.special.ellipe; stretched arcs of a circle are arcs of the ellipse."""
    ring = circle(0, 1.0, arcs=128)
    stretched = a * ring.real + 1j * b * ring.imag
    assert lengths(stretched).sum() == pytest.approx(4 * a * ellipe(1 - (b / a) ** 2), rel=1e-10)
    assert area(stretched) == pytest.approx(np.pi * a * b, rel=1e-10)


def scattered(count: int) -> np.ndarray:
    rng = np.random.default_rng(11)
    return (rng.normal(size=(count, 4)) + 1j * rng.normal(size=(count, 4))) * 60 + np.arange(4) * 50


def test_lengths_and_distances_by_adaptive_quadrature():
    """scipy.integrate.quad (QUADPACK), with the roots of the derivative given as break points."""
    rows = scattered(30)
    table = ArcTable(rows)
    for k, row in enumerate(rows):
        d = 3 * np.diff(row)
        power = [d[0] - 2 * d[1] + d[2], 2 * (d[1] - d[0]), d[0]]

        def speed(t, power=power):
            return abs(np.polyval(power, t))

        breaks = [z.real for z in np.roots(power) if 0 < z.real < 1]
        whole, _ = quad(speed, 0, 1, points=breaks, limit=500, epsabs=1e-11, epsrel=1e-13)
        assert table.lengths[k] == pytest.approx(whole, abs=1e-6)
        t = table.parameters(np.array([k]), np.array([0.37 * whole]))[0]
        inside = [z for z in breaks if z < t]
        part, _ = quad(speed, 0, t, points=inside or None, limit=500, epsabs=1e-11, epsrel=1e-13)
        assert part == pytest.approx(0.37 * whole, abs=1e-6)


def test_points_lengths_and_curvatures_of_svgpathtools():
    """svgpathtools 1.x CubicBezier.point, length and curvature (which has no sign)."""
    rows = scattered(30)
    every, t = np.arange(len(rows)), np.full(len(rows), 0.3)
    here, measured, bend = points(rows, every, t), lengths(rows), curvatures(rows, every, t)
    for k, row in enumerate(rows):
        other = svgpathtools.CubicBezier(*row)
        assert here[k] == pytest.approx(other.point(0.3), abs=1e-9)
        assert measured[k] == pytest.approx(other.length(error=1e-9, min_depth=7), abs=2e-6)
        assert abs(bend[k]) == pytest.approx(other.curvature(0.3), rel=1e-6)


def test_a_four_arc_circle_strays_as_is_known():
    """A quarter circle as one cubic strays outward by 2.7e-4 of the radius.

    M. Goldapp, Approximation of circular arcs by cubic polynomials, CAGD 8 (1991), from memory.
    """
    t = np.linspace(0, 1, 2001)
    off = abs(points(circle(0, 1, arcs=4), np.zeros(2001, dtype=int), t)) - 1
    assert off.max() == pytest.approx(2.73e-4, abs=1e-6)
