"""Cut lines of drawn pieces: radii and lengths from worked figures, and another library's buffer."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
import shapely
from external.drafting import Document, pattern, sector
from numpy.typing import NDArray
from patterns import nest_of

from notchwork.geometry import flatten
from notchwork.sewing.shapes.cutlines import cut_lines

SMOCK: Document = json.loads(
    (Path(__file__).parents[1] / "cases" / "ferry_smock.pattern.json").read_text("utf-8")
)


def waist_cut(radius: float, degrees: float, allowance: float, unit: str) -> NDArray[np.complex128]:
    """The points (mm) of the cut line at the waist of a circle skirt whose sides lie on folds."""
    skirt = {
        "outline": sector(radius, degrees, 5 * radius),
        "allowance": allowance,
        "edges": {"side": {"fold": True}, "other_side": {"fold": True}},
    }
    line = cut_lines(nest_of(pattern({"skirt": skirt}, unit)))["skirt", 0]
    return line.points[[edge == "waist" for edge in line.edges]]


def test_the_waist_of_a_full_circle_is_cut_an_allowance_inside() -> None:
    """Computed, no source: waist 70 cm, stitched at 11.141 cm and cut, with 1.5 cm, at 9.641."""
    points = waist_cut(11.141, 90, 1.5, "cm")
    assert np.abs(points) == pytest.approx(np.full(len(points), 96.41), abs=0.01)


def test_a_quarter_waist_is_longer_on_the_stitch_line_than_on_the_cut_line() -> None:
    """Computed, no source: 190.5 mm (7 1/2 in) stitched is a radius of 121.276; 12 mm further in it is 171.65."""
    points = waist_cut(121.276, 90, 12, "mm")
    assert np.abs(np.diff(points)).sum() == pytest.approx(171.65, abs=0.05)


@pytest.mark.parametrize("allowance", [6.0, 10.0, 15.875])
def test_one_allowance_all_round_by_another_library(allowance: float) -> None:
    """Reference: shapely, distances from the stitch line and the area of its buffer with mitred corners."""
    document = json.loads(json.dumps(SMOCK))
    document["pieces"]["sleeve"]["edges"]["hem"]["allowance"] = allowance
    document["pieces"]["sleeve"]["allowance"] = allowance
    nest = nest_of(document)
    for size in range(3):
        z = flatten(nest.outline("sleeve", size), 1e-4).points
        outline = shapely.Polygon(np.column_stack([z.real, z.imag]))
        line = cut_lines(nest)["sleeve", size]
        of_edges = line.points[[edge != "" for edge in line.edges]]
        distance = shapely.distance(outline, shapely.points(of_edges.real, of_edges.imag))
        assert distance == pytest.approx(np.full(len(of_edges), allowance), abs=0.01)
        cut = shapely.Polygon(np.column_stack([line.points.real, line.points.imag]))
        assert cut.is_valid
        assert cut.area == pytest.approx(
            outline.buffer(allowance, join_style="mitre", mitre_limit=3).area, rel=1e-5
        )
