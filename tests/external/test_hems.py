"""Curved hems: how much the turned edge is longer than the line it comes to lie on."""

from __future__ import annotations

import pytest
from external.drafting import Command, Document, arc, line, outline, pattern, sector
from patterns import nest_of

from notchwork.sewing.shapes.hems import hems


def skirt(radius: float, degrees: float, depth: float, turns: int = 2) -> Document:
    """A skirt panel that is hemmed on a circle of a radius."""
    finish = {"kind": "hem", "turns": turns, "depth": depth}
    piece = {
        "outline": sector(radius - 500, degrees, 500),
        "edges": {"hem": {"allowance": depth * turns, "finish": finish}},
    }
    return pattern({"skirt": piece})


# Computed, no source: (r + d) / (r - d) for the fold line's radius r and the finished depth d; 711 mm is the hem of a full
# circle skirt.
CURVED = [(711.0, 6.0, 1.70), (711.0, 25.0, 7.29)]


@pytest.mark.parametrize(("radius", "depth", "percent"), CURVED)
@pytest.mark.parametrize("degrees", [360.0, 90.0, 11.25])
def test_what_a_circle_hem_has_to_ease_in(
    radius: float, depth: float, percent: float, degrees: float
) -> None:
    (hem,) = hems(nest_of(skirt(radius, degrees, depth)))
    assert hem.excess[0] == pytest.approx(percent, abs=0.005)


@pytest.mark.parametrize("step", [30.0, 90.0, 180.0])
def test_in_however_few_curves_it_is_drawn(step: float) -> None:
    """Computed, as above, for half a circle in as many curves as fit; one curve alone is a rough half circle."""
    tip = -711 + 0j
    document = skirt(711, 180, 25)
    document["pieces"]["skirt"]["outline"] = outline(
        side=line(211, 711),
        hem=arc(711, 0, 180, step=step),
        other_side=line(tip, -211),
        waist=arc(211, 180, 0),
    )
    (hem,) = hems(nest_of(document))
    assert hem.excess[0] == pytest.approx(7.29, abs=0.15 if step == 180 else 0.005)


def test_a_deep_circle_hem_is_told_and_a_narrow_one_is_not(check: Command) -> None:
    """T. Johnson, It's Fun to Sew a Cotton School Dress (extension bulletin): the top of a curved hem is longer than its bottom
    and must be eased; a circle hem is 1/4 in or rolled. 12 mm turned twice is 6 mm deep."""
    (found,) = check(skirt(711, 90, 25)).findings("hems/too-deep-for-its-curve")
    assert found["severity"] == "warning"
    assert found["sizes"][0]["measured"] == pytest.approx(7.29, abs=0.005)
    for narrow in (6.0, 6.35):
        assert check(skirt(711, 90, narrow)).findings("hems") == []


@pytest.mark.parametrize("depth", [2 * 25.4, 3 * 25.4, 4 * 25.4])
def test_a_straight_hem_may_be_deep(check: Command, depth: float) -> None:
    """Johnson, as above: 2 to 3 in on medium cloth, up to 4 in on straight skirts of sheer cloth."""
    piece = {
        "strip": {"width": 600, "length": 900},
        "edges": {"lower": {"allowance": depth + 10, "finish": {"kind": "hem", "turns": 2, "depth": depth}}},
    }
    assert check(pattern({"skirt": piece})).findings("hems") == []


@pytest.mark.parametrize(("radius", "depth"), [(2000.0, 32.0), (1950.0, 36.0)])
def test_an_ordinary_a_line_hem_is_an_info_at_most(check: Command, radius: float, depth: float) -> None:
    """Common practice, no source: A-line hems reach 3.2 to 3.8 %."""
    (found,) = check(skirt(radius, 30, depth)).findings("hems/too-deep-for-its-curve")
    assert found["severity"] == "info"
    assert 3.2 <= found["sizes"][0]["measured"] <= 3.8


def test_the_depth_is_what_is_finished_not_the_allowance() -> None:
    """Computed, as above: 12 mm turned twice is a hem of 6 mm, with 1.70 % to ease in; turned once it would have twice that."""
    twice, once = (skirt(711, 90, 6), skirt(711, 90, 12, turns=1))
    for document in (twice, once):
        del document["pieces"]["skirt"]["edges"]["hem"]["finish"]["depth"]
    assert [float(hem.excess[0]) for hem in hems(nest_of(twice))] == pytest.approx([1.70], abs=0.005)
    assert [float(hem.excess[0]) for hem in hems(nest_of(once))] == pytest.approx([2 * 1.70], abs=0.05)
