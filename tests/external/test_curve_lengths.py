"""Lengths that the program measures on drawn pieces, against closed forms and independent references."""

from __future__ import annotations

import json
import math
from pathlib import Path

import mpmath
import pytest
import shapely
import svgpathtools
from external.drafting import Command, Cubic, Document, arc, backward, line, outline, pattern, seam
from scipy.integrate import quad
from scipy.special import ellipe

SMOCK: Document = json.loads(
    (Path(__file__).parents[1] / "cases" / "ferry_smock.pattern.json").read_text("utf-8")
)


def panel(curve: list[Cubic]) -> Document:
    """A piece with one curved edge and a corner below it."""
    low = min(point.imag for cubic in curve for point in cubic) - 100
    start, stop = curve[0][0], curve[-1][3]
    a, b = complex(start.real, low), complex(stop.real, low)
    return {"outline": outline(curve=curve, left=line(stop, b), lower=line(b, a), right=line(a, start))}


def stretched(curve: list[Cubic], x: float, y: float) -> list[Cubic]:
    return [tuple(complex(p.real * x, p.imag * y) for p in cubic) for cubic in curve]  # type: ignore[misc]


def test_a_quarter_circle(describe: Command) -> None:
    """Closed form: a quarter of 2πr, radius 120 mm."""
    report = describe(pattern({"panel": panel(arc(120, 0, 90))}))
    assert report.length("panel", "curve") == pytest.approx(math.pi * 60, abs=1e-5)


@pytest.mark.parametrize(("a", "b"), [(200.0, 60.0), (90.0, 140.0), (300.0, 20.0)])
def test_a_quarter_ellipse(describe: Command, a: float, b: float) -> None:
    """Closed form: a E(1 - b²/a²), by scipy.special.ellipe. An ellipse is a circle stretched."""
    longer, shorter = max(a, b), min(a, b)
    report = describe(pattern({"panel": panel(stretched(arc(1, 0, 90, step=5), a, b))}))
    expected = longer * ellipe(1 - (shorter / longer) ** 2)
    assert report.length("panel", "curve") == pytest.approx(expected, abs=1e-4)


def test_a_parabola(describe: Command) -> None:
    """Closed form: y = x²/2p from 0 to x is p/2 (t sqrt(1 + t²) + asinh t) long, t = x/p. A parabola is one cubic, exactly."""
    p, x = 80.0, 200.0
    t = x / p
    end, control = complex(x, x * x / 2 / p), complex(x / 2, 0)
    curve = [(0j, control * 2 / 3, control * 2 / 3 + end / 3, end)]
    report = describe(pattern({"panel": panel(backward(curve))}))
    expected = p / 2 * (t * math.sqrt(1 + t * t) + math.asinh(t))
    assert report.length("panel", "curve") == pytest.approx(expected, abs=1e-6)


def smock_cubic(piece: str, edge: str) -> tuple[complex, ...]:
    """The one cubic of an edge of the ferry smock."""
    nodes = SMOCK["pieces"][piece]["outline"]
    k = next(k for k, node in enumerate(nodes) if node.get("edge") == edge)
    a, b = nodes[k], nodes[(k + 1) % len(nodes)]
    points = a["at"], a.get("out", a["at"]), b.get("in", b["at"]), b["at"]
    return tuple(complex(*point) for point in points)


CURVES = [("front", "neck"), ("front", "armhole"), ("back", "neck"), ("back", "armhole")]


@pytest.mark.parametrize(("piece", "edge"), CURVES)
def test_necks_and_armholes_by_quadrature(describe: Command, piece: str, edge: str) -> None:
    """Reference: scipy.integrate.quad and mpmath.quad over the speed along the curve."""
    a, b, c, d = smock_cubic(piece, edge)

    def speed(t: float) -> float:
        return 3 * abs((b - a) * (1 - t) ** 2 + 2 * (c - b) * t * (1 - t) + (d - c) * t * t)

    measured = describe(SMOCK).length(piece, edge, "M")
    assert measured == pytest.approx(quad(speed, 0, 1, epsabs=1e-10)[0], abs=2e-6)
    assert measured == pytest.approx(float(mpmath.quad(speed, [0, 1])), abs=2e-6)


@pytest.mark.parametrize(("piece", "edge"), CURVES)
def test_necks_and_armholes_by_another_library(describe: Command, piece: str, edge: str) -> None:
    """Reference: svgpathtools, CubicBezier.length."""
    expected = svgpathtools.CubicBezier(*smock_cubic(piece, edge)).length(error=1e-9)
    assert describe(SMOCK).length(piece, edge, "M") == pytest.approx(expected, abs=2e-6)


def test_areas_by_another_library(describe: Command) -> None:
    """Reference: shapely, on a polygon of 2,000 points for each curve, which is short of the curve by its own error."""
    a, b, c, d = smock_cubic("front", "armhole")
    e, f, g, h = smock_cubic("front", "neck")
    t = [k / 2000 for k in range(2001)]

    def points(p: complex, q: complex, r: complex, s: complex) -> list[complex]:
        return [p * (1 - u) ** 3 + 3 * q * u * (1 - u) ** 2 + 3 * r * u * u * (1 - u) + s * u**3 for u in t]

    around = [0j, *points(e, f, g, h), *points(a, b, c, d), 250 + 0j]
    expected = shapely.Polygon([(z.real, z.imag) for z in around]).area
    piece = describe(SMOCK).piece("front", "M")
    assert piece["area"] == pytest.approx(expected, abs=0.05)
    assert piece["unfolded_area"] == pytest.approx(2 * expected, abs=0.1)


def test_a_seam_of_two_arcs_against_one(check: Command) -> None:
    """Closed form: arcs of 60° at radius 90 and 30° at radius 120 lie along one of 105° at radius 85.7143 (their lengths add up)."""
    pieces = {
        "inner": panel(arc(90, 60, 120)),
        "outer": panel(arc(120, 75, 105)),
        "whole": panel(arc(600 / 7, 40, 145)),
    }
    document = pattern(pieces, seams={"yoke": seam(["whole.curve"], ["inner.curve", "outer.curve"])})
    report = check(document)
    whole, both = report.seam("yoke")["lengths"]
    assert whole == pytest.approx(math.pi * 50, abs=1e-5)
    assert both == pytest.approx(math.pi * 50, abs=1e-5)
    assert report.findings("seams/unequal-length") == []
