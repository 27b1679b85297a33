"""Bulges are as long as the cloth; measured with svgpathtools, which knows nothing of how they were made."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svgpathtools import parse_path

from notchwork.pictures.laid import WAVED
from notchwork.pictures.seam.bulge import TALLEST, bulge, half_angle

CHORDS = st.floats(5.0, 330.0)
SURPLUS = st.floats(1.0005, WAVED)
"""Longer cloth is a wave."""


@given(CHORDS, SURPLUS, st.sampled_from([1, -1]))
def test_a_bulge_is_as_long_as_its_cloth_and_ends_at_its_pin(chord: float, ratio: float, way: int) -> None:
    drawn = bulge(chord, chord * ratio)
    path = parse_path(f"M0 0{drawn.path(way)}")
    assert path.length(error=1e-6) == pytest.approx(chord * ratio, rel=1e-3)
    assert abs(path[-1].end - chord) < 0.01 * drawn.count
    assert drawn.height <= TALLEST
    deepest = path[0].point(0.5).imag
    assert deepest == pytest.approx(way * drawn.height, abs=0.05)


@given(CHORDS, SURPLUS)
def test_the_way_back_lies_on_the_way_there(chord: float, ratio: float) -> None:
    drawn = bulge(chord, chord * ratio)
    there = parse_path(f"M0 0{drawn.path(1)}")
    back = parse_path(f"M{chord} 0{drawn.path(1, back=True)}")
    for share in (0.1, 0.37, 0.8):
        arc, rest = divmod(share * drawn.count, 1.0)
        a = there[int(arc)].point(rest)
        b = back[drawn.count - 1 - int(arc)].point(1.0 - rest)
        assert abs(a - b) < 0.1


@given(CHORDS, SURPLUS, st.floats(0.0, 1.0), st.sampled_from([1, -1]))
def test_a_place_on_the_cloth_lies_on_the_arc(chord: float, ratio: float, share: float, way: int) -> None:
    drawn = bulge(chord, chord * ratio)
    path = parse_path(f"M0 0{drawn.path(way)}")
    arc = min(int(share * drawn.count), drawn.count - 1)
    assert abs(path[arc].point(share * drawn.count - arc) - drawn.at(share, way)) < 0.1


@given(CHORDS, st.floats(WAVED, 4.0))
def test_what_is_wanted_may_be_more_than_any_cloth(chord: float, ratio: float) -> None:
    """As it may be where cloth is missing. Near a half circle a length hangs on the last digits of the radius."""
    drawn = bulge(chord, chord * ratio)
    path = parse_path(f"M0 0{drawn.path(1)}")
    assert path.length(error=1e-6) == pytest.approx(chord * ratio, rel=1e-2)
    assert drawn.height <= TALLEST


def test_cloth_that_is_no_longer_lies_straight() -> None:
    assert bulge(100.0, 100.0).path(1) == "h100"
    assert bulge(100.0, 90.0).height == 0.0


@pytest.mark.parametrize(("ratio", "angle"), [(math.pi / 2, math.pi / 2), (math.pi / 3, math.pi / 6)])
def test_the_angle_of_arcs_that_can_be_worked_out_by_hand(ratio: float, angle: float) -> None:
    """A half circle is pi/2 times its chord, a sixth of a circle (chord = radius) is pi/3 times."""
    assert half_angle(ratio) == pytest.approx(angle, abs=1e-9)


def test_two_in_six_hundred_show() -> None:
    """The height is close to the square root of 3/8 · chord · surplus (series of the arc), 15 mm for 2 mm over 300."""
    assert bulge(300.0, 302.0).height == pytest.approx(math.sqrt(3 / 8 * 300 * 2), rel=0.01)
