"""Real CAD drawings held against ezdxf and against figures measured by other programs.

The drawings are no part of the project: the environment variable NOTCHWORK_CORPUS names the folder that holds ``dxf``,
``dxf_hard`` and ``svg``; without it these tests are skipped.
"""

from __future__ import annotations

import logging
import math
import os
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import svg_files
from cad_files import read
from ezdxf import bbox, recover

from notchwork.drawing import Drawing
from notchwork.findings import NotchworkError, Severity
from notchwork.geometry import lengths
from notchwork.recognise import recognise
from notchwork_plugins.dxf.plain.sorts import CURVES

CORPUS = Path(os.environ.get("NOTCHWORK_CORPUS") or "no such folder")
DRAWINGS = sorted((CORPUS / "dxf").glob("*.dxf"))
HARD = sorted(path for path in (CORPUS / "dxf_hard").rglob("*") if path.is_file())

pytestmark = pytest.mark.skipif(not DRAWINGS, reason="NOTCHWORK_CORPUS names no folder of drawings")

EXTENTS = {
    "cutter-2x": 2050.0769 + 1000j,
    "cutter-aisle": 1600 + 960j,
    "cutter-demo": 1000 + 500j,
    "cutter-filling": 5051.1109 + 800j,
    "cutter-multi": 2179.9617 + 1654.1595j,
    "cutter-patches": 415.3339 + 110.9944j,
    "cutter-revo": 400 + 86.7137j,
    "cutter-square-100-rounded": 100 + 100j,
    "kite-envelope": (89.1955 + 54.3442j) * 25.4,
    "kite-fin": (78.4663 + 69.2101j) * 25.4,
}
"""Width and height (mm) of what shows, words, hatches and dimensions left away; the kites' and the square's as the corpus states
them, the others by ezdxf's bounding box."""

SHAPES = {
    "cutter-2x": 8,
    "cutter-aisle": 1,
    "cutter-demo": 1,
    "cutter-filling": 9,
    "cutter-patches": 7,
    "cutter-revo": 1,
    "cutter-square-100-rounded": 1,
    "cutter-multi": 6,
    "kite-envelope": 8,
    "kite-fin": 12,
}
"""How many pieces a person counts; of the last three some lie on others."""

ALONE = {"kite-envelope": 0, "kite-fin": 5}
"""How many sizes of pieces are found in the DXF alone: in the fin's drawing pieces lie on each other, and the SVG has lost the
blocks that tell them apart."""

NOT_COMPARED = {
    "supported_entities": "ezdxf's box of a ring with plain knots takes in what lies outside its ends",
    "issue27a": "ezdxf approximates curves with weights by 0.3",
    "POLI-ALL210_12": "ezdxf adds the width of wide lines",
    "square10x10": "ezdxf cannot open it",
    "cycloidal": "ezdxf cannot open it",
    "spline_1": "ezdxf cannot open it",
}

REFUSED = {"recover01": "A section ends here"}
"""Damaged; read on demand alone."""


def found(path: Path, **options: str) -> Drawing:
    drawing = read(path.read_bytes(), path.name, **options).drawing
    assert drawing is not None
    return drawing


def extent(drawing: Drawing) -> complex | None:
    """Width and height without words."""
    box = replace(drawing, groups=tuple(replace(group, texts=()) for group in drawing.groups)).bounds
    return None if box is None else box[1] - box[0]


def shown(
    entities: Iterable[Any], hidden: set[str], layer: str | None = None, depth: int = 0
) -> Iterator[Any]:
    """ezdxf's entities that draw lines, with blocks exploded, less what does not show."""
    for entity in entities:
        own = entity.dxf.get("layer", "0")
        own = layer if own == "0" and layer is not None else own
        if own.lower() in hidden | {"defpoints"} or entity.dxf.get("invisible", 0):
            continue
        kind = entity.dxftype()
        if kind == "INSERT" and entity.dxf.name.upper()[:2] not in ("*D", "*X") and depth <= 16:
            for one in entity.multi_insert() if entity.mcount > 1 else [entity]:
                yield from shown(one.virtual_entities(), hidden, own, depth + 1)
        elif kind in CURVES and not (
            kind == "POLYLINE" and (entity.is_poly_face_mesh or entity.is_polygon_mesh)
        ):
            yield entity


def their_extent(path: Path) -> complex | None:
    logging.disable(logging.CRITICAL)
    try:
        try:
            document = ezdxf.readfile(path)
        except (ezdxf.DXFError, UnicodeDecodeError, ValueError):
            document, _ = recover.readfile(path)
        for entity in document.entitydb.values():
            # A height scaled to nothing keeps ezdxf from exploding a block.
            if entity.dxftype() == "INSERT" and entity.dxf.zscale == 0.0:
                entity.dxf.zscale = 1.0
        hidden = {each.dxf.name.lower() for each in document.layers if each.is_off() or each.is_frozen()}
        box = bbox.extents(shown(document.modelspace(), hidden))
    finally:
        logging.disable(logging.NOTSET)
    return complex(box.size.x, box.size.y) if box.has_data else None


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_extents_of_the_drawings(path: Path) -> None:
    size = extent(found(path))
    assert size is not None
    # Four decimals of an inch are what the kites are stated to.
    assert size == pytest.approx(EXTENTS[path.stem], abs=3e-3)


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_nothing_in_a_drawing_is_broken_and_units_are_told_where_missing(path: Path) -> None:
    done = read(path.read_bytes(), path.name)
    assert done.drawing is not None
    unsaid = path.stem in ("cutter-demo", "cutter-multi", "cutter-revo", "cutter-square-100-rounded")
    loud = [finding.rule.id for finding in done.findings if finding.rule.grade is not Severity.INFO]
    assert loud == (["dxf/scale-unclear"] if unsaid else [])
    assert done.drawing.scale == (None if unsaid else 1.0)


@pytest.mark.parametrize("path", DRAWINGS, ids=lambda path: path.stem)
def test_pieces_of_the_drawings(path: Path) -> None:
    pattern = recognise(found(path)).pattern
    assert len(pattern.pieces) == SHAPES[path.stem]


@pytest.mark.parametrize("name", ["kite-envelope", "kite-fin"])
def test_the_same_drawing_in_both_formats(name: str) -> None:
    """Extents and the lengths of all lines: the SVG is the same drawing, saved by another program."""
    dxf = found(CORPUS / "dxf" / f"{name}.dxf")
    svg = svg_files.read((CORPUS / "svg" / f"{name}.svg").read_bytes()).drawing
    assert svg is not None
    ours, theirs = extent(dxf), extent(svg)
    assert ours is not None
    assert theirs is not None
    assert ours == pytest.approx(theirs, abs=0.01)
    mine, other = (
        sorted(float(lengths(stroke.cubics).sum()) for group in drawing.groups for stroke in group.strokes)
        for drawing in (dxf, svg)
    )
    unmatched = [length for length in mine if not np.isclose(other, length, atol=0.02).any()]
    assert unmatched == []
    # The SVG has lost the names of layers and blocks, and shows more layers; whatever both take for a piece is the same.
    sizes = [
        {
            (round(float(np.ptp(nodes.real))), round(float(np.ptp(nodes.imag))))
            for piece in recognise(drawing).pattern.pieces.values()
            if len(nodes := np.array([node.at for node in piece.outline or ()]))
        }
        for drawing in (dxf, svg)
    ]
    assert len(sizes[0] & sizes[1]) >= len(sizes[0]) - ALONE[name]


def test_the_square_of_100() -> None:
    (shape,) = recognise(found(CORPUS / "dxf" / "cutter-square-100-rounded.dxf")).pattern.pieces.values()
    nodes = np.array([node.at for node in shape.outline or ()])
    assert np.ptp(nodes.real) == pytest.approx(100, abs=1e-6)
    assert np.ptp(nodes.imag) == pytest.approx(100, abs=1e-6)


@pytest.mark.parametrize("path", HARD, ids=lambda path: path.stem)
def test_hard_cases(path: Path) -> None:
    """Read with the extent that ezdxf finds, or refused with a reason."""
    if path.stem in REFUSED:
        with pytest.raises(NotchworkError, match=REFUSED[path.stem]):
            found(path, units="mm")
        return
    ours = extent(found(path, units="mm"))
    if path.stem in NOT_COMPARED:
        assert ours is not None
        return
    theirs = their_extent(path)
    if theirs is None:
        assert ours is None
        return
    assert ours is not None
    # ezdxf's boxes of curves are as coarse as its chords: 0.01 in the drawing's units at either end, or 1/2000 of the drawing.
    coarse = 0.02 + 5e-4 * abs(theirs)
    assert math.isclose(ours.real, theirs.real, abs_tol=coarse)
    assert math.isclose(ours.imag, theirs.imag, abs_tol=coarse)
