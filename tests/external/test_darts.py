"""Darts: legs, angles, what is sewn, and how a straight mouth falls short of the seam."""

from __future__ import annotations

import numpy as np
import pytest
from external.drafting import Command, Cubic, Document, line, outline, pattern, seam, xy
from patterns import nest_of

from notchwork.geometry import flatten, tangents
from notchwork.sewing.shapes.darts import darts_of, falls_short, true_mouth
from notchwork.sewing.shapes.folding import edge_shut

# Mouth and depth in mm; then leg, full angle, how far the true cap stands proud of a straight mouth, and how far a straight
# mouth folded shut falls short of the seam. Computed from elementary geometry, no source; 25.4 x 88.9 is 1 x 3 1/2 in.
DARTS = [
    (20.0, 100.0, 100.499, 11.421, 2.020, 1.980),
    (30.0, 90.0, 91.241, 18.925, 5.143, 4.865),
    (25.4, 88.9, 89.803, 16.260, 3.704, 3.556),
]


def panel(mouth: float, depth: float, waist: list[Cubic] | None = None, **dart: object) -> Document:
    """A panel 300 wide with a dart in the middle of its waist, at the top; ``dart`` is what else is said of it."""
    a, b = 150 + mouth / 2 + 400j, 150 - mouth / 2 + 400j
    nodes = outline(
        lower=line(0, 300),
        side=line(300, 300 + 400j),
        waist=waist or line(300 + 400j, a, b, 400j),
        center=line(400j, 0),
    )
    for node in nodes:
        for name, at in (("foot", a), ("other_foot", b)):
            if node["at"] == xy(at):
                node["name"] = name
    return {
        "allowance": 12,
        "outline": nodes,
        "darts": {
            "dart": {
                "edge": "waist",
                "feet": ["foot", "other_foot"],
                "apex": [150, 400 - depth],
                "press": "center",
            }
            | dart
        },
    }


@pytest.mark.parametrize(("mouth", "depth", "leg", "angle", "proud", "short"), DARTS)
def test_legs_and_angle(
    mouth: float, depth: float, leg: float, angle: float, proud: float, short: float
) -> None:
    (shape,) = darts_of(nest_of(pattern({"front": panel(mouth, depth)})))
    assert shape.leg_lengths[0] == pytest.approx([leg, leg], abs=5e-4)
    assert 180 - shape.base_angles[0].sum() == pytest.approx(angle, abs=5e-4)


@pytest.mark.parametrize(("mouth", "depth", "leg", "angle", "proud", "short"), DARTS)
def test_a_straight_mouth_falls_short_and_a_true_one_stands_proud(
    mouth: float, depth: float, leg: float, angle: float, proud: float, short: float
) -> None:
    nest = nest_of(pattern({"front": panel(mouth, depth)}))
    (shape,) = darts_of(nest)
    for way in ("low", "high"):
        assert falls_short(nest, shape, 0, way) == pytest.approx(short, abs=5e-4)
        cap = true_mouth(nest, shape, 0, way)
        assert cap is not None
        assert flatten(cap, 0.001).points.imag.max() - 400 == pytest.approx(proud, abs=5e-4)


@pytest.mark.parametrize(("mouth", "depth", "leg", "angle", "proud", "short"), DARTS)
def test_closing_a_dart_with_a_straight_mouth_makes_a_dent_of_its_angle(
    mouth: float, depth: float, leg: float, angle: float, proud: float, short: float
) -> None:
    nest = nest_of(pattern({"front": panel(mouth, depth)}))
    run = edge_shut(nest, nest.line("front", "waist"), 0)
    first, last = tangents(run, np.array([0, len(run) - 1]), np.array([0.0, 1.0]))
    assert abs(np.degrees(np.angle(last / first))) == pytest.approx(angle, abs=5e-4)


def test_a_waist_with_a_dart_is_sewn_without_its_mouth(check: Command) -> None:
    """Common practice, no source: a quarter waist drawn 206.5 mm with a dart of 16 mm is sewn 190.5 mm (7 1/2 in)."""
    drawn = {
        "edges": {},
        "outline": outline(
            lower=line(0, 206.5),
            side=line(206.5, 206.5 + 200j),
            waist=line(206.5 + 200j, 200j),
            c=line(200j, 0),
        ),
        "darts": {"dart": {"edge": "waist", "feet": [["side", 90], ["side", 106]], "apex": [108.5, 100]}},
    }
    band = {"strip": {"width": 60, "length": 190.5}}
    document = pattern({"front": drawn, "band": band}, seams={"waist": seam(["band.lower"], ["front.waist"])})
    report = check(document)
    assert report.seam("waist")["lengths"] == pytest.approx([190.5, 190.5])
    assert report.findings("seams/unequal-length") == []


@pytest.mark.parametrize(("mouth", "depth", "leg", "angle", "proud", "short"), DARTS)
def test_a_mouth_that_falls_short_by_more_than_3_mm_is_told(
    check: Command, mouth: float, depth: float, leg: float, angle: float, proud: float, short: float
) -> None:
    """The figures as above; 3 mm is common practice, no source."""
    found = check(pattern({"front": panel(mouth, depth)})).findings("darts")
    assert [f["check"] for f in found] == (["darts/mouth-untrue"] if short > 3 else [])
    for finding in found:
        assert finding["sizes"][0]["measured"] == pytest.approx(short, abs=0.01)


@pytest.mark.parametrize(("mouth", "depth", "leg", "angle", "proud", "short"), DARTS)
def test_a_mouth_drawn_with_its_true_cap_is_not(
    check: Command, mouth: float, depth: float, leg: float, angle: float, proud: float, short: float
) -> None:
    """The seam reflected across the leg up to the fold line, then mirrored (common practice, no source): in a straight seam
    two straight lines that meet as far proud of the mouth as computed above."""
    peak = 150 + (400 + proud) * 1j
    waist = line(300 + 400j, 150 + mouth / 2 + 400j, peak, 150 - mouth / 2 + 400j, 400j)
    document = pattern({"front": panel(mouth, depth, waist)})
    assert check(document).findings("darts") == []
    (shape,) = darts_of(nest_of(document))
    assert falls_short(nest_of(document), shape, 0, "high") == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize(("aside", "spoken"), [(0.0, []), (2.0, []), (9.0, ["darts/lopsided"])])
def test_matching_darts_are_identical_in_size_and_angle(
    check: Command, aside: float, spoken: list[str]
) -> None:
    """Association of Sewing and Design Professionals, Standards of Quality. In a dart of 14 x 100 mm a point that has slipped
    aside by 9 mm leaves the legs within 1/16 in of each other, but the angles at the mouth ten degrees apart."""
    found = check(pattern({"front": panel(14, 100, apex=[150 + aside, 300])})).findings("darts")
    assert [f["check"] for f in found] == spoken
