"""Edges that run on where a seam ends: one smooth line, or a kink that is told."""

from __future__ import annotations

import cmath
import math

import pytest
from external.drafting import Command, Document, arc, line, outline, pattern, seam
from patterns import nest_of

from notchwork.sewing.shapes.truing import running_on


def at(radius: float, degrees: float) -> complex:
    return radius * cmath.exp(1j * math.radians(degrees))


def gores(straight: bool) -> Document:
    """Eight gores that make a quarter circle: 11.25 degrees each, hem and waist straight or on the circle."""
    one, other = 90 - 11.25 / 2, 90 + 11.25 / 2
    hem = line(at(900, one), at(900, other)) if straight else arc(900, one, other)
    waist = line(at(300, other), at(300, one)) if straight else arc(300, other, one)
    gore = {
        "outline": outline(
            hem=hem,
            left=line(at(900, other), at(300, other)),
            waist=waist,
            right=line(at(300, one), at(900, one)),
        ),
        "edges": {"hem": {"finish": {"kind": "hem", "turns": 2, "depth": 6}}},
        "cut": [{"material": "cloth", "count": 8}],
    }
    sides = seam([{"edge": "gore.left", "from": "waist"}], ["gore.right"])
    return pattern({"gore": gore}, seams={"side": sides | {"times": 4}})


def bodice(radius: float, turn: float = 0.0) -> Document:
    """A sleeveless bodice, drawn as sewn: one round armhole, cut at the shoulder. The back's shoulder is turned by some degrees."""
    tip = at(radius, 60)
    neck, back_neck = tip + at(110, 40), tip + at(110, 40 + turn)
    front = outline(
        armhole=arc(radius, 60, -60),
        side=line(at(radius, -60), at(radius + 300, -60)),
        neck=line(at(radius + 300, -60), 400 + 50j, neck),
        shoulder=line(neck, tip),
    )
    back = outline(
        armhole=arc(radius, 180, 60),
        shoulder=line(tip, back_neck),
        neck=line(back_neck, -100 + 400j, at(radius + 300, 180)),
        side=line(at(radius + 300, 180), at(radius, 180)),
    )
    bound = {"armhole": {"finish": {"kind": "bound", "with": "binding"}}}
    pieces = {
        "front": {"outline": front, "edges": bound},
        "back": {"outline": back, "edges": bound},
        "binding": {"strip": {"width": 30, "length": 600}},
    }
    shoulder = seam(["front.shoulder"], [{"edge": "back.shoulder", "from": "neck"}])
    return pattern(pieces, seams={"shoulder": shoulder})


def sums(document: Document) -> list[float]:
    """The angles (degrees) at which edges run on where seams end."""
    return [float(pair.sum[0]) for pair in running_on(nest_of(document)) if pair.by == "finish"]


def test_hems_of_eight_gores_that_make_a_quarter_circle() -> None:
    """Computed, no source: straight hems meet at 180 - 11.25 degrees, hems on the circle in a smooth line."""
    assert sums(gores(straight=True)) == pytest.approx([180 - 11.25], abs=0.01)
    assert sums(gores(straight=False)) == pytest.approx([180], abs=0.01)


@pytest.mark.parametrize("radius", [60.0, 80.0, 110.0])
def test_a_round_armhole_reads_as_one_true_curve(radius: float) -> None:
    """M. Conover et al., A Complete Course in Dressmaking, vol. 9 (1921-22), p. 22: front and back pinned at the shoulder, the
    armhole is one true curve. Chords of 10 mm would give 9.6 degrees of false kink at radius 60 (computed)."""
    assert sums(bodice(radius)) == pytest.approx([180], abs=0.01)


@pytest.mark.parametrize("turn", [3.0, -3.0, 12.0, -12.0])
def test_a_point_in_the_armhole_reads_as_many_degrees_as_the_shoulder_is_turned(turn: float) -> None:
    """Conover, as above; the sum of the two angles at the shoulder is 180 degrees less the turn (elementary geometry)."""
    assert sums(bodice(60, turn)) == pytest.approx([180 - turn], abs=0.01)


@pytest.mark.parametrize(("turn", "severity"), [(0.0, None), (1.5, None), (3.0, "info"), (-12.0, "warning")])
def test_a_jog_or_point_in_the_armhole_is_told(check: Command, turn: float, severity: str | None) -> None:
    """Conover, as above. The steps of 2 and 5 degrees: common practice, no source."""
    found = check(bodice(60, turn)).findings("seams/does-not-run-on")
    assert [(f["severity"], f["sizes"][0]["off"]) for f in found] == (
        [(severity, pytest.approx(-turn, abs=0.01))] if severity else []
    )


def test_gores_with_straight_hems_are_told_and_gores_on_the_circle_are_not(check: Command) -> None:
    """Computed, as above; the step of 5 degrees: common practice, no source."""
    found = check(gores(straight=True)).findings("seams/does-not-run-on")
    assert [f["severity"] for f in found] == ["warning"]
    assert check(gores(straight=False)).findings("seams/does-not-run-on") == []


def on_the_fold(**angles: float) -> Document:
    """A half bodice whose neck or hem leaves the fold at an angle, in degrees, for the first 8 mm."""
    neck, hem = angles.get("neck", 90), angles.get("hem", 90)
    rise = 8 * math.tan(math.radians(neck - 90))
    drop = 8 * math.tan(math.radians(90 - hem))
    points = outline(
        center=line(0, 400j),
        neck=line(400j, 8 + (400 + rise) * 1j, 80 + 470j),
        side=line(80 + 470j, 250 + 300j, 250 + drop * 1j),
        hem=line(250 + drop * 1j, 8 + drop * 1j, 0),
    )
    return pattern(
        {
            "front": {
                "outline": points,
                "edges": {"center": {"fold": True}},
                "grainline": [[60, 50], [60, 300]],
            }
        }
    )


@pytest.mark.parametrize(
    ("angles", "spoken"), [({}, 0), ({"neck": 89}, 0), ({"neck": 85}, 1), ({"hem": 96}, 1), ({"neck": 60}, 0)]
)
def test_edges_leave_the_fold_at_90_degrees(check: Command, angles: dict[str, float], spoken: int) -> None:
    """Common practice, no source: at a fold neck, waist and hem leave at 90 degrees for 5 to 6 mm at least; a V is meant."""
    found = check(on_the_fold(**angles)).findings("pieces/fold-corner")
    assert [f["sizes"][0]["measured"] for f in found] == [pytest.approx(a, abs=0.5) for a in angles.values()][
        :spoken
    ]
