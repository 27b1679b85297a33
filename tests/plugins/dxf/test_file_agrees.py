"""The reader of tags against ezdxf (the reference library), on documents that ezdxf writes: kinds, layers, coordinates, texts."""

from __future__ import annotations

import io
import math
from typing import Any

import ezdxf
import pytest
from dxf_files import source
from ezdxf.document import Drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork_plugins.dxf.file import Entity, File, corners, opened

VERSIONS = ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]


def drawn(version: str, points: list[tuple[float, float]], name: str) -> Drawing:
    """A document with what is met in patterns, on layers of its own and in a block."""
    document = ezdxf.new(version)
    document.layers.add(name, color=3)
    document.layers.add("off").off()
    document.layers.add("frozen").freeze()
    block = document.blocks.new(f"{name}-S", base_point=(1, 2))
    for place in (document.modelspace(), block):
        on = {"layer": name}
        place.add_line(points[0], points[-1], dxfattribs=on)
        place.add_circle(points[0], 2.5, dxfattribs=on)
        place.add_arc(points[-1], 7.25, 30, 220)
        place.add_point(points[0], dxfattribs={"layer": "4", "thickness": 3.0, "angle": 45.0})
        place.add_polyline2d([(*point, 0.5) for point in points], format="xyb", close=True, dxfattribs=on)
        place.add_text(f"Piece Name: {name}", dxfattribs={"height": 5, "layer": "off"}).set_placement(
            points[0]
        )
        if version != "R12":
            place.add_lwpolyline([(*point, -0.25) for point in points], format="xyb", dxfattribs=on)
            place.add_ellipse(points[0], (10, 5), 0.4, 0.1, 3)
            place.add_spline([(*point, 0) for point in points])
            place.add_mtext(f"{name}\\Pnext", dxfattribs={"char_height": 3})
    insert = document.modelspace().add_blockref(f"{name}-S", points[0], {"rotation": 90, "xscale": 2.0})
    insert.add_attrib("SIZE", name, points[0])
    return document


def written(document: Drawing, binary: bool) -> bytes:
    if binary:
        stream = io.BytesIO()
        document.write(stream, fmt="bin")
        return stream.getvalue()
    text = io.StringIO()
    document.write(text)
    return document.encode(text.getvalue())


def same(ours: Entity, theirs: Any) -> None:
    assert ours.kind == theirs.dxftype()
    assert ours.layer == theirs.dxf.layer
    places = {"LINE": ("start", "end"), "CIRCLE": ("center",), "ARC": ("center",), "POINT": ("location",), "TEXT": ("insert",),
              "INSERT": ("insert",), "MTEXT": ("insert",), "ELLIPSE": ("center", "major_axis")}  # fmt: skip
    for code, place in enumerate(places.get(ours.kind, ()), 10):
        point = theirs.dxf.get_default(place)
        assert ours.point(code) == complex(point.x, point.y)
    if ours.kind in ("CIRCLE", "ARC"):
        assert ours.number(40) == theirs.dxf.radius
    if ours.kind == "ARC":
        assert (ours.number(50), ours.number(51)) == (theirs.dxf.start_angle, theirs.dxf.end_angle)
    if ours.kind == "POINT":
        assert (ours.number(39), ours.number(50)) == (theirs.dxf.thickness, theirs.dxf.angle)
    if ours.kind == "TEXT":
        assert (ours.text(1), ours.number(40)) == (theirs.dxf.text, theirs.dxf.height)
    if ours.kind == "MTEXT":
        assert ours.text(1) == theirs.text
    if ours.kind == "INSERT":
        assert (ours.text(2), ours.number(50), ours.number(41, 1.0)) == (theirs.dxf.name, theirs.dxf.rotation, theirs.dxf.xscale)  # fmt: skip
        assert [(part.text(2), part.text(1)) for part in ours.parts] == [(each.dxf.tag, each.dxf.text) for each in theirs.attribs]  # fmt: skip
    if ours.kind == "SPLINE":
        knots, controls, fit = theirs.knots, theirs.control_points, theirs.fit_points
        assert ours.numbers(40) == list(knots)
        assert list(zip(ours.numbers(10), ours.numbers(20), strict=True)) == [(p[0], p[1]) for p in controls]
        assert list(zip(ours.numbers(11), ours.numbers(21), strict=True)) == [(p[0], p[1]) for p in fit]
    if ours.kind in ("POLYLINE", "LWPOLYLINE"):
        points, bulges = corners(ours)
        rows = theirs.get_points("xyb") if ours.kind == "LWPOLYLINE" else [
            (v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in theirs.vertices
        ]  # fmt: skip
        assert list(zip(points.real, points.imag, bulges, strict=True)) == [tuple(row) for row in rows]


def agrees(file: File, document: Drawing) -> None:
    theirs = list(document.modelspace())
    assert file.version == document.dxfversion
    assert len(file.entities) == len(theirs)
    for ours, other in zip(file.entities, theirs, strict=True):
        same(ours, other)
    assert {found.name for found in file.blocks.values()} >= {block.name for block in document.blocks if not block.is_any_layout}  # fmt: skip
    for block in document.blocks:
        if not block.is_any_layout:
            assert block.block is not None
            ours_block = file.blocks[block.name.upper()]
            assert ours_block.base == complex(*block.block.dxf.base_point.vec2)
            for ours, other in zip(ours_block.entities, block, strict=True):
                same(ours, other)
    assert {layer.name for layer in file.layers.values()} == {layer.dxf.name for layer in document.layers}
    for layer in document.layers:
        ours_layer = file.layers[layer.dxf.name.upper()]
        assert ours_layer.shown == (layer.is_on() and not layer.is_frozen())
        assert ours_layer.colour == abs(layer.dxf.color)
        assert ours_layer.line_type.upper() == layer.dxf.linetype.upper()
    assert file.findings == ()


NAMES = ["Front", "Ärmel links", "前片", "Перед"]
POINTS = [(0.0, 0.0), (120.5, -3.25), (1e5 / 3, 1 / 3), (-7.125e-7, 88.0)]


@pytest.mark.parametrize("binary", [False, True], ids=["text", "binary"])
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("version", VERSIONS)
def test_documents_of_every_version(version: str, name: str, binary: bool) -> None:
    document = drawn(version, POINTS, name)
    agrees(opened(source(written(document, binary))), document)


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(["R12", "R2010"]),
    st.booleans(),
    st.lists(
        st.tuples(*[st.floats(-1e8, 1e8).map(lambda x: x if abs(x) > 1e-12 else 0.0)] * 2),
        min_size=2,
        max_size=12,
    ),
)
def test_any_coordinates(version: str, binary: bool, points: list[tuple[float, float]]) -> None:
    document = drawn(version, points, "Front")
    read = ezdxf.read(io.StringIO(written(document, False).decode())) if not binary else document
    agrees(opened(source(written(document, binary))), read)


def test_angles_are_degrees() -> None:
    document = ezdxf.new("R12")
    document.modelspace().add_arc((0, 0), 1, math.degrees(0.5), 90)
    (arc,) = opened(source(written(document, False))).entities
    assert math.isclose(arc.number(50), 28.64788975654116)
