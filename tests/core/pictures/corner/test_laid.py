"""Pieces are moved to lie together, never bent; what is cut off at a box is what another library cuts off."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from skirts import WIDE, skirt
from verdicts import FAULTY, SOUND, verdict_of

from notchwork.geometry import flatten
from notchwork.pictures.corner.clip import Box, area_within, line_within
from notchwork.pictures.corner.found import corners
from notchwork.pictures.corner.laid import EXACT, laid

coordinates = st.floats(-50, 50).map(lambda value: round(value, 3))


@pytest.mark.parametrize("path", [SOUND, FAULTY], ids=["sound", "faulty"])
def test_pieces_without_darts_keep_all_their_lengths(path: Path) -> None:
    verdict = verdict_of(path)
    nest = verdict.nest
    assert nest is not None
    seen = 0
    for corner in corners(nest, verdict):
        there = laid(nest, corner)
        assert there is not None
        for (piece, _), cloth in zip(corner.edges, there.cloths, strict=True):
            graded = nest.pieces[piece]
            if any(line.intakes for line in graded.lines.values()):
                continue
            seen += 1
            drawn = flatten(nest.outline(piece, corner.size), EXACT).points
            whole = shapely.Polygon(np.stack([cloth.rim.real, cloth.rim.imag], axis=1))
            outline = shapely.Polygon(np.stack([drawn.real, drawn.imag], axis=1))
            assert whole.area == pytest.approx(outline.area, rel=1e-9)
            assert whole.length == pytest.approx(outline.length, rel=1e-9)
    assert seen > 10


@given(st.floats(-8, 8), st.floats(-40, 40))
@settings(max_examples=12, deadline=None)
def test_both_lie_along_the_seam_with_their_cloth_on_either_side(lower: float, hem: float) -> None:
    verdict = verdict_of(skirt(lower=lower, hem=hem))
    assert verdict.nest is not None
    for corner in corners(verdict.nest, verdict):
        there = laid(verdict.nest, corner)
        assert there is not None
        one, two = there.cloths
        for cloth in there.cloths:
            # Measured from the corner, every point of a straight seam lies on one line.
            assert np.allclose(((cloth.seam - one.seam[0]) / there.seam).imag, 0.0, atol=1e-6)
        assert (one.edge[-1] / there.seam).imag > 0 > ((two.edge[-1] - two.edge[0]) / there.seam).imag
        assert sum(there.angles) - 180.0 == pytest.approx(
            (1 + (corner.end == "fold")) * float(corner.off[corner.size]), abs=1e-9
        )


def test_beside_a_corner_a_dart_is_shut() -> None:
    document = skirt()
    back = document["pieces"]["back"]
    back["darts"] = {"d": {"edge": "waist", "feet": [["side", 8], ["side", 20]], "apex": [298, 520]}}
    back["outline"][2]["at"][0] += 12
    back["outline"][3]["at"][0] += 12
    verdict = verdict_of(document)
    assert verdict.nest is not None
    corner = next(c for c in corners(verdict.nest, verdict) if (c.seam, c.end) == ("side", "start"))
    there = laid(verdict.nest, corner)
    assert there is not None
    edge = there.cloths[1].edge
    assert float(np.abs(np.diff(edge)).sum()) == pytest.approx(WIDE, abs=1e-6)
    foot, apex = there.cloths[1].dart
    assert foot == pytest.approx(edge[1])
    assert abs(foot - edge[0]) == pytest.approx(8.0)
    # The near foot lies at (304, 600), the point at (298, 520).
    assert abs(apex - foot) == pytest.approx(np.hypot(6.0, 80.0))


@given(st.lists(st.builds(complex, coordinates, coordinates), min_size=3, max_size=9, unique=True))
@settings(deadline=None)
def test_an_area_is_cut_off_as_another_library_does(points: list[complex]) -> None:
    polygon = shapely.Polygon([(z.real, z.imag) for z in points])
    if not polygon.is_valid:
        return
    box = Box(-20 - 10j, 30 + 15j)
    found = area_within(np.array(points), box)
    reference = polygon.intersection(shapely.box(-20, -10, 30, 15)).area
    area = shapely.Polygon([(z.real, z.imag) for z in found]).area if len(found) > 2 else 0.0
    # What is cut into several parts stays joined along the sides of the box, where it has no area.
    assert area == pytest.approx(reference, abs=1e-6)


@given(st.lists(st.builds(complex, coordinates, coordinates), min_size=1, max_size=9, unique=True))
@settings(deadline=None)
def test_a_line_is_cut_off_where_it_first_leaves_the_box(points: list[complex]) -> None:
    box = Box(-20 - 10j, 30 + 15j)
    found = line_within(np.array([0j, *points]), box)
    assert found[0] == 0
    assert (found.real >= -20 - 1e-9).all()
    assert (found.real <= 30 + 1e-9).all()
    assert (np.abs(found.imag - 2.5) <= 12.5 + 1e-9).all()
    if len(found) <= len(points):  # it was cut off, on a side
        end = complex(found[-1])
        assert min(abs(end.real + 20), abs(end.real - 30), abs(end.imag + 10), abs(end.imag - 15)) < 1e-9
