"""Frames, tears and path data."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from patterns import Document, case, nest_of

from notchwork.geometry import lines as straight
from notchwork.geometry import nearest
from notchwork.pictures.glance.frame import Frame, px_a_mm, upright
from notchwork.pictures.glance.tear import KEPT, LONGEST, extent_of
from notchwork.pictures.trail import SEEN, thinned, trail

coordinates = st.floats(-500, 500)
polylines = st.lists(st.builds(complex, coordinates, coordinates), min_size=2, max_size=40).map(np.array)


def points_of(d: str) -> list[complex]:
    """The points of path data as SVG 2 reads it: M absolute, l relative."""
    start, steps = d.removesuffix("z").split("l")
    numbers = [float(word) for word in re.findall(r"-?[\d.]+", start + " " + steps)]
    return list(np.cumsum(np.array(numbers[0::2]) + 1j * np.array(numbers[1::2])))


@given(polylines)
def test_a_thinned_line_stays_within_what_can_be_seen(points: np.ndarray) -> None:
    kept = thinned(points)
    assert kept[0] == points[0]
    assert kept[-1] == points[-1]
    assert float(nearest(straight(kept), points).distance.max()) <= SEEN + 1e-9


@given(polylines)
def test_path_data_ends_where_the_line_ends(points: np.ndarray) -> None:
    drawn = points_of(trail(points))
    assert abs(drawn[0] - points[0]) <= 0.08
    assert abs(drawn[-1] - points[-1]) <= 0.08  # errors do not add up along the line


def test_a_closed_line_does_not_repeat_its_first_point() -> None:
    square = np.array([0, 10, 10 + 10j, 10j])
    assert trail(square, closed=True) == "M0 0l10 0 0 10-10 0z"


def turned_skirt(degrees: float) -> Document:
    document = case("two_panel_skirt")
    way = np.exp(1j * np.radians(degrees)) * 100
    document["pieces"]["front"]["grainline"] = [[60, 100], [60 + way.real, 100 + way.imag]]
    return document


@given(st.floats(0, 360))
def test_a_piece_stands_upright_by_its_thread_and_never_on_its_head(degrees: float) -> None:
    nest = nest_of(turned_skirt(degrees))
    turn = upright(nest, nest.pieces["front"])
    assert turn.real >= -1e-9  # by a quarter turn at most
    way = np.exp(1j * np.radians(degrees)) * turn
    off = abs((float(np.degrees(np.angle(way))) + 180) % 180 - 90)
    assert off < 1e-6 or turn == 1


@pytest.mark.parametrize(("degrees", "turns"), [(90, 0), (270, 0), (0, 90), (45, 0), (80, 10), (100, -10)])
def test_the_turn_by_hand(degrees: float, turns: float) -> None:
    nest = nest_of(turned_skirt(degrees))
    found = float(np.degrees(np.angle(upright(nest, nest.pieces["front"]))))
    assert found == pytest.approx(turns, abs=1e-6) or (turns == 90 and found == pytest.approx(-90))


@given(
    st.lists(st.floats(0, 1000), min_size=4, max_size=4, unique=True), st.floats(0, 1000), st.floats(0, 1000)
)
def test_a_tear_leaves_out_what_lies_in_it_and_nothing_else(ends: list[float], x: float, y: float) -> None:
    a, b, c, d = sorted(ends)
    frame = Frame(1 + 0j, 1.0, ((a, b), (c, d)))
    torn = frame.of(np.array([0, x, 1000 + 1j * y]))
    left_out = sum(min(max(x - low, 0), high - low) for low, high in ((a, b), (c, d)))
    assert torn[1].real == pytest.approx(x - left_out)
    assert torn[2] == pytest.approx(1000 - (b - a) - (d - c) - 1j * y)


def strip(length: float, notch: float | None = None) -> Document:
    document = case("two_panel_skirt")
    document["pieces"]["tie"] = tie = {
        "strip": {"length": length, "width": 40},
        "cut": [{"material": "cotton", "count": 1}],
    }
    if notch is not None:
        tie["notches"] = {"middle": {"edge": "lower", "at": ["start", notch]}}
    return document


def test_a_long_strip_is_torn_once_and_a_short_one_is_not() -> None:
    scale = px_a_mm(10.0)  # 0.378 px a mm
    for length, tears in ((400.0, 0), (3000.0, 1)):
        nest = nest_of(strip(length))
        extent = extent_of(nest, nest.pieces["tie"], 0, 1 + 0j)
        assert len(extent.torn(scale)) == tears
        assert extent.drawn(scale).real <= LONGEST + KEPT


def test_no_notch_is_torn_out() -> None:
    nest = nest_of(strip(3000.0, 1500.0))
    for low, high in (torn := extent_of(nest, nest.pieces["tie"], 0, 1 + 0j).torn(px_a_mm(10.0))):
        assert not low <= 1500.0 <= high
    assert torn


def test_a_curved_piece_is_never_torn() -> None:
    nest = nest_of(case("sound/circle_skirt"))
    assert extent_of(nest, nest.pieces["skirt"], 0, 1 + 0j).torn(10.0) == ()
