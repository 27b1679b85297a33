"""Pen travel."""

from __future__ import annotations

import itertools
from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notchwork_plugins.hpgl.ink import Ink
from notchwork_plugins.hpgl.order import ordered, travel

places = st.builds(complex, st.integers(0, 400), st.integers(0, 400))


def closed(corners: list[complex]) -> Ink:
    return Ink((np.array([*corners, corners[0]]),), "cut", closed=True)


def open_(corners: list[complex]) -> Ink:
    return Ink((np.array(corners),), "cut")


def dashes(corners: list[complex]) -> Ink:
    return Ink(tuple(np.array([a, a + 3]) for a in corners), "draw")


some = st.lists(places, min_size=3, max_size=6)
inks = st.lists(st.one_of(some.map(closed), some.map(open_), some.map(dashes)), min_size=1, max_size=25)


def segments(ink: Ink) -> Counter[frozenset[complex]]:
    """What is drawn, whichever way and from wherever."""
    return Counter(
        frozenset(map(complex, line[k : k + 2])) for line in ink.lines for k in range(len(line) - 1)
    )


@settings(deadline=None)
@given(inks, places)
def test_nothing_is_lost_and_no_way_is_longer(before: list[Ink], start: complex) -> None:
    after = ordered(before, start)
    assert len(after) == len(before)
    assert sum(map(segments, after), Counter()) == sum(map(segments, before), Counter())
    assert all(ink.lines[0][0] == ink.lines[0][-1] for ink in after if ink.closed)
    assert travel(after, start) <= travel(before, start) + 1e-9


@given(inks)
@settings(max_examples=20, deadline=None)
def test_the_same_list_comes_out_in_the_same_order(before: list[Ink]) -> None:
    one, other = ordered(before), ordered(before)
    assert all(
        np.array_equal(p, q)
        for a, b in zip(one, other, strict=True)
        for p, q in zip(a.lines, b.lines, strict=True)
    )


def test_of_five_strokes_the_shortest_way_is_found_or_nearly() -> None:
    """Reference: every order and every direction tried."""
    rng = np.random.default_rng(7)
    ratios = []
    for _ in range(20):
        strokes = [open_((rng.integers(0, 300, 2) + 1j * rng.integers(0, 300, 2)).tolist()) for _ in range(5)]
        best = min(
            travel(
                [
                    strokes[k] if way else open_(strokes[k].lines[0][::-1].tolist())
                    for k, way in zip(order, ways, strict=True)
                ]
            )
            for order in itertools.permutations(range(5))
            for ways in itertools.product((True, False), repeat=5)
        )
        ratios.append(travel(ordered(strokes)) / best)
    assert min(ratios) >= 1 - 1e-9
    assert float(np.mean(ratios)) < 1.03
    assert max(ratios) < 1.25


def test_a_closed_line_is_begun_where_the_pen_comes_from() -> None:
    square = closed([100 + 0j, 100 + 100j, 0 + 100j, 50 + 0j])
    (ink,) = ordered([square], 1 + 101j)
    assert ink.lines[0][0] == 100j


def test_a_row_drawn_to_and_fro_is_drawn_in_one_go() -> None:
    """Ten strokes of 100 mm side by side, 1 mm apart: up and down alternately leaves ten moves of 1 mm."""
    rows = [open_([complex(k, 0), complex(k, 100)]) for k in (5, 2, 8, 0, 9, 1, 7, 3, 6, 4)]
    assert travel(ordered(rows)) == pytest.approx(9.0)
