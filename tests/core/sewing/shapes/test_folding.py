"""Darts and pleats folded shut, and corners beside them."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from patterns import nest_of

from notchwork.geometry import lengths
from notchwork.sewing import Nest
from notchwork.sewing.shapes.darts import darts_of, falls_short, pressed_towards, true_mouth
from notchwork.sewing.shapes.folding import edge_shut, part_of


def panel(**piece: Any) -> Nest:
    """A panel 300 wide and 400 high, its waist below, from right to left."""
    outline = [
        {"at": [0, 0], "edge": "center"},
        {"at": [0, 400], "edge": "top"},
        {"at": [300, 400], "edge": "side"},
        {"at": [300, 0], "out": [200, -20], "edge": "waist"},
    ]
    return nest_of({"notchwork": "1.0", "pieces": {"back": {"outline": outline} | piece}})


def dart(low: float, high: float, apex: list[float], **more: Any) -> dict[str, Any]:
    return {"edge": "waist", "feet": [["side", low], ["side", high]], "apex": apex} | more


def test_a_stretch_of_a_line_is_as_long_as_asked() -> None:
    nest = panel()
    line = nest.line("back", "waist")
    assert lengths(part_of(nest, line, 40, 175, 0)).sum() == pytest.approx(135, abs=1e-6)
    assert len(part_of(nest, line, 60, 60, 0)) == 0


@settings(max_examples=25, deadline=None)
@given(
    start=st.floats(20, 120),
    width=st.floats(2, 60),
    depth=st.floats(40, 300),
    from_end=st.booleans(),
)
def test_shut_an_edge_is_as_long_as_it_is_sewn_and_one_line(
    start: float, width: float, depth: float, from_end: bool
) -> None:
    nest = panel(darts={"d": dart(start, start + width, [150, depth])})
    line = nest.line("back", "waist")
    shut = edge_shut(nest, line, 0, from_end)
    assert lengths(shut).sum() == pytest.approx(float(line.sewn_length[0]), abs=1e-5)
    assert np.abs(shut[1:, 0] - shut[:-1, 3]).max() < 1e-6
    stays = (shut[-1, 3], nest.cubics_of(line, 0)[-1, 3]) if from_end else (shut[0, 0], 300 + 0j)
    assert stays[0] == pytest.approx(stays[1])


def test_a_pleat_is_folded_away_by_a_shift() -> None:
    nest = panel(pleats={"p": {"edge": "top", "folds": [["center", 100], ["center", 148]], "to": "side"}})
    shut = edge_shut(nest, nest.line("back", "top"), 0)
    assert shut[0, 0] == 400j
    assert shut[-1, 3] == pytest.approx(252 + 400j)


def test_a_dart_at_a_corner_turns_the_corner_by_its_angle() -> None:
    """90° as drawn; shut, what is left is the angle beyond the far foot: 180° less the base angle of 80°."""
    outline = [
        {"at": [0, 0], "edge": "center"},
        {"at": [0, 400], "edge": "top"},
        {"at": [300, 400], "edge": "side"},
        {"at": [300, 0], "edge": "waist"},
    ]
    width = 100 * math.tan(math.radians(10))
    shape = {"outline": outline, "darts": {"d": dart(0, width, [300, 100])}}
    nest = nest_of({"notchwork": "1.0", "pieces": {"back": shape}})
    assert nest.corners["back", "waist"].nearer_to(0)[0] == pytest.approx(100, abs=1e-6)
    assert nest.corners["back", "center"].exact[0] == pytest.approx(90)


@settings(max_examples=20, deadline=None)
@given(width=st.floats(6, 40), depth=st.floats(60, 200), way=st.sampled_from(["low", "high"]))
def test_a_true_mouth_lies_on_the_seam_when_it_is_folded(width: float, depth: float, way: Any) -> None:
    """Drawn into the outline, the true mouth falls nowhere short of the seam."""
    low, high = 140 - width / 2, 140 + width / 2
    nest = panel()
    at = [nest.point(nest.line("back", "waist"), np.array([arc]), 0) for arc in (low, high)]
    middle, across = (at[0] + at[1]) / 2, (at[1] - at[0]) / abs(at[1] - at[0])
    apex = middle - 1j * across * depth
    darts = {"d": dart(low, high, [apex.real, apex.imag], press="side" if way == "low" else "center")}
    nest = panel(darts=darts)
    [shape] = darts_of(nest)
    assert pressed_towards(nest, shape) == way
    mouth = true_mouth(nest, shape, 0, way)
    assert mouth is not None
    assert mouth[0, 0] == pytest.approx(shape.feet[0, 0])
    assert mouth[-1, 3] == pytest.approx(shape.feet[0, 1], abs=1e-6)

    def node(z: complex, **more: Any) -> dict[str, Any]:
        return {"at": [z.real, z.imag]} | more

    whole = nest.line("back", "waist")
    before, after = part_of(nest, whole, 0, low, 0), part_of(nest, whole, high, 1e9, 0)
    rows = np.concatenate([before, mouth, after])
    nodes = []
    for k, row in enumerate(rows):
        into = {"in": [rows[k - 1, 2].real, rows[k - 1, 2].imag]} if k else {}
        named = {len(before): {"name": "a"}, len(before) + len(mouth): {"name": "b"}}.get(k, {})
        edge = {"edge": "waist"} if k == 0 else {}
        nodes.append(node(row[0], out=[row[1].real, row[1].imag], **into, **named, **edge))
    outline = [
        {"at": [0, 0], "in": [rows[-1, 2].real, rows[-1, 2].imag], "edge": "center"},
        {"at": [0, 400], "edge": "top"},
        {"at": [300, 400], "edge": "side"},
        *nodes,
    ]
    true = {"d": darts["d"] | {"feet": ["a", "b"]}}
    nest = nest_of({"notchwork": "1.0", "pieces": {"back": {"outline": outline, "darts": true}}})
    [shape] = darts_of(nest)
    assert falls_short(nest, shape, 0, way) == pytest.approx(0, abs=0.01)
