"""Every kind of curve against ezdxf's flattening and scipy's splines: places, ends, lengths and boxes."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import shapely
from cad_files import (
    FACING_AWAY,
    LEVEL,
    Complexes,
    alone,
    beyond_info,
    dots,
    drawing,
    new,
    read,
    seen_from_above,
    strokes,
    told,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import BSpline, CubicSpline

from notchwork.geometry import bounds, flatten, lengths

FINE = 1e-4
SHEET = new()
"""Where entities are made that are then read alone."""
TILTED = (0.3, 0.2, 0.8)


def only(document: Any, **options: str) -> Complexes:
    (found,) = strokes(drawing(document, **options))
    return found


def apart(mine: Complexes, theirs: Complexes) -> float:
    """How far (mm) two runs of points lie from each other at most, each as a line."""
    lines = [shapely.LineString(np.stack([z.real, z.imag], axis=1)) for z in (mine, theirs)]
    points = [shapely.points(z.real, z.imag) for z in (mine, theirs)]
    return float(
        max(shapely.distance(lines[0], points[1]).max(), shapely.distance(lines[1], points[0]).max())
    )


def points_of(cubics: Complexes) -> Complexes:
    return flatten(cubics, FINE).points


@pytest.mark.parametrize("extrusion", [LEVEL, FACING_AWAY, TILTED], ids=["level", "facing away", "tilted"])
def test_arcs_and_circles(extrusion: tuple[float, float, float]) -> None:
    for radius, first, last in ((0.5, 10, 200), (35, 300, 20), (1500, 0, 90), (80, 270, 269.9)):
        document = new()
        arc = document.modelspace().add_arc(
            (3, 4, 5), radius, first, last, dxfattribs={"extrusion": extrusion}
        )
        mine = only(document)
        theirs = seen_from_above(arc.flattening(0.0005))
        assert apart(points_of(mine), theirs) < 1.2e-3
        assert abs(mine[0, 0] - theirs[0]) < 1e-9
        assert abs(mine[-1, 3] - theirs[-1]) < 1e-9
        if extrusion != TILTED:
            assert lengths(mine).sum() == pytest.approx(math.radians((last - first) % 360) * radius, abs=1e-3)


def test_a_circle_closes_and_has_its_length() -> None:
    document = new()
    document.modelspace().add_circle((100, -50), 60)
    found = drawing(document)
    ((stroke,),) = ([*group.strokes] for group in found.groups)
    assert stroke.closed
    assert stroke.cubics[0, 0] == stroke.cubics[-1, 3]
    assert lengths(stroke.cubics).sum() == pytest.approx(2 * math.pi * 60, abs=1e-3)
    assert bounds(stroke.cubics) == (pytest.approx(40 - 110j, abs=2e-4), pytest.approx(160 + 10j, abs=2e-4))


@pytest.mark.parametrize("extrusion", [LEVEL, FACING_AWAY], ids=["level", "facing away"])
def test_ellipses(extrusion: tuple[float, float, float]) -> None:
    for first, last in ((0, 2 * math.pi), (0.5, 2.0), (5.0, 1.0)):
        document = new()
        ellipse = document.modelspace().add_ellipse(
            (10, 20), (40, 30), 0.3, first, last, dxfattribs={"extrusion": extrusion}
        )
        mine, theirs = only(document), seen_from_above(ellipse.flattening(0.0005))
        assert apart(points_of(mine), theirs) < 1.2e-3
        assert abs(mine[0, 0] - theirs[0]) < 1e-9
        assert abs(mine[-1, 3] - theirs[-1]) < 1e-9


bulges = st.floats(-3, 3).filter(lambda b: b == 0 or abs(b) > 1e-3)
corners = st.tuples(st.integers(-500, 500), st.integers(-500, 500), bulges)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(corners, min_size=2, max_size=6, unique_by=lambda c: c[:2]),
    st.booleans(),
    st.booleans(),
)
def test_polylines_with_bulges(places: list[tuple[float, float, float]], close: bool, old: bool) -> None:
    """Both kinds, mirrored too, against the lines and arcs that ezdxf makes of them."""
    attributes = {"extrusion": FACING_AWAY}
    if old:
        line: Any = SHEET.modelspace().add_polyline2d(
            places, format="xyb", close=close, dxfattribs=attributes
        )
    else:
        line = SHEET.modelspace().add_lwpolyline(places, format="xyb", close=close, dxfattribs=attributes)
    mine = only(alone(line), units="mm")
    length = 0.0
    mine_line = shapely.LineString(np.stack([points_of(mine).real, points_of(mine).imag], axis=1))
    for part in line.virtual_entities():
        if part.dxftype() == "LINE":
            theirs = seen_from_above([part.dxf.start, part.dxf.end])
            length += abs(theirs[1] - theirs[0])
        else:
            theirs = seen_from_above(part.flattening(0.5))
            length += math.radians((part.dxf.end_angle - part.dxf.start_angle) % 360) * part.dxf.radius
        assert shapely.distance(mine_line, shapely.points(theirs.real, theirs.imag)).max() < 1e-3
    assert lengths(mine).sum() == pytest.approx(length, abs=1e-3 * len(mine))
    first, last = places[0], places[0 if close else -1]
    assert mine[0, 0] == complex(-first[0], first[1])
    assert mine[-1, 3] == complex(-last[0], last[1])
    # No rounding opens what follows.
    assert (mine[1:, 0] == mine[:-1, 3]).all()


def test_the_rounded_square_of_one_polyline() -> None:
    """Bulges of a quarter turn are tan 22.5°: four arcs of radius 10 in a square of 100."""
    quarter = math.tan(math.pi / 8)
    document = new()
    around = [
        (10, 0, 0),
        (90, 0, quarter),
        (100, 10, 0),
        (100, 90, quarter),
        (90, 100, 0),
        (10, 100, quarter),
        (0, 90, 0),
        (0, 10, quarter),
    ]
    document.modelspace().add_lwpolyline(around, format="xyb", close=True)
    mine = only(document)
    assert lengths(mine).sum() == pytest.approx(4 * 80 + 2 * math.pi * 10, abs=1e-3)
    assert bounds(mine) == (pytest.approx(0j, abs=1e-9), pytest.approx(100 + 100j, abs=1e-9))


coordinates = st.integers(-200_000, 200_000).map(lambda n: n / 1000)
controls = st.lists(st.tuples(coordinates, coordinates), min_size=7, max_size=10, unique=True)


def exactly(spline: Any, count: int = 300) -> Complexes:
    """Points of a SPLINE as scipy evaluates it, weights and all."""
    degree, knots = spline.dxf.degree, np.array(spline.knots)
    points = np.array([complex(p[0], p[1]) for p in spline.control_points])
    weights = np.array(spline.weights) if len(spline.weights) else np.ones(len(points))
    t = np.linspace(knots[degree], knots[len(points)], count)
    rows = np.stack([points.real * weights, points.imag * weights, weights], axis=1)
    x, y, w = BSpline(knots, rows, degree)(t).T
    return (x + 1j * y) / w


@settings(max_examples=12, deadline=None)
@pytest.mark.parametrize("degree", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("kind", ["open", "weighted", "ring", "weighted ring"])
@given(places=controls, weight=st.floats(0.2, 5))
def test_splines(degree: int, kind: str, places: list[tuple[float, float]], weight: float) -> None:
    """Every point that scipy gives lies on the cubics within 0.001 mm, and they start and end where it does."""
    spline = SHEET.modelspace().add_spline()
    spatial = [(x, y, 0.0) for x, y in places]
    weights = [1.0 + (weight - 1.0) * (k % 3 == 1) for k in range(len(places))]
    if kind == "open":
        spline.set_open_uniform(spatial, degree)
    elif kind == "weighted":
        spline.set_open_rational(spatial, weights, degree)
    elif kind == "ring":
        spline.set_closed(spatial, degree)
    else:
        spline.set_closed_rational(spatial, weights, degree)
    mine, theirs = only(alone(spline), units="mm"), exactly(spline)
    line = points_of(mine)
    away = shapely.distance(
        shapely.LineString(np.stack([line.real, line.imag], axis=1)), shapely.points(theirs.real, theirs.imag)
    )
    assert away.max() < 1e-3 + 2 * FINE
    assert abs(mine[0, 0] - theirs[0]) < 1e-7
    assert abs(mine[-1, 3] - theirs[-1]) < 1e-7
    if degree <= 3 and "weighted" not in kind:
        # A polynomial curve is the same cubics: no more than it has spans.
        assert len(mine) <= len(places)


def test_a_curve_through_points_alone() -> None:
    """As scipy's cubic spline over the chords, free at its ends or set off as stated; ezdxf leaves it open too."""
    places = [(0, 0), (50, 80), (120, 60), (200, 10), (260, 90)]
    z = np.array([complex(*p) for p in places])
    chord = np.append(0, np.cumsum(np.abs(np.diff(z))))
    for start, end in ((None, None), ((0, 2, 0), (3, 0, 0)), ((1, 1, 0), None)):
        document = new()
        spline = document.modelspace().add_spline(places)
        if start is not None:
            spline.dxf.start_tangent = start
        if end is not None:
            spline.dxf.end_tangent = end
        found = read(document)
        assert found.drawing is not None
        (mine,) = strokes(found.drawing)
        ways = [None if w is None else complex(w[0], w[1]) / abs(complex(w[0], w[1])) for w in (start, end)]
        held = tuple((2, 0j) if way is None else (1, way) for way in ways)
        theirs = CubicSpline(chord, z, bc_type=held)(np.linspace(0, chord[-1], 500))
        assert apart(points_of(mine), theirs) < 0.02  # 500 chords of the curve itself
        assert np.abs(mine[:, 0] - z[:-1]).max() < 1e-9
        assert ("dxf/curve-through-points", "Drawn through the points that it passes: SPLINE (line 1)") in [
            (rule, words.replace(words[words.index("(line") :], "(line 1)")) for rule, words in told(found)
        ]


def test_a_closed_curve_through_points_alone() -> None:
    places = [(0, 0), (50, 80), (120, 60), (200, 10)]
    document = new()
    document.modelspace().add_spline(places).closed = True
    mine = only(document)
    z = np.array([complex(*p) for p in [*places, places[0]]])
    chord = np.append(0, np.cumsum(np.abs(np.diff(z))))
    theirs = CubicSpline(chord, z, bc_type="periodic")(np.linspace(0, chord[-1], 500))
    assert apart(points_of(mine), theirs) < 0.05
    assert mine[0, 0] == mine[-1, 3]


def test_lines_points_and_filled_corners() -> None:
    document = new()
    space = document.modelspace()
    space.add_line((1, 2), (30, 40))
    space.add_point((5, 6))
    space.add_line((7, 7), (7, 7))
    space.add_solid([(0, 0), (10, 0), (0, 5), (10, 5)])
    space.add_solid([(0, 0), (10, 0), (0, 5)])
    found = drawing(document)
    line, square, triangle = strokes(found)
    assert line.tolist() == [[1 + 2j, 1 + 2j, 30 + 40j, 30 + 40j]]
    assert square[:, 0].tolist() == [0, 10, 10 + 5j, 5j]
    assert triangle[:, 0].tolist() == [0, 10, 5j]
    assert dots(found) == [5 + 6j, 7 + 7j]
    assert [s.look.filling for g in found.groups for s in g.strokes if s.look] == [None, "#000000", "#000000"]


def test_lines_in_space_are_told() -> None:
    document = new()
    document.modelspace().add_polyline3d([(0, 0, 0), (30, 40, 50)])
    document.modelspace().add_polyline3d([(0, 0, 7), (30, 40, 7)])
    found = read(document)
    assert found.drawing is not None
    assert [len(s) for s in strokes(found.drawing)] == [1, 1]
    assert beyond_info(found) == ["dxf/flattened"]
    ((_, words),) = told(found)
    assert words.count("POLYLINE") == 1


def tags(*parts: object) -> bytes:
    """A file of one entity by its tags."""
    return "\n".join(map(str, (0, "SECTION", 2, "ENTITIES", 0, *parts, 0, "ENDSEC", 0, "EOF", ""))).encode()


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (tags("CIRCLE", 8, 0, 10, 1, 20, 2, 40, 0), "its radius is 0"),
        (tags("ELLIPSE", 8, 0, 10, 1, 20, 2, 11, 0, 21, 0, 40, 0.5), "its longer axis has no length"),
        (tags("LWPOLYLINE", 8, 0, 90, 0, 70, 0), "it has no corner"),
        (tags("POLYLINE", 8, 0, 66, 1, 0, "SEQEND", 8, 0), "it has no corner"),
    ],
)
def test_what_draws_nothing_is_told_with_its_line(data: bytes, why: str) -> None:
    found = read(data, units="mm")
    ((rule, words),) = told(found)
    assert rule == "dxf/broken-part"
    assert f"(line 5): {why}" in words
    assert found.drawing is not None
    assert found.drawing.groups == ()


def spline_tags(
    *, degree: int = 3, knots: int = 8, controls: int = 4, weights: tuple[float, ...] = ()
) -> bytes:
    tags = ["0", "SECTION", "2", "ENTITIES", "0", "SPLINE", "8", "0", "71", str(degree)]
    for k in range(knots):
        tags += ["40", str(float(k >= knots / 2))]
    for w in weights:
        tags += ["41", str(w)]
    for k in range(controls):
        tags += ["10", str(k * 10.0), "20", str(k % 2 * 10.0)]
    return "\n".join([*tags, "0", "ENDSEC", "0", "EOF", ""]).encode()


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (spline_tags(knots=7), "it has 7 knots, and needs 8"),
        (spline_tags(controls=3), "it has 3 control points, and needs 4 at least"),
        (spline_tags(weights=(1.0, 2.0)), "it has 2 weights for 4 control points"),
        (spline_tags(weights=(1.0, 0.0, 1.0, 1.0)), "a weight is not above 0"),
        (spline_tags(degree=0), "its degree is 0"),
    ],
)
def test_splines_that_cannot_be(data: bytes, why: str) -> None:
    ((rule, words),) = told(read(data, units="mm"))
    assert rule == "dxf/broken-part"
    assert why in words


def test_a_spline_without_knots_takes_the_usual_ones() -> None:
    assert only(spline_tags(knots=0)).tolist() == only(spline_tags()).tolist()
